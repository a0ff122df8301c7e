package snagbench.bench.trace;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.RigDescription;

/**
 * What was seen of a rig from arming on: a row for each record, numbered events, and what is known to be missing. Ticks
 * are counted from arming, which is tick 0, and times in microseconds from the start of that tick, on the rig's own
 * clock.
 *
 * <p>A view of fixed size: it does not change when more is recorded. Values are in the channels' steps.
 */
public final class Trace {
    private final RigDescription rig;
    private final int periodTicks;
    private final int[] watched;
    private final int[] places;
    private final Columns columns;
    private final int rows;
    private final List<Happening> events;
    private final List<int[]> missingEvents;
    private final int greatestEvent;
    private final @Nullable Restart restart;
    private final @Nullable Trace afterRestart;
    private final boolean programHidden;
    private @Nullable List<Gap> gaps;
    private @Nullable List<Gap> eventGaps;

    Trace(
            RigDescription rig,
            int periodTicks,
            int[] watched,
            int[] places,
            Columns columns,
            int rows,
            EventLog events,
            @Nullable Restart restart,
            @Nullable Trace afterRestart) {
        this.rig = rig;
        this.periodTicks = periodTicks;
        this.watched = watched;
        this.places = places;
        this.columns = columns;
        this.rows = rows;
        this.events = events.view();
        this.missingEvents = events.missing();
        this.greatestEvent = events.greatest();
        this.restart = restart;
        this.afterRestart = afterRestart;
        this.programHidden = false;
    }

    private Trace(Trace whole, int rows, @Nullable Trace afterRestart) {
        int lastTick = rows == 0 ? -1 : whole.tick(rows - 1);
        boolean isWhole = rows == whole.rows;
        this.rig = whole.rig;
        this.periodTicks = whole.periodTicks;
        this.watched = whole.watched;
        this.places = whole.places;
        this.columns = whole.columns;
        this.rows = rows;
        this.events = isWhole
                ? whole.events
                : whole.events.stream().filter(one -> one.tick() <= lastTick).toList();
        this.missingEvents = whole.missingEvents;
        this.greatestEvent = whole.greatestEvent;
        this.restart = isWhole ? whole.restart : null;
        this.afterRestart = isWhole ? afterRestart : null;
        this.programHidden = whole.programHidden;
    }

    /** The same trace of a rig that describes itself otherwise. */
    private Trace(
            Trace whole,
            RigDescription rig,
            int[] watched,
            int[] places,
            List<Happening> events,
            boolean programHidden) {
        this.rig = rig;
        this.periodTicks = whole.periodTicks;
        this.watched = watched;
        this.places = places;
        this.columns = whole.columns;
        this.rows = whole.rows;
        this.events = events;
        this.missingEvents = whole.missingEvents;
        this.greatestEvent = whole.greatestEvent;
        this.restart = whole.restart;
        Trace part = whole.afterRestart;
        this.afterRestart = part == null ? null : part.under(rig);
        this.programHidden = programHidden;
    }

    /**
     * The same trace up to a time, so that what was seen because somebody listened longer does not count. What is behind a
     * restart is not cut.
     *
     * @param micros the last record is the first at or behind this time, in microseconds since arming
     * @return this trace where it does not reach so far
     */
    public Trace upTo(long micros) {
        int count = rowsUpTo(micros);
        return count >= rows ? this : new Trace(this, count, null);
    }

    /**
     * The same trace, its part behind a restart up to a time.
     *
     * @param micros the last record of that part is the first at or behind this time, in microseconds on its own clock
     * @return this trace where that part does not reach so far, or is not there
     */
    public Trace upToAfterRestart(long micros) {
        Trace part = afterRestart;
        if (part == null) {
            return this;
        }
        Trace cut = part.upTo(micros);
        return cut == part ? this : new Trace(this, rows, cut);
    }

    private int rowsUpTo(long micros) {
        int row = 0;
        while (row < rows && columns.micros[row] < micros) {
            row++;
        }
        return row + 1;
    }

    /**
     * This trace as one of a rig that describes itself otherwise: channels and fail-safes go by their names. A channel that
     * is not the same in both, or was not there, counts as one that was not recorded.
     *
     * @param other the other description
     * @return this trace where the description is the same
     */
    public Trace under(RigDescription other) {
        return rig.channels().equals(other.channels()) && rig.failSafes().equals(other.failSafes())
                ? this
                : Renaming.between(rig, other).of(this);
    }

    /** With the channels by their new indices, and events that speak of them. */
    Trace renamed(RigDescription other, int[] newIndices, List<Happening> renamedEvents) {
        int[] newPlaces = new int[other.channels().size()];
        Arrays.fill(newPlaces, -1);
        int[] kept = Arrays.stream(watched)
                .filter(channel -> newIndices[channel] >= 0)
                .toArray();
        for (int channel : kept) {
            newPlaces[newIndices[channel]] = places[channel];
        }
        int[] newWatched =
                Arrays.stream(kept).map(channel -> newIndices[channel]).toArray();
        return new Trace(this, other, newWatched, newPlaces, renamedEvents, programHidden);
    }

