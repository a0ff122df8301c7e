package snagbench.bench.judge;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.Source;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.ChannelKind;
import snagbench.wire.EventKind;

/**
 * What the control code had before it in each tick of a trace when it decided: its sensors as this tick read them, its step,
 * other states and drives as the tick before left them. Ends where a safe stop begins, and at a restart. Not threadsafe.
 */
public final class ControlReadings {
    private final Timeline timeline;
    private final Signals signals;
    private final Map<Integer, Reading> real = new HashMap<>();
    private final Map<Integer, Reading> told = new HashMap<>();

    /**
     * The readings of a trace.
     *
     * @param trace what was seen
     * @param rig whose derived channels can be asked for too
     */
    public ControlReadings(Trace trace, RigFile rig) {
        FaultScript nothing = new FaultScript(
                rig.place(),
                "",
                List.of(),
                "",
                Set.of(),
                List.of(),
                List.of(),
                List.of(),
                Optional.empty(),
                List.of(),
                rig.derived(),
                Optional.empty());
        Course course = new Course(nothing, trace, 0);
        timeline = course.timeline();
        signals = course.signals();
    }

    /** One reading over the ticks: a point where it is known, a span where it may have been anything in it. */
    public static final class Reading {
        private final Cells cells;
        private final int shift;

        private Reading(Cells cells, int shift) {
            this.cells = cells;
            this.shift = shift;
        }

        /**
         * The least that it can have been.
         *
         * @param tick from 0
         * @return in the channel's steps
         */
        public long least(int tick) {
            return tick < shift ? Cells.LEAST : cells.least(tick - shift);
        }

        /**
         * The greatest that it can have been.
         *
         * @param tick from 0
         * @return in the channel's steps
         */
        public long greatest(int tick) {
            return tick < shift ? Cells.GREATEST : cells.greatest(tick - shift);
        }
    }

    /**
     * How many ticks there are.
     *
     * @return from 0
     */
    public int ticks() {
        return timeline.lastTick() + 1;
    }

    /**
     * When a tick started, at the latest.
     *
     * @param tick from 0
     * @return microseconds since arming
     */
    public long micros(int tick) {
        return timeline.latest(tick);
    }

    /**
     * A channel's readings.
     *
     * @param channel of the rig, or derived
     * @param source which reading
     * @return the readings
     */
    public Reading of(ChannelDescription channel, Source source) {
        return (source == Source.TOLD ? told : real).computeIfAbsent(channel.index(), index -> {
            boolean isLeft = channel.kind() != ChannelKind.SENSOR
                    && channel.kind() != ChannelKind.INHIBITION
                    && channel.kind() != ChannelKind.CONSTANT
                    && channel.kind() != ChannelKind.COMMAND;
            boolean isDerived = index >= timeline.trace().rig().channels().size();
            return new Reading(signals.cells(channel, source), isLeft && !isDerived ? 1 : 0);
        });
    }

    /**
     * The answers of fail-safes, in order.
     *
     * @return events, whose first figure is the fail-safe's number
     */
    public List<Happening> answers() {
        return timeline.events().stream()
                .filter(one -> one.kind() == EventKind.ANSWERED)
                .toList();
    }

    /**
     * Tells whether each answer of a tick was seen.
     *
     * @param tick from 0
     * @return false if one may be missing
     */
    public boolean hasAllAnswers(int tick) {
        return timeline.hasAllEvents(tick, tick);
    }
}
