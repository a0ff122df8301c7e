package snagbench.bench.judge;

/** One quantity less another, each in its own steps. */
final class Differences {
    private Differences() {}

    static Cells of(Cells of, Ratio ratio, Cells less, Ratio lessRatio, int ticks) {
        DerivedCells found = new DerivedCells(ticks);
        Ratio.Common common = Ratio.common(ratio, lessRatio);
        for (int tick = 0; tick < ticks; tick++) {
            if (!of.isOpen(tick) && !less.isOpen(tick)) {
                found.set(
                        tick,
                        common.floor(of.least(tick), -less.greatest(tick)),
                        common.ceiling(of.greatest(tick), -less.least(tick)));
            }
        }
        found.begin(Math.max(of.firstTick(), less.firstTick()));
        return found;
    }
}
