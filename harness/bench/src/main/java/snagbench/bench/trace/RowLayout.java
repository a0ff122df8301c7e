package snagbench.bench.trace;

import java.util.ArrayList;
import java.util.List;
import snagbench.wire.Record;
import snagbench.wire.Wire;

/**
 * A row of a trace as a list of integers, of which few change from one row to the next: the form in which a file keeps it.
 * Real values are kept as differences from the told ones, extremes as differences from the last values.
 */
final class RowLayout {
    static final int TICK = 0;
    static final int MICROS = 1;
    private static final int ACTIVE = 2;
    private static final int FLAGS = 3;
    private static final int NEWEST = 4;
    private static final int DROPPED = 5;
    private static final int SHORTEST = 6;
    private static final int LONGEST = 7;
    private static final int MASKS = 8;
    private static final int MASKS_OF_ROW = 4;
    private static final int VALUES = 2;
    private static final int VALUES_OF_PERIOD = 6;

    private final int width;
    private final int periodTicks;
    private final int words;

    RowLayout(int width, int periodTicks) {
        this.width = width;
        this.periodTicks = periodTicks;
        this.words = (width + Wire.MASK_BITS - 1) / Wire.MASK_BITS;
    }

    int periodTicks() {
        return periodTicks;
    }

    /** How many integers a row is. */
    int length() {
        return MASKS + MASKS_OF_ROW * words + (periodTicks > 1 ? VALUES_OF_PERIOD : VALUES) * width;
    }

    /** A row as integers; what it does not have stays as it was, since it then needs no room. */
    void fill(int[] to, Trace trace, int row) {
        to[TICK] = trace.tick(row);
        to[MICROS] = (int) trace.micros(row);
        to[ACTIVE] = trace.active(row);
        to[FLAGS] = trace.flags(row);
        to[NEWEST] = trace.newestEvent(row);
        to[DROPPED] = trace.dropped(row);
        if (periodTicks > 1) {
            to[SHORTEST] = trace.shortestLoopMicros(row);
            to[LONGEST] = trace.longestLoopMicros(row);
        }
        int[] channels = trace.watchedChannels();
        for (int word = 0; word < MASKS_OF_ROW * words; word++) {
            to[MASKS + word] = 0;
        }
        for (int place = 0; place < width; place++) {
            int channel = channels[place];
            if (!trace.has(row, channel)) {
                continue;
            }
            mark(to, 0, place, true);
            mark(to, 1, place, trace.wasForced(row, channel));
            mark(to, 2, place, trace.stale(row, channel));
            mark(to, 3, place, trace.absent(row, channel));
            int told = trace.told(row, channel);
            int real = trace.real(row, channel);
            to[at(0, place)] = told;
            to[at(1, place)] = real - told;
            if (periodTicks > 1) {
                to[at(2, place)] = trace.leastTold(row, channel) - told;
                to[at(3, place)] = trace.greatestTold(row, channel) - told;
                to[at(4, place)] = trace.leastReal(row, channel) - real;
                to[at(5, place)] = trace.greatestReal(row, channel) - real;
            }
        }
    }

    private int at(int kind, int place) {
        return MASKS + MASKS_OF_ROW * words + kind * width + place;
    }

    private void mark(int[] to, int mask, int place, boolean marked) {
        if (marked) {
            to[MASKS + mask * words + place / Wire.MASK_BITS] |= 1 << place % Wire.MASK_BITS;
        }
    }

    private boolean isMarked(int[] from, int mask, int place) {
        return (from[MASKS + mask * words + place / Wire.MASK_BITS] >>> place % Wire.MASK_BITS & 1) != 0;
    }

    /** The marks of some places, the first of them lowest. */
    private int marks(int[] from, int mask, int first, int count) {
        int word = MASKS + mask * words + first / Wire.MASK_BITS;
        int shift = first % Wire.MASK_BITS;
        int marks = from[word] >>> shift;
        if (shift + count > Wire.MASK_BITS) {
            marks |= from[word + 1] << (Wire.MASK_BITS - shift);
        }
        return count == Wire.MASK_BITS ? marks : marks & ((1 << count) - 1);
    }

    /** The records that a rig would have sent of such a row: as many as there are stretches of channels that it has. */
    List<Record> records(int[] from) {
        List<int[]> stretches = new ArrayList<>();
        for (int place = 0; place < width; place++) {
            if (!isMarked(from, 0, place)) {
                continue;
            }
            int[] last = stretches.isEmpty() ? new int[] {-1, -1} : stretches.get(stretches.size() - 1);
            if (last[1] == place && place - last[0] < Wire.MASK_BITS) {
                last[1] = place + 1;
            } else {
                stretches.add(new int[] {place, place + 1});
            }
        }
        if (stretches.isEmpty()) {
            stretches.add(new int[] {0, 0});
        }
        List<Record> records = new ArrayList<>();
        for (int i = 0; i < stretches.size(); i++) {
            records.add(record(from, stretches.get(i)[0], stretches.get(i)[1], i + 1 < stretches.size()));
        }
        return records;
    }

    private Record record(int[] from, int first, int behind, boolean more) {
        int count = behind - first;
        int[][] values = new int[periodTicks > 1 ? VALUES_OF_PERIOD : VALUES][count];
        int[] masks = new int[MASKS_OF_ROW];
        for (int mask = 1; mask < MASKS_OF_ROW; mask++) {
            masks[mask] = marks(from, mask, first, count);
        }
        for (int i = 0; i < count; i++) {
            int told = from[at(0, first + i)];
            int real = told + from[at(1, first + i)];
            values[0][i] = told;
            values[1][i] = real;
            if (periodTicks > 1) {
                values[2][i] = told + from[at(2, first + i)];
                values[3][i] = told + from[at(3, first + i)];
                values[4][i] = real + from[at(4, first + i)];
                values[5][i] = real + from[at(5, first + i)];
            }
        }
        Record.Builder part = new Record.Builder()
                .tick(from[TICK], from[MICROS])
                .state(from[ACTIVE], from[FLAGS] | (more ? Record.MORE : 0), from[NEWEST], from[DROPPED])
                .values(first, values[0], values[1], masks[1], masks[2], masks[3]);
        if (periodTicks > 1) {
            part.period(periodTicks, from[SHORTEST], from[LONGEST], new int[][] {values[2], values[4]}, new int[][] {
                values[3], values[5]
            });
        }
        return part.build();
    }
}