    /**
     * The same trace without anything of the program that was armed: no entry is active, none begins or ends, no stage is
     * done. For scripts that were not the one that was armed, since entries go by numbers.
     *
     * @return a trace that knows of no entries
     */
    public Trace withoutProgram() {
        List<Happening> others = events.stream()
                .filter(one -> switch (one.kind()) {
                    case ENTRY_ON, ENTRY_OFF, STAGE_DONE, STAGE_TIMED_OUT -> false;
                    default -> true;
                })
                .toList();
        return new Trace(this, rig, watched, places, others, true);
    }

    /**
     * What the rig tells of itself.
     *
     * @return its description
     */
    public RigDescription rig() {
        return rig;
    }

    /**
     * How many ticks one row speaks for: its own and those before it.
     *
     * @return from 1
     */
    public int periodTicks() {
        return periodTicks;
    }

    /**
     * How many records are here.
     *
     * @return from 0
     */
    public int rows() {
        return rows;
    }

    /**
     * Which tick a row is of.
     *
     * @param row from 0
     * @return from 0; rows are in ascending order of their ticks
     */
    public int tick(int row) {
        return columns.ticks[row];
    }

    /**
     * When that tick started.
     *
     * @param row from 0
     * @return microseconds since arming
     */
    public long micros(int row) {
        return columns.micros[row];
    }

    /**
     * Finds the first row at a tick or behind it.
     *
     * @param tick from 0
     * @return its number; {@link #rows()} where there is none
     */
    public int rowAtOrAfter(int tick) {
        int found = Arrays.binarySearch(columns.ticks, 0, rows, tick);
        return found >= 0 ? found : -found - 1;
    }

    /**
     * Which entries of the program were active in the row's tick.
     *
     * @param row from 0
     * @return bit n for entry n
     */
    public int active(int row) {
        return programHidden ? 0 : columns.active[row];
    }

    /**
     * The state of the probe in the row's tick.
     *
     * @param row from 0
     * @return flags of {@link snagbench.wire.Record}, added
     */
    public int flags(int row) {
        return columns.flags[row];
    }

    /**
     * The newest event up to the end of the row's tick.
     *
     * @param row from 0
     * @return its number; 0 for none since arming
     */
    public int newestEvent(int row) {
        return columns.newestEvents[row];
    }

    /**
     * Records that the rig could not send since the session began.
     *
     * @param row from 0
     * @return count up to this row
     */
    public int dropped(int row) {
        return columns.dropped[row];
    }

    /**
     * The recorded channels, in the order in which records carry them.
     *
     * @return their indices
     */
    public int[] watchedChannels() {
        return watched.clone();
    }

    /**
     * Tells whether a channel is recorded.
     *
     * @param channel its index
     * @return true if it is
     */
    public boolean isWatched(int channel) {
        return places[channel] >= 0;
    }

    /**
     * Tells whether a row has a channel's values: it is recorded, and the part of the record with it arrived.
     *
     * @param row from 0
     * @param channel its index
     * @return true if it has
     */
    public boolean has(int row, int channel) {
        return places[channel] >= 0 && columns.isPresent(row, places[channel]);
    }

    /**
     * What the control code was told in the row's tick.
     *
     * @param row from 0
     * @param channel index of a channel that the row {@linkplain #has has}
     * @return in the channel's steps
     */
    public int told(int row, int channel) {
        return columns.told[at(row, channel)];
    }

    /**
     * The reading as it came in, in the row's tick.
     *
     * @param row from 0
     * @param channel index of a channel that the row {@linkplain #has has}
     * @return in the channel's steps
     */
    public int real(int row, int channel) {
        return columns.real[at(row, channel)];
    }

    /**
     * Least told value of the ticks that the row speaks for.
     *
     * @param row from 0
     * @param channel index of a channel that the row {@linkplain #has has}
     * @return in the channel's steps
     */
    public int leastTold(int row, int channel) {
        return (periodTicks > 1 ? columns.leastTold : columns.told)[at(row, channel)];
    }

    /**
     * Greatest told value of the ticks that the row speaks for.
     *
     * @param row from 0
     * @param channel index of a channel that the row {@linkplain #has has}
     * @return in the channel's steps
     */
    public int greatestTold(int row, int channel) {
        return (periodTicks > 1 ? columns.greatestTold : columns.told)[at(row, channel)];
    }

    /**
     * Least real value of the ticks that the row speaks for.
     *
     * @param row from 0
     * @param channel index of a channel that the row {@linkplain #has has}
     * @return in the channel's steps
     */
    public int leastReal(int row, int channel) {
        return (periodTicks > 1 ? columns.leastReal : columns.real)[at(row, channel)];
    }

    /**
     * Greatest real value of the ticks that the row speaks for.
     *
     * @param row from 0
     * @param channel index of a channel that the row {@linkplain #has has}
     * @return in the channel's steps
     */
    public int greatestReal(int row, int channel) {
        return (periodTicks > 1 ? columns.greatestReal : columns.real)[at(row, channel)];
    }

