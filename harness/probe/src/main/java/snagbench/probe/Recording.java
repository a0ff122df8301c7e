package snagbench.probe;

import snagbench.wire.CborWriter;
import snagbench.wire.FrameWriter;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.Watch;
import snagbench.wire.Wire;

/** What the bench watches, and how it is put into records. A record that finds no room is dropped and counted. */
final class Recording {
    private static final int LONGEST_PERIOD = 0xFFFF;

    private final int[] watched;
    private final Readings readings;
    private final Period period;
    private int watchedCount;
    private int periodTicks = 1;
    private int dropped;

    Recording(Readings readings, int channels) {
        this.readings = readings;
        this.watched = new int[channels];
        this.period = new Period(channels);
    }

    void clear() {
        watchedCount = 0;
        dropped = 0;
        period.restart();
    }

    int watchedCount() {
        return watchedCount;
    }

    void watch(Watch watch, Outcome outcome) {
        int[] channels = watch.channels();
        if (watch.periodTicks < 1 || watch.periodTicks > LONGEST_PERIOD) {
            outcome.malformed(0);
            return;
        }
        if (watch.first != 0 && watch.first != watchedCount) {
            outcome.malformed(1);
            return;
        }
        if (watch.first + channels.length > watched.length) {
            outcome.refused(Refusal.NO_ROOM, watched.length);
            return;
        }
        for (int i = 0; i < channels.length; i++) {
            if (channels[i] < 0 || channels[i] >= watched.length) {
                outcome.malformed(2 + i);
                return;
            }
        }
        periodTicks = watch.periodTicks;
        System.arraycopy(channels, 0, watched, watch.first, channels.length);
        watchedCount = watch.first + channels.length;
        period.restart();
        outcome.done();
    }

    void restartPeriod() {
        period.restart();
    }

    void loopTook(int micros) {
        period.loopTook(micros);
    }

    /** Takes the tick at its end and tells whether a record is due. */
    boolean isDue() {
        if (watchedCount == 0) {
            return false;
        }
        if (periodTicks > 1) {
            period.take(readings, watched, watchedCount);
            return period.ticks() >= periodTicks;
        }
        return true;
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
        boolean ofPeriod = periodTicks > 1;
        boolean[] forcedChannels = ofPeriod ? period.forced : readings.forced;
        int forced = 0;
        int stale = 0;
        int absent = 0;
        for (int i = 0; i < count; i++) {
            int channel = watched[from + i];
            forced |= forcedChannels[channel] ? 1 << i : 0;
            stale |= readings.readNow[channel] ? 0 : 1 << i;
            absent |= readings.absent[channel] ? 1 << i : 0;
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
        if (ofPeriod) {
            out.integer(period.shortestLoop());
            out.integer(period.longestLoop());
        }
        values(out, readings.told, from, count, -1);
        values(out, readings.real, from, count, forced);
        if (ofPeriod) {
            values(out, period.leastTold, from, count, -1);
            values(out, period.greatestTold, from, count, -1);
            values(out, period.leastReal, from, count, forced);
            values(out, period.greatestReal, from, count, forced);
        }
        return frame.end();
    }

    private void values(CborWriter out, int[] values, int from, int count, int mask) {
        for (int i = 0; i < count; i++) {
            if (((mask >>> i) & 1) != 0) {
                out.integer(values[watched[from + i]]);
            }
        }
    }

    int nextPart(int from) {
        return Math.min(watchedCount - from, Wire.MASK_BITS);
    }
}
