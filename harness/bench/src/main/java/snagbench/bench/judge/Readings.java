package snagbench.bench.judge;

import java.util.stream.Collectors;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Answers;
import snagbench.bench.script.Condition.Compares;
import snagbench.bench.script.Condition.Term;
import snagbench.bench.script.Source;
import snagbench.bench.trace.Trace;

/** What channels read, in words. */
final class Readings {
    private Readings() {}

    /** What the terms of a condition read in a tick, such as "step REACHING, reach.position 120.0 mm". */
    static String of(Trace trace, Condition condition, int tick) {
        return condition.terms().stream().map(term -> of(trace, term, tick)).collect(Collectors.joining(", "));
    }

    private static String of(Trace trace, Term term, int tick) {
        if (term instanceof Answers answers) {
            return answers.failSafe().name() + " silent";
        }
        Compares compares = (Compares) term;
        int row = trace.rowAtOrAfter(tick);
        String name = name(compares);
        boolean isThere = row < trace.rows()
                && trace.tick(row) == tick
                && trace.has(row, compares.channel().index());
        return isThere ? name + " " + compares.channel().show(Signal.point(trace, row, compares)) : name + " not known";
    }

    static String name(Compares compares) {
        return compares.channel().name() + (compares.source() == Source.TOLD ? " (told)" : "");
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

    /** How far a reading lies from a limit, such as "0.58 V"; empty where that has no size. */
    static String distance(ChannelDescription channel, long steps) {
        if (!channel.valueNames().isEmpty() || steps > Integer.MAX_VALUE || steps < 0) {
            return "";
        }
        return channel.show((int) steps);
    }
}
