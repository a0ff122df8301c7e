package snagbench.bench.judge;

import java.math.BigDecimal;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Source;
import snagbench.bench.trace.Trace;

/** What channels read, in words. */
final class Readings {
    private Readings() {}

    /** What a channel was at a tick, such as "reach.position 120.0 mm". */
    static String of(ChannelDescription channel, String name, Cells cells, int tick) {
        if (cells.isOpen(tick)) {
            return name + " not known";
        }
        long least = cells.least(tick);
        long greatest = cells.greatest(tick);
        return name + " " + (least == greatest ? "" : show(channel, least) + " to ") + show(channel, greatest);
    }

    /** The name of a channel, and which of its readings is meant where that is not the real one. */
    static String name(ChannelDescription channel, Source source) {
        return channel.name() + (source == Source.TOLD ? " (told)" : "");
    }

    /** A number of steps of a channel, figure and unit or name. */
    static String show(ChannelDescription channel, long steps) {
        if (steps == (int) steps) {
            return channel.show((int) steps);
        }
        String figure = channel.step().multiply(BigDecimal.valueOf(steps)).toPlainString();
        return channel.unit().isEmpty() ? figure : figure + " " + channel.unit();
    }

    /** The control code's step in a tick, such as "step REACHING"; empty where it is not known. */
    static String step(Trace trace, int tick) {
        int row = trace.rowAtOrAfter(tick);
        if (row == trace.rows() || trace.tick(row) != tick) {
            return "";
        }
        return trace.rig()
                .step()
                .filter(step -> trace.has(row, step.index()))
                .map(step -> step.name() + " " + step.show(trace.real(row, step.index())))
                .orElse("");
    }
}