    /**
     * Tells whether the channel was under an override at some tick that the row speaks for.
     *
     * @param row from 0
     * @param channel its index
     * @return true if it was
     */
    public boolean wasForced(int row, int channel) {
        return places[channel] >= 0 && columns.isForced(row, places[channel]);
    }

    /**
     * Tells whether the control code did not read the channel in the row's tick; its values are older.
     *
     * @param row from 0
     * @param channel its index
     * @return true if they are
     */
    public boolean stale(int row, int channel) {
        return places[channel] >= 0 && columns.isStale(row, places[channel]);
    }

    /**
     * Tells whether the channel had no reading in the row's tick, so that the control code was told its value when absent.
     *
     * @param row from 0
     * @param channel its index
     * @return true if it had none
     */
    public boolean absent(int row, int channel) {
        return places[channel] >= 0 && columns.isAbsent(row, places[channel]);
    }

    /** Whether an event was seen, whatever its kind. */
    boolean sawEvent(int number) {
        if (number < 1 || number > greatestEvent) {
            return false;
        }
        for (int[] run : missingEvents) {
            if (run[0] <= number && number <= run[1]) {
                return false;
            }
        }
        return true;
    }

    /** The greatest number of an event that was seen. */
    int greatestEvent() {
        return greatestEvent;
    }

    /** Of a row of several ticks. */
    int shortestLoopMicros(int row) {
        return columns.shortestLoops[row];
    }

    /** Of a row of several ticks. */
    int longestLoopMicros(int row) {
        return columns.longestLoops[row];
    }

    private int at(int row, int channel) {
        return row * columns.width + places[channel];
    }

    /**
     * The ticks up to the last row that no row speaks for.
     *
     * @return in ascending order
     */
    public List<Gap> gaps() {
        List<Gap> found = gaps;
        if (found == null) {
            found = findGaps();
            gaps = found;
        }
        return found;
    }

    private List<Gap> findGaps() {
        List<Gap> found = new ArrayList<>();
        int next = 0;
        for (int row = 0; row < rows; row++) {
            int first = tick(row) - periodTicks + 1;
            if (first > next) {
                found.add(new Gap(next, first - 1));
            }
            next = tick(row) + 1;
        }
        return List.copyOf(found);
    }

    /**
     * The events that were seen.
     *
     * @return in order of their numbers, which is the order in which they happened
     */
    public List<Happening> events() {
        return events;
    }

    /**
     * The ticks in which an unseen event may have happened. The last one begins where knowledge ends, and has no end.
     *
     * @return at least one
     */
    public List<Gap> eventGaps() {
        List<Gap> found = eventGaps;
        if (found == null) {
            found = EventGaps.of(columns, rows, events, missingEvents, greatestEvent);
            eventGaps = found;
        }
        return found;
    }

    /**
     * Tells whether every event of a span of ticks was seen.
     *
     * @param firstTick first tick of the span
     * @param lastTick last tick of the span
     * @return false if one may be missing
     */
    public boolean hasAllEvents(int firstTick, int lastTick) {
        for (Gap gap : eventGaps()) {
            if (gap.touches(firstTick, lastTick)) {
                return false;
            }
        }
        return true;
    }

    /**
     * Up to which tick every event was seen.
     *
     * @return the tick; -1 where not even those of tick 0 are known to be complete
     */
    public int completeEventsThroughTick() {
        int first = Integer.MAX_VALUE;
        for (Gap gap : eventGaps()) {
            first = Math.min(first, gap.firstTick());
        }
        return first - 1;
    }

    /**
     * The controller's restart, where there was one. Its clock began anew: what was seen behind it is a part of its own.
     *
     * @return the restart
     */
    public Optional<Restart> restart() {
        return Optional.ofNullable(restart);
    }

    /**
     * What was seen behind the controller's restart, where somebody went on listening. Its ticks and its clock are those of
     * the new boot, both from 0 on; its events are numbered from the boot on.
     *
     * @return the part behind the restart
     */
    public Optional<Trace> afterRestart() {
        return Optional.ofNullable(afterRestart);
    }

    /**
     * The usual time from one tick to the next.
     *
     * @return the median in microseconds (where a row speaks for several ticks, of the mean loop of a row); 0 where no
     *     two rows follow each other
     */
    public long medianLoopMicros() {
        long[] loops = new long[rows];
        int count = 0;
        for (int row = 1; row < rows; row++) {
            if (tick(row) - tick(row - 1) == periodTicks) {
                loops[count++] = (micros(row) - micros(row - 1)) / periodTicks;
            }
        }
        if (count == 0) {
            return 0;
        }
        Arrays.sort(loops, 0, count);
        return loops[(count - 1) / 2];
    }

    /**
     * The longest time from one tick to the next, as far as it was seen.
     *
     * @return in microseconds; 0 where no two rows follow each other
     */
    public long longestLoopMicros() {
        long longest = 0;
        for (int row = 1; row < rows; row++) {
            if (periodTicks > 1) {
                longest = Math.max(longest, columns.longestLoops[row]);
            } else if (tick(row) - tick(row - 1) == 1) {
                longest = Math.max(longest, micros(row) - micros(row - 1));
            }
        }
        return longest;
    }
}
