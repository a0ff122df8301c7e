package snagbench.bench.trace;

import java.util.ArrayList;
import java.util.List;

/**
 * Works out in which ticks an unseen event may have happened. Events are numbered in the order in which they happen, and
 * every record tells the newest number up to the end of its tick; both bound where a missing number belongs. An event that the rig lost for want of room has a number too, so
 * that the record's flag for that says nothing more.
 */
final class EventGaps {
    private final Columns columns;
    private final int rows;
    private final List<Happening> seen;

    private EventGaps(Columns columns, int rows, List<Happening> seen) {
        this.columns = columns;
        this.rows = rows;
        this.seen = seen;
    }

    static List<Gap> of(Columns columns, int rows, List<Happening> seen, List<int[]> missing, int greatest) {
        EventGaps search = new EventGaps(columns, rows, seen);
        List<Gap> gaps = new ArrayList<>();
        for (int[] run : missing) {
            gaps.add(new Gap(search.firstTickAfter(run[0] - 1), search.lastTickBefore(run[1])));
        }
        int newest = rows == 0 ? greatest : Math.max(greatest, columns.newestEvents[rows - 1]);
        if (newest > greatest) {
            gaps.add(new Gap(search.firstTickAfter(greatest), search.lastTickBefore(newest)));
        }
        gaps.add(new Gap(search.firstTickAfter(newest), Integer.MAX_VALUE));
        return List.copyOf(gaps);
    }

    /** The first tick in which an event behind the numbered one can have happened. */
    private int firstTickAfter(int number) {
        int first = 0;
        for (int i = seen.size() - 1; i >= 0; i--) {
            if (seen.get(i).number() <= number) {
                first = Math.max(first, seen.get(i).tick());
                break;
            }
        }
        int row = rowsWithNewestUpTo(number) - 1;
        return row < 0 ? first : Math.max(first, columns.ticks[row] + 1);
    }

    /** The last tick in which the numbered event can have happened. */
    private int lastTickBefore(int number) {
        int last = Integer.MAX_VALUE;
        for (Happening one : seen) {
            if (one.number() > number) {
                last = one.tick();
                break;
            }
        }
        int row = rowsWithNewestUpTo(number - 1);
        return row == rows ? last : Math.min(last, columns.ticks[row]);
    }

    /** How many rows, from the first on, know of no event behind the numbered one. */
    private int rowsWithNewestUpTo(int number) {
        int low = 0;
        int high = rows;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (columns.newestEvents[middle] <= number) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }
}
