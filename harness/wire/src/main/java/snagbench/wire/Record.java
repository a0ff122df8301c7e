package snagbench.wire;

import org.jspecify.annotations.Nullable;

/**
 * The readings of one tick, or of a period of ticks, as far as one frame holds them: {@link #first} says where in the
 * watched list this part begins. A record is complete in itself: one lost frame is one gap.
 *
 * <p>On the line, behind the head: told values; real values of the forced channels; and where the period is longer than
 * one tick the least told, greatest told, least real and greatest real values, the last two of the forced channels.
 */
public final class Record implements Reply {
    /** Flag: a program is armed. */
    public static final int ARMED = 1;

    /** Flag: a lease lives. */
    public static final int LEASED = 2;

    /** Flag: the safe stop is running. */
    public static final int STOPPING = 4;

    /** Flag: a stop is latched. */
    public static final int LATCHED = 8;

    /** Flag: events were lost since arming, because too many were unseen. */
    public static final int EVENTS_LOST = 16;

    /** Flag: the program has ended because a stage was not done in time. */
    public static final int PROGRAM_ENDED = 32;

    /** Flag: more parts of this record follow. */
    public static final int MORE = 64;

    private static final int HEAD_FIELDS = 13;

    /** Ticks that the record speaks for, from 1; {@link #tick} is the last of them. */
    public final int periodTicks;

    /** Number of the tick. */
    public final int tick;

    /** The rig's clock at the start of the tick, in microseconds modulo 2^32. */
    public final int micros;

    /** Active entries in the tick: bit n for entry n. */
    public final int active;

    /** Flags, added. */
    public final int flags;

    /** Number of the newest event up to the end of this tick. */
    public final int newestEvent;

    /** Records that could not be sent since the session began. */
    public final int dropped;

    /** Shortest loop in the period, in microseconds; 0 where the period is one tick. */
    public final int shortestLoopMicros;

    /** Longest loop in the period, in microseconds; 0 where the period is one tick. */
    public final int longestLoopMicros;

    /** Place in the watched list of the first channel here. */
    public final int first;

    /** Bit n: the n-th channel here was under an override at some tick of the period, and carries real values too. */
    public final int forced;

    /** Bit n: the n-th channel here was not read in the tick; its values are older. */
    public final int stale;

    /** Bit n: the n-th channel here had no reading (dropout): told is the value when absent. */
    public final int absent;

    private final int[] told;
    private final int[] real;
    private final int[] leastTold;
    private final int[] greatestTold;
    private final int[] leastReal;
    private final int[] greatestReal;

    private Record(Builder from) {
        periodTicks = from.periodTicks;
        tick = from.tick;
        micros = from.micros;
        active = from.active;
        flags = from.flags;
        newestEvent = from.newestEvent;
        dropped = from.dropped;
        shortestLoopMicros = from.shortestLoopMicros;
        longestLoopMicros = from.longestLoopMicros;
        first = from.first;
        forced = from.forced;
        stale = from.stale;
        absent = from.absent;
        told = from.told;
        real = from.real;
        leastTold = from.leastTold;
        greatestTold = from.greatestTold;
        leastReal = from.leastReal;
        greatestReal = from.greatestReal;
    }

    /**
     * How many channels are in this part.
     *
     * @return from 0 to 32
     */
    public int count() {
        return told.length;
    }

    /**
     * Last told value.
     *
     * @param place in this part, from 0
     * @return in the channel's steps
     */
    public int told(int place) {
        return told[place];
    }

    /**
     * Last real value; the told one where no override was on.
     *
     * @param place in this part, from 0
     * @return in the channel's steps
     */
    public int real(int place) {
        return real[place];
    }

    /**
     * Least told value of the period.
     *
     * @param place in this part, from 0
     * @return in the channel's steps
     */
    public int leastTold(int place) {
        return leastTold[place];
    }

    /**
     * Greatest told value of the period.
     *
     * @param place in this part, from 0
     * @return in the channel's steps
     */
    public int greatestTold(int place) {
        return greatestTold[place];
    }

