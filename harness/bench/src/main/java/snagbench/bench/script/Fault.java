package snagbench.bench.script;

import java.math.BigDecimal;
import java.util.List;
import java.util.OptionalLong;

/** What an override does to a reading. Values are in the channel's steps, times in microseconds. */
public sealed interface Fault {
    /**
     * The reading is a value.
     *
     * @param raw the value
     */
    record StuckAt(int raw) implements Fault {}

    /** The reading stays at its last good value. */
    record Freeze() implements Fault {}

    /**
     * A value is added.
     *
     * @param raw the value
     * @param overMicros time in which it ramps in; 0 for at once. {@link RampRate} has a rate for it
     */
    record Offset(int raw, long overMicros) implements Fault {}

    /**
     * A value is added for a short while.
     *
     * @param raw the value
     * @param forMicros for how long; empty for one tick
     */
    record Spike(int raw, OptionalLong forMicros) implements Fault {}

    /**
     * The reading is multiplied.
     *
     * @param factor any sign; on the line in 1/65536, so that it lies within -32768 and 32768
     */
    record Scale(BigDecimal factor) implements Fault {}

    /**
     * A value is added that grows with time.
     *
     * @param rawPerSecond how fast, in the channel's steps per second
     */
    record Drift(BigDecimal rawPerSecond) implements Fault {}

    /**
     * Seeded noise is added, a new value in each tick; none is beyond 3.45 standard deviations.
     *
     * @param raw standard deviation, in the channel's steps, above 0
     */
    record Noise(BigDecimal raw) implements Fault {}

    /** There is no reading: what the control code is told then, the channel declares. */
    record Dropout() implements Fault {}

    /**
     * The reading is an older one.
     *
     * @param ticks how many ticks older, from 1
     */
    record Delay(int ticks) implements Fault {}

    /**
     * The reading follows a curve, held from point to point.
     *
     * @param points at least one, by ascending ticks
     */
    record Replay(List<Point> points) implements Fault {
        /** Copies the list. */
        public Replay {
            points = List.copyOf(points);
        }
    }

    /**
     * A point of a curve.
     *
     * @param ticks since the override took effect
     * @param raw value from that tick on
     */
    record Point(int ticks, int raw) {}
}
