package snagbench.bench.judge;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import snagbench.bench.trace.Trace;

/** A condition as a signal over ticks, three-valued: what it can be, given all that the trace leaves open. */
final class Signal {
    private final Trace trace;
    private final List<TermSignal> terms;
    private final @Nullable Entries entries;

    /**
     * Puts a condition together.
     *
     * @param trace whose rows it is asked for
     * @param terms that must all hold
     * @param entries tells in which ticks the condition came about anew, where events tell that
     */
    Signal(Trace trace, List<TermSignal> terms, @Nullable Entries entries) {
        this.trace = trace;
        this.terms = List.copyOf(terms);
        this.entries = entries;
    }

    /** What the condition can be at the end of a tick, as {@link Truth}. */
    int at(int tick) {
        int truth = Truth.TRUE;
        for (int i = 0; i < terms.size() && truth != Truth.FALSE; i++) {
            truth = Truth.and(truth, terms.get(i).at(tick));
        }
        return truth;
    }

    /** All that the condition can be in a span of ticks. */
    int everywhere(int first, int last) {
        int found = 0;
        for (int tick = first; tick <= last; tick++) {
            found |= at(tick);
        }
        return found;
    }

    /** Tells whether an event says that the condition came about anew in a tick: it is but one state of one channel. */
    boolean entersAt(int tick) {
        return entries != null && entries.at(tick);
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
        int first = Math.max(0, last - trace.periodTicks() + 1);
        int found = 0;
        int wavering = 0;
        boolean waveringHolds = false;
        for (TermSignal term : terms) {
            int everywhere = 0;
            for (int tick = first; tick <= last; tick++) {
                everywhere |= term.at(tick);
            }
            int some = everywhere == Truth.UNKNOWN ? term.somewhere(row, first, last) : everywhere;
            found |= some & Truth.FALSE;
            if (everywhere != Truth.TRUE) {
                wavering++;
                waveringHolds = (some & Truth.TRUE) != 0;
            }
        }
        boolean holdsSomewhere = wavering == 0 || (wavering == 1 && waveringHolds);
        return found | (holdsSomewhere ? Truth.TRUE : 0);
    }

    /** What its terms read in a tick, such as "step REACHING, reach.position 120.0 mm". */
    String reading(int tick) {
        return terms.stream().map(term -> term.reading(tick)).collect(Collectors.joining(", "));
    }

    /** Since when it reads so, where it is about a state; empty where it is not, or where that is not known. */
    String since(int tick, Timeline timeline, Moment.Known anchor) {
        if (terms.size() != 1 || !terms.get(0).isState()) {
            return "";
        }
        int from = tick;
        while (from > 0 && terms.get(0).reading(from - 1).equals(terms.get(0).reading(tick))) {
            from--;
        }
        return from == tick
                ? ""
                : ", since " + (from == 0 ? "arming" : Words.at(timeline.latest(from) - anchor.micros()));
    }

    /** The first tick at which all of its terms say something. */
    int firstTick() {
        return terms.stream().mapToInt(TermSignal::firstTick).max().orElse(0);
    }

    /** How far it is from its limit, where it compares but one reading and that has such a distance. */
    Optional<Slack> slack() {
        return Narrowest.of(terms);
    }

    /** Tells in which ticks an event says that a state was entered. */
    interface Entries {
        /** True where it was entered in this tick. */
        boolean at(int tick);
    }
}
