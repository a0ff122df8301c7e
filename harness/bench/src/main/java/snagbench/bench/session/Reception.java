package snagbench.bench.session;

import java.util.Arrays;
import java.util.OptionalLong;
import java.util.function.Consumer;
import snagbench.wire.Record;

/** Counts what comes of a rig's records: how many, how many are missing, and what loop times they tell. */
public final class Reception implements Consumer<Record> {
    /** Loop times kept for the median, the newest of them. */
    private static final int KEPT = 4096;

    private final int[] loops = new int[KEPT];
    private long loopCount;
    private long shortest = Long.MAX_VALUE;
    private long longest;
    private long periodMicros;
    private long periodLoops;

    private boolean any;
    private int lastTick;
    private int lastMicros;
    private int lastDropped;
    private long dropped;
    private long records;
    private long missing;

    /** Nothing has come yet. */
    public Reception() {}

    @Override
    public void accept(Record part) {
        // A record in parts tells the same of its tick in each.
        if (part.first != 0) {
            return;
        }
        if (any) {
            if (part.tick - lastTick <= 0) {
                return;
            }
            next(part);
        }
        any = true;
        records++;
        lastDropped = part.dropped;
        lastTick = part.tick;
        lastMicros = part.micros;
    }

    private void next(Record part) {
        int ticks = part.tick - lastTick;
        int micros = part.micros - lastMicros;
        missing += (ticks - 1) / part.periodTicks;
        dropped += part.dropped - lastDropped;
        periodLoops += ticks;
        periodMicros += micros;
        if (part.periodTicks > 1) {
            shortest = Math.min(shortest, part.shortestLoopMicros);
            longest = Math.max(longest, part.longestLoopMicros);
        } else if (ticks == 1) {
            loops[(int) (loopCount % KEPT)] = micros;
            loopCount++;
            shortest = Math.min(shortest, micros);
            longest = Math.max(longest, micros);
        }
    }

    /** What is between the last record and the next is not counted: nobody has looked. */
    public void lookAway() {
        any = false;
    }

    /**
     * Records that came.
     *
     * @return how many
     */
    public long records() {
        return records;
    }

    /**
     * Records that did not come, though they were due, between the first and the last that did.
     *
     * @return how many
     */
    public long missing() {
        return missing;
    }

    /**
     * Of the missing ones, those that the rig itself could not put on the line, for want of room.
     *
     * @return how many
     */
    public long dropped() {
        return dropped;
    }

    /**
     * The usual loop time, of records for each tick.
     *
     * @return half of the newest loops were no longer, in microseconds; empty where none was seen
     */
    public OptionalLong medianLoopMicros() {
        int count = (int) Math.min(loopCount, KEPT);
        if (count == 0) {
            return OptionalLong.empty();
        }
        int[] sorted = Arrays.copyOf(loops, count);
        Arrays.sort(sorted);
        return OptionalLong.of(sorted[count / 2]);
    }

    /**
     * The mean loop time over all that passed, seen or not.
     *
     * @return in microseconds; empty where less than two records came
     */
    public OptionalLong meanLoopMicros() {
        return periodLoops == 0
                ? OptionalLong.empty()
                : OptionalLong.of(Math.round((double) periodMicros / periodLoops));
    }

    /**
     * The longest loop seen.
     *
     * @return in microseconds; empty where none was seen
     */
    public OptionalLong longestLoopMicros() {
        return longest == 0 ? OptionalLong.empty() : OptionalLong.of(longest);
    }

    /**
     * The shortest loop seen.
     *
     * @return in microseconds; empty where none was seen
     */
    public OptionalLong shortestLoopMicros() {
        return shortest == Long.MAX_VALUE ? OptionalLong.empty() : OptionalLong.of(shortest);
    }
}
