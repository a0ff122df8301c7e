package snagbench.bench.judge;

import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.DerivedChannel;

/** Works out derived channels by interval arithmetic, rounded outward onto their grids, in one pass over the ticks each. */
final class Formulas {
    private Formulas() {}

    static Cells of(DerivedChannel derived, Signals signals, Timeline timeline) {
        ChannelDescription channel = derived.channel();
        DerivedChannel.Formula formula = derived.formula();
        int ticks = timeline.lastKnownTick() + 1;
        if (formula instanceof DerivedChannel.Rate it) {
            Cells cells = signals.cells(it.of(), it.source());
            return Rates.of(timeline, cells, it.overMicros(), ratio(it.of(), channel), ticks);
        }
        if (formula instanceof DerivedChannel.Difference it) {
            return Differences.of(
                    signals.cells(it.of(), it.source()),
                    ratio(it.of(), channel),
                    signals.cells(it.less(), it.lessSource()),
                    ratio(it.less(), channel),
                    ticks);
        }
        if (formula instanceof DerivedChannel.Sum it) {
            return Sums.of(
                    signals.cells(it.of(), it.source()),
                    ratio(it.of(), channel),
                    signals.cells(it.and(), it.andSource()),
                    ratio(it.and(), channel),
                    ticks);
        }
        if (formula instanceof DerivedChannel.Mean it) {
            Cells cells = signals.cells(it.of(), it.source());
            return new Averages(timeline, cells, it.overMicros(), ticks).mean(ratio(it.of(), channel));
        }
        if (formula instanceof DerivedChannel.RootMeanSquare it) {
            Cells cells = signals.cells(it.of(), it.source());
            return new Averages(timeline, cells, it.overMicros(), ticks).rootMeanSquare(ratio(it.of(), channel));
        }
        if (formula instanceof DerivedChannel.Stalled it) {
            Cells cells = signals.cells(it.of(), it.source());
            return Stalls.of(timeline, cells, it.raw(), it.overMicros(), signals.of(it.driven()), ticks);
        }
        DerivedChannel.Debounced it = (DerivedChannel.Debounced) formula;
        return Debounce.of(timeline, signals.of(it.condition()), it.forMicros(), ticks);
    }

    private static Ratio ratio(ChannelDescription from, ChannelDescription to) {
        return Ratio.of(from.step(), to.step());
    }
}
