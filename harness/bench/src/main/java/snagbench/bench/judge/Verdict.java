package snagbench.bench.judge;

/**
 * What a script came to. The five values of ETSI ES 201 873-1 (clause 24.1), in ascending order of gravity: a worse one
 * is never overwritten by a better.
 */
public enum Verdict {
    /** Nothing was judged. */
    NONE("none"),
    /** Everything that was expected came about, and the fault was there. */
    PASS("pass"),
    /** What was seen settles nothing. */
    INCONCLUSIVE("inconclusive"),
    /** Something that was expected did not come about. */
    FAIL("fail"),
    /** The harness, a guard or the line ended the script; the control code was not judged. */
    ERROR("error");

    private final String word;

    Verdict(String word) {
        this.word = word;
    }

    /**
     * The word for reports.
     *
     * @return such as "inconclusive"
     */
    public String word() {
        return word;
    }

    /**
     * The worse of two.
     *
     * @param other the other
     * @return this one where they are the same
     */
    public Verdict worse(Verdict other) {
        return compareTo(other) >= 0 ? this : other;
    }
}
