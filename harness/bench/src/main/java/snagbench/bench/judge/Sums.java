package snagbench.bench.judge;

/** One quantity and another added, each in its own steps. */
final class Sums {
    private Sums() {}

    static Cells of(Cells of, Ratio ratio, Cells and, Ratio andRatio, int ticks) {
        DerivedCells found = new DerivedCells(ticks);
        Ratio.Common common = Ratio.common(ratio, andRatio);
        for (int tick = 0; tick < ticks; tick++) {
            if (!of.isOpen(tick) && !and.isOpen(tick)) {
                found.set(
                        tick,
                        common.floor(of.least(tick), and.least(tick)),
                        common.ceiling(of.greatest(tick), and.greatest(tick)));
            }
        }
        found.begin(Math.max(of.firstTick(), and.firstTick()));
        return found;
    }
}
