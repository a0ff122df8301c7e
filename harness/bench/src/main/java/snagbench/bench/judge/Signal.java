package snagbench.bench.judge;

import java.util.List;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Answers;
import snagbench.bench.script.Condition.Compares;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Condition.Term;
import snagbench.bench.script.Source;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.ChannelKind;
import snagbench.wire.EventKind;

/**
 * A condition as a signal over ticks. A cell of the trace is an interval: a point where a value was recorded, least to
 * greatest where a record speaks for several ticks, anything at all where it was lost.
 */
final class Signal {
    private static final int NEAR = 64;

    private final Timeline timeline;
    private final Trace trace;
    private final List<Term> terms;
    private final @Nullable StateValues[] states;
    private int lastRow;

    Signal(Timeline timeline, Condition condition) {
        this.timeline = timeline;
        this.trace = timeline.trace();
        this.terms = condition.terms();
        this.states = new StateValues[terms.size()];
        for (int i = 0; i < states.length; i++) {
            if (terms.get(i) instanceof Compares compares && compares.channel().kind() == ChannelKind.STATE) {
                states[i] = new StateValues(timeline, compares.channel().index());
            }
        }
    }

    /** What the condition can be at the end of a tick, as {@link Truth}. */
    int at(int tick) {
        int row = rowFor(tick);
        int truth = Truth.TRUE;
        for (int i = 0; i < states.length && truth != Truth.FALSE; i++) {
            truth = Truth.and(truth, term(i, tick, row));
        }
        return truth;
    }

    /** Ticks are mostly asked for in their order, so the row is mostly the last one or the next. */
    int rowFor(int tick) {
        while (lastRow < trace.rows() && trace.tick(lastRow) < tick && tick - trace.tick(lastRow) <= NEAR) {
            lastRow++;
        }
        boolean fits = (lastRow == trace.rows() || trace.tick(lastRow) >= tick)
                && (lastRow == 0 || trace.tick(lastRow - 1) < tick);
        if (!fits) {
            lastRow = trace.rowAtOrAfter(tick);
        }
        return lastRow;
    }

    private int term(int index, int tick, int row) {
        Term term = terms.get(index);
        if (term instanceof Answers answers) {
            return answers(answers, tick);
        }
        Compares compares = (Compares) term;
        StateValues state = states[index];
        if (state != null) {
            OptionalInt value = state.at(tick);
            return value.isPresent()
                    ? Truth.of(compares.relation().holds(value.getAsInt(), compares.raw()))
                    : Truth.UNKNOWN;
        }
        int channel = compares.channel().index();
        if (row < trace.rows() && trace.has(row, channel)) {
            if (trace.tick(row) == tick) {
                return Truth.of(compares.relation().holds(point(trace, row, compares), compares.raw()));
            }
            if (tick > trace.tick(row) - trace.periodTicks()) {
                return Truth.of(
                        compares.relation(),
                        compares.raw(),
                        least(trace, row, compares),
                        greatest(trace, row, compares));
            }
        }
        return Truth.of(compares.relation(), compares.raw(), Integer.MIN_VALUE, Integer.MAX_VALUE);
    }

    private int answers(Answers answers, int tick) {
        for (Happening one : timeline.events()) {
            if (one.tick() == tick
                    && one.is(EventKind.ANSWERED, answers.failSafe().number())) {
                return Truth.TRUE;
            }
        }
        return timeline.hasAllEvents(tick, tick) ? Truth.FALSE : Truth.UNKNOWN;
    }

    /** Tells whether an event says that the condition came about anew in a tick: it is but one state of one channel. */
    boolean entersAt(int tick) {
        StateValues state = states[0];
        return states.length == 1
                && state != null
                && terms.get(0) instanceof Compares compares
                && compares.relation() == Relation.IS
                && state.entersAt(tick, compares.raw());
    }

    /**
     * What the condition certainly was at some tick that a row speaks for: least and greatest were both there, so a peak
     * between records is not lost.
     *
     * @param row of a record of several ticks
     * @return {@link Truth} bits, each set where it certainly was so at some tick; maybe none
     */
    int somewhere(int row) {
        int last = trace.tick(row);
        int first = last - trace.periodTicks() + 1;
        int found = 0;
        int wavering = 0;
        boolean waveringHolds = false;
        for (int i = 0; i < states.length; i++) {
            int everywhere = 0;
            for (int tick = first; tick <= last; tick++) {
                everywhere |= term(i, tick, row);
            }
            int some = everywhere == Truth.UNKNOWN ? attained(i, row) : everywhere;
            found |= some & Truth.FALSE;
            if (everywhere != Truth.TRUE) {
                wavering++;
                waveringHolds = (some & Truth.TRUE) != 0;
            }
        }
        boolean holdsSomewhere = wavering == 0 || (wavering == 1 && waveringHolds);
        return found | (holdsSomewhere ? Truth.TRUE : 0);
    }

    private int attained(int index, int row) {
        if (states[index] == null
                && terms.get(index) instanceof Compares compares
                && trace.has(row, compares.channel().index())) {
            return Truth.of(compares.relation().holds(least(trace, row, compares), compares.raw()))
                    | Truth.of(compares.relation().holds(greatest(trace, row, compares), compares.raw()))
                    | Truth.of(compares.relation().holds(point(trace, row, compares), compares.raw()));
        }
        int found = 0;
        for (int tick = trace.tick(row) - trace.periodTicks() + 1; tick <= trace.tick(row); tick++) {
            int truth = term(index, tick, row);
            found |= truth == Truth.UNKNOWN ? 0 : truth;
        }
        return found;
    }

    static int point(Trace trace, int row, Compares compares) {
        int channel = compares.channel().index();
        return compares.source() == Source.TOLD ? trace.told(row, channel) : trace.real(row, channel);
    }

    static int least(Trace trace, int row, Compares compares) {
        int channel = compares.channel().index();
        return compares.source() == Source.TOLD ? trace.leastTold(row, channel) : trace.leastReal(row, channel);
    }

    static int greatest(Trace trace, int row, Compares compares) {
        int channel = compares.channel().index();
        return compares.source() == Source.TOLD ? trace.greatestTold(row, channel) : trace.greatestReal(row, channel);
    }
}