    /**
     * Least real value of the period; the told one where no override was on.
     *
     * @param place in this part, from 0
     * @return in the channel's steps
     */
    public int leastReal(int place) {
        return leastReal[place];
    }

    /**
     * Greatest real value of the period; the told one where no override was on.
     *
     * @param place in this part, from 0
     * @return in the channel's steps
     */
    public int greatestReal(int place) {
        return greatestReal[place];
    }

    static @Nullable Record read(CborReader in, int fields) {
        Builder to = new Builder();
        to.periodTicks = in.int32();
        to.tick = in.uint32();
        to.micros = in.uint32();
        to.active = in.uint32();
        to.flags = in.int32();
        to.newestEvent = in.uint32();
        to.dropped = in.uint32();
        to.first = in.int32();
        int count = in.int32();
        to.forced = in.uint32();
        to.stale = in.uint32();
        to.absent = in.uint32();
        boolean period = to.periodTicks > 1;
        if (in.failed() || count < 0 || count > Wire.MASK_BITS || to.periodTicks < 1) {
            return null;
        }
        if (!within(to.forced | to.stale | to.absent, count)) {
            return null;
        }
        if (period) {
            to.shortestLoopMicros = in.int32();
            to.longestLoopMicros = in.int32();
        }
        if (fields != fieldsBehindType(to.periodTicks, count, to.forced)) {
            return null;
        }
        to.told = values(in, count);
        to.real = realValues(in, to.told, to.forced);
        if (period) {
            to.leastTold = values(in, count);
            to.greatestTold = values(in, count);
            to.leastReal = realValues(in, to.leastTold, to.forced);
            to.greatestReal = realValues(in, to.greatestTold, to.forced);
        } else {
            to.leastTold = to.told;
            to.greatestTold = to.told;
            to.leastReal = to.real;
            to.greatestReal = to.real;
        }
        return new Record(to);
    }

    private static boolean within(int mask, int count) {
        return count == Wire.MASK_BITS || mask >>> count == 0;
    }

    private static int fieldsBehindType(int periodTicks, int count, int forced) {
        int once = count + Integer.bitCount(forced);
        return HEAD_FIELDS - 1 + (periodTicks > 1 ? 2 + 3 * once : once);
    }

    private static int[] values(CborReader in, int count) {
        int[] values = new int[count];
        for (int i = 0; i < count; i++) {
            values[i] = in.int32();
        }
        return values;
    }

    private static int[] realValues(CborReader in, int[] told, int forced) {
        if (forced == 0) {
            return told;
        }
        int[] real = told.clone();
        for (int left = forced; left != 0; left &= left - 1) {
            real[Integer.numberOfTrailingZeros(left)] = in.int32();
        }
        return real;
    }

    /**
     * Writes everything before the values.
     *
     * @param out takes it
     * @param periodTicks see the field
     * @param tick see the field
     * @param micros see the field
     * @param active see the field
     * @param flags see the field
     * @param newestEvent see the field
     * @param dropped see the field
     * @param first see the field
     * @param count how many channels follow
     * @param forced see the field
     * @param stale see the field
     * @param absent see the field
     */
    public static void writeHead(
            CborWriter out,
            int periodTicks,
            int tick,
            int micros,
            int active,
            int flags,
            int newestEvent,
            int dropped,
            int first,
            int count,
            int forced,
            int stale,
            int absent) {
        out.array(1 + fieldsBehindType(periodTicks, count, forced));
        out.integer(MessageType.RECORD.code());
        out.integer(periodTicks);
        out.integer(tick & 0xFFFFFFFFL);
        out.integer(micros & 0xFFFFFFFFL);
        out.integer(active & 0xFFFFFFFFL);
        out.integer(flags);
        out.integer(newestEvent & 0xFFFFFFFFL);
        out.integer(dropped & 0xFFFFFFFFL);
        out.integer(first);
        out.integer(count);
        out.integer(forced & 0xFFFFFFFFL);
        out.integer(stale & 0xFFFFFFFFL);
        out.integer(absent & 0xFFFFFFFFL);
    }

