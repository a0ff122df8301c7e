package snagbench.probe;

import snagbench.wire.CborWriter;
import snagbench.wire.FrameWriter;
import snagbench.wire.Record;
import snagbench.wire.Wire;

/** What the bench watches, and how it is put into records. A record that finds no room is dropped and counted. */
final class Recording {
    private final int[] watched;
    private final Readings readings;
    private int watchedCount;
    private int periodTicks = 1;
    private int ticksInPeriod;
    private int shortestLoop;
    private int longestLoop;
    private int dropped;

    Recording(Readings readings) {
        this.readings = readings;
        this.watched = new int[readings.real.length];
    }

    void clear() {
        watchedCount = 0;
        dropped = 0;
        restartPeriod();
    }

    /** Most channels that can be watched. */
    int capacity() {
        return watched.length;
    }

    int watchedCount() {
        return watchedCount;
    }

    void watch(int period, int first, int[] channels) {
        periodTicks = period;
        System.arraycopy(channels, 0, watched, first, channels.length);
        watchedCount = first + channels.length;
        restartPeriod();
    }

    void restartPeriod() {
        ticksInPeriod = 0;
        shortestLoop = Integer.MAX_VALUE;
        longestLoop = 0;
        readings.beginPeriod();
    }

    void loopTook(int micros) {
        shortestLoop = Math.min(shortestLoop, micros);
        longestLoop = Math.max(longestLoop, micros);
    }

    /** Tells at the end of a tick whether a record is due. */
    boolean isDue() {
        ticksInPeriod++;
        return watchedCount > 0 && ticksInPeriod >= periodTicks;
    }

    void drop() {
        dropped++;
    }

    /**
     * Writes one part of the record.
     *
     * @param from place in the watched list of the part's first channel
     * @param count channels in the part
     * @return false if it does not fit a frame
     */
    boolean write(
            FrameWriter frame, int from, int count, int tick, int micros, int active, int flags, int newestEvent) {
        int forced = 0;
        int stale = 0;
        int absent = 0;
        for (int i = 0; i < count; i++) {
            int channel = watched[from + i];
            forced |= readings.forcedInPeriod[channel] ? 1 << i : 0;
            stale |= readings.readNow[channel] ? 0 : 1 << i;
            absent |= readings.absentNow[channel] ? 1 << i : 0;
        }
        boolean last = from + count == watchedCount;
        CborWriter out = frame.begin();
        Record.writeHead(
                out,
                periodTicks,
                tick,
                micros,
                active,
                last ? flags : flags | Record.MORE,
                newestEvent,
                dropped,
                from,
                count,
                forced,
                stale,
                absent);
        boolean period = periodTicks > 1;
        if (period) {
            out.integer(Math.min(shortestLoop, longestLoop));
            out.integer(longestLoop);
        }
        values(out, readings.told, from, count, -1);
        values(out, readings.real, from, count, forced);
        if (period) {
            for (int i = 0; i < count; i++) {
                readings.closePeriod(watched[from + i]);
            }
            values(out, readings.leastTold, from, count, -1);
            values(out, readings.greatestTold, from, count, -1);
            values(out, readings.leastReal, from, count, forced);
            values(out, readings.greatestReal, from, count, forced);
        }
        return frame.end();
    }

    private void values(CborWriter out, int[] values, int from, int count, int mask) {
        for (int i = 0; i < count; i++) {
            if ((mask >>> i & 1) != 0) {
                out.integer(values[watched[from + i]]);
            }
        }
    }

    int nextPart(int from) {
        return Math.min(watchedCount - from, Wire.MASK_BITS);
    }
}
