package snagbench.bench.report.register;

/** How many comparisons of two boxes a whole table may take: a second or a few, whatever the register. */
final class Effort {
    /** The register of a real rig takes some ten thousand. */
    static final long MOST = 10_000_000;

    private long left = MOST;

    Effort() {}

    void take(long count) {
        left -= count;
    }

    boolean isUsedUp() {
        return left <= 0;
    }
}