    @Override
    public void write(CborWriter out) {
        writeHead(
                out,
                periodTicks,
                tick,
                micros,
                active,
                flags,
                newestEvent,
                dropped,
                first,
                told.length,
                forced,
                stale,
                absent);
        boolean period = periodTicks > 1;
        if (period) {
            out.integer(shortestLoopMicros);
            out.integer(longestLoopMicros);
        }
        writeValues(out, told, -1);
        writeValues(out, real, forced);
        if (period) {
            writeValues(out, leastTold, -1);
            writeValues(out, greatestTold, -1);
            writeValues(out, leastReal, forced);
            writeValues(out, greatestReal, forced);
        }
    }

    private static void writeValues(CborWriter out, int[] values, int mask) {
        for (int i = 0; i < values.length; i++) {
            if ((mask >>> i & 1) != 0) {
                out.integer(values[i]);
            }
        }
    }

    /** Gathers the parts of a record; all start at 0 or empty, the period at 1 tick. */
    public static final class Builder {
        private static final int[] NONE = new int[0];

        private int periodTicks = 1;
        private int tick;
        private int micros;
        private int active;
        private int flags;
        private int newestEvent;
        private int dropped;
        private int shortestLoopMicros;
        private int longestLoopMicros;
        private int first;
        private int forced;
        private int stale;
        private int absent;
        private int[] told = NONE;
        private int[] real = NONE;
        private int[] leastTold = NONE;
        private int[] greatestTold = NONE;
        private int[] leastReal = NONE;
        private int[] greatestReal = NONE;

        /** Starts a record of one tick without channels. */
        public Builder() {}

        /**
         * When it is, and what it speaks for.
         *
         * @param number of the tick
         * @param clock start of the tick, in microseconds modulo 2^32
         * @return this
         */
        public Builder tick(int number, int clock) {
            tick = number;
            micros = clock;
            return this;
        }

        /**
         * The state of the probe.
         *
         * @param activeEntries mask
         * @param flagBits flags, added
         * @param newest number of the newest event
         * @param droppedRecords count
         * @return this
         */
        public Builder state(int activeEntries, int flagBits, int newest, int droppedRecords) {
            active = activeEntries;
            flags = flagBits;
            newestEvent = newest;
            dropped = droppedRecords;
            return this;
        }

        /**
         * The values of one tick.
         *
         * @param firstPlace place in the watched list of the first
         * @param toldValues told
         * @param realValues real, as many
         * @param forcedMask which differ
         * @param staleMask which were not read
         * @param absentMask which had no reading
         * @return this
         */
        public Builder values(
                int firstPlace, int[] toldValues, int[] realValues, int forcedMask, int staleMask, int absentMask) {
            first = firstPlace;
            told = toldValues.clone();
            real = realValues.clone();
            leastTold = told;
            greatestTold = told;
            leastReal = real;
            greatestReal = real;
            forced = forcedMask;
            stale = staleMask;
            absent = absentMask;
            return this;
        }

        /**
         * Makes it a record of a period; after {@link #values}.
         *
         * @param ticks of the period, above 1
         * @param shortestMicros shortest loop
         * @param longestMicros longest loop
         * @param least least told values, then real
         * @param greatest greatest told values, then real
         * @return this
         */
        public Builder period(int ticks, int shortestMicros, int longestMicros, int[][] least, int[][] greatest) {
            periodTicks = ticks;
            shortestLoopMicros = shortestMicros;
            longestLoopMicros = longestMicros;
            leastTold = least[0].clone();
            leastReal = least[1].clone();
            greatestTold = greatest[0].clone();
            greatestReal = greatest[1].clone();
            return this;
        }

        /**
         * Makes the record.
         *
         * @return the record
         * @throws IllegalArgumentException if told and real differ in number, or there are more than 32
         */
        public Record build() {
            if (told.length != real.length || told.length > Wire.MASK_BITS) {
                throw new IllegalArgumentException(
                        told.length + " told and " + real.length + " real values; as many of both, at most 32");
            }
            return new Record(this);
        }
    }
}
