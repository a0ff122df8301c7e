package snagbench.bench.trace;

import java.util.Arrays;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.RigDescription;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Record;
import snagbench.wire.ResetCause;

/**
 * Gathers what a rig reports from arming on. Ticks, times and event numbers are counted from arming. Not threadsafe.
 */
public final class TraceRecorder {
    private final RigDescription rig;
    private final int periodTicks;
    private final int[] watched;
    private final int[] places;
    private final int armedTick;
    private final int newestEventAtArming;
    private final Columns columns;
    private final EventLog events = new EventLog();

    private int rows;
    private boolean rowOpen;
    private int newestTick = -1;
    private int lastWireMicros;
    private long lastMicros;
    private @Nullable Restart restart;
    private @Nullable TraceRecorder after;

    /**
     * Begins an empty trace.
     *
     * @param rig what the rig tells of itself
     * @param periodTicks ticks that one record speaks for, from 1
     * @param watchedChannels indices of the recorded channels, in the order in which records carry them
     * @param armedTick number of the tick that is to be tick 0, as the rig counts
     * @param armedMicros the rig's clock at the start of that tick, in microseconds modulo 2^32
     * @param newestEventAtArming number of the newest event before arming, as the rig counts
     */
    public TraceRecorder(
            RigDescription rig,
            int periodTicks,
            int[] watchedChannels,
            int armedTick,
            int armedMicros,
            int newestEventAtArming) {
        this.rig = rig;
        this.periodTicks = periodTicks;
        this.watched = watchedChannels.clone();
        this.armedTick = armedTick;
        this.lastWireMicros = armedMicros;
        this.newestEventAtArming = newestEventAtArming;
        this.places = placesByChannel(rig, watched);
        this.columns = new Columns(watched.length, periodTicks > 1);
    }

    /**
     * Takes a record, or a part of one. What is from before arming, repeated or out of order is left out: the rig sends
     * records in order, so such a one can only be old.
     *
     * @param part from the rig
     */
    public void record(Record part) {
        int tick = part.tick - armedTick;
        if (restart != null
                || tick < 0
                || tick < newestTick
                || part.periodTicks != periodTicks
                || part.first < 0
                || part.first + part.count() > columns.width) {
            return;
        }
        if (tick > newestTick) {
            closeRow();
            open(tick, part);
        } else if (!rowOpen) {
            return;
        }
        columns.fill(rows, part);
        if ((part.flags & Record.MORE) == 0) {
            closeRow();
        }
    }

    private void open(int tick, Record head) {
        columns.begin(rows, tick, widened(head.micros), head, head.newestEvent - newestEventAtArming);
        newestTick = tick;
        lastMicros = columns.micros[rows];
        lastWireMicros = head.micros;
        rowOpen = true;
    }

    private void closeRow() {
        if (!rowOpen) {
            return;
        }
        rowOpen = false;
        rows++;
    }

    /**
     * A reading of the rig's clock as a time of this trace.
     *
     * @param wireMicros the clock modulo 2^32, within 35 minutes of the newest record
     * @return in microseconds since arming
     */
    public long sinceArming(int wireMicros) {
        return widened(wireMicros);
    }

    /** Times are compared by signed difference, so anything within 35 minutes of the newest record is placed rightly. */
    private long widened(int wireMicros) {
        return lastMicros + (wireMicros - lastWireMicros);
    }

    /**
     * Takes an event; a repeated one, or one from before arming, is left out. They may come in any order.
     *
     * @param event from the rig
     */
    public void event(Event event) {
        int number = event.number - newestEventAtArming;
        if (restart != null || number <= 0 || !events.isNew(number)) {
            return;
        }
        EventKind kind = EventKind.of(event.kind);
        if (kind != null) {
            events.add(new Happening(number, event.tick - armedTick, widened(event.micros), kind, event.a, event.b));
        }
    }

    /**
     * The newest event up to which all were seen, as the rig counts: what the bench tells the rig with the lease.
     *
     * @return its number; the newest at arming where none was seen since
     */
    public int contiguousEvents() {
        return newestEventAtArming + events.contiguous();
    }

    /**
     * Notes that the controller started anew.
     *
     * @param cause as the controller tells it
     */
    public void restarted(ResetCause cause) {
        restarted(cause, OptionalLong.empty());
    }

    /**
     * Notes that the controller started anew.
     *
     * @param cause as the controller tells it
     * @param noLaterMicros it was no later than this, by the host's clock, in microseconds since arming
     */
    public void restarted(ResetCause cause, OptionalLong noLaterMicros) {
        closeRow();
        if (restart == null) {
            restart = new Restart(cause, newestTick, noLaterMicros);
        }
    }

    /**
     * Begins the part behind the controller's restart. Its ticks, times and events count from the new boot.
     *
     * @param watchedChannels indices of the recorded channels, in the order in which records carry them
     * @return takes what the rig reports from now on
     * @throws IllegalStateException if no restart was noted, or such a part was begun before
     */
    public TraceRecorder afterRestart(int[] watchedChannels) {
        if (restart == null || after != null) {
            throw new IllegalStateException(restart == null ? "no restart was noted" : "begun already");
        }
        after = new TraceRecorder(rig, periodTicks, watchedChannels, 0, 0, 0);
        return after;
    }

    /**
     * What is there now. Cheap: columns are shared, not copied.
     *
     * @return a view that does not change when more comes
     */
    public Trace trace() {
        TraceRecorder part = after;
        return new Trace(
                rig, periodTicks, watched, places, columns, rows, events, restart, part == null ? null : part.trace());
    }

    RigDescription rig() {
        return rig;
    }

    int periodTicks() {
        return periodTicks;
    }

    /** How many channels are recorded. */
    int width() {
        return watched.length;
    }

    private static int[] placesByChannel(RigDescription rig, int[] watched) {
        int[] places = new int[rig.channels().size()];
        Arrays.fill(places, -1);
        for (int place = 0; place < watched.length; place++) {
            places[watched[place]] = place;
        }
        return places;
    }
}
