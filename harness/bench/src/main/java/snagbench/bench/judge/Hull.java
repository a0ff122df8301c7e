package snagbench.bench.judge;

/** All that a quantity can have been in a window of ticks whose edges only move on. */
final class Hull {
    private final Cells cells;
    private final Extremes greatest = new Extremes();
    private final Extremes greatestNegative = new Extremes();
    private int next;

    Hull(Cells cells) {
        this.cells = cells;
    }

    /** Spans the ticks from one to another, both included, neither before that of the last time. */
    void span(int from, int to) {
        for (; next <= to; next++) {
            boolean isOpen = cells.isOpen(next);
            greatest.add(next, isOpen ? Cells.GREATEST : cells.greatest(next));
            greatestNegative.add(next, isOpen ? -Cells.LEAST : -cells.least(next));
        }
        greatest.dropBefore(from);
        greatestNegative.dropBefore(from);
    }

    long least() {
        return -greatestNegative.greatest();
    }

    long greatest() {
        return greatest.greatest();
    }

    /** Tells whether nothing bounds it. */
    boolean isOpen() {
        return least() <= Cells.LEAST || greatest() >= Cells.GREATEST;
    }
}
