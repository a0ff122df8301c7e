package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import snagbench.bench.trace.Gap;

/** Tells in words what is missing of a trace. */
final class Holes {
    private Holes() {}

    static String between(Timeline timeline, int first, int last) {
        List<String> parts = new ArrayList<>();
        for (Gap gap : timeline.trace().gaps()) {
            if (gap.touches(first, last)) {
                parts.add("records of " + clipped(gap, first, last));
            }
        }
        for (Gap gap : timeline.unknownEvents()) {
            if (gap.touches(first, last)) {
                parts.add("events of " + clipped(gap, first, last));
            }
        }
        if (parts.isEmpty()) {
            return "records are too far apart, or a channel is not recorded, in " + Words.ticks(first, last);
        }
        return Words.listed(parts) + (parts.size() == 1 ? " is missing or may be" : " are missing or may be");
    }

    private static String clipped(Gap gap, int first, int last) {
        return Words.ticks(Math.max(gap.firstTick(), first), Math.min(gap.lastTick(), last));
    }
}
