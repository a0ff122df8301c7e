package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import snagbench.bench.trace.Gap;

/** Tells in words what is missing of a trace. */
final class Holes {
    private Holes() {}

    static String between(Timeline timeline, int first, int last) {
        List<String> records = timeline.trace().gaps().stream()
                .filter(gap -> gap.touches(first, last))
                .map(gap -> clipped(gap, first, last))
                .toList();
        List<String> events = timeline.unknownEvents().stream()
                .filter(gap -> gap.touches(first, last))
                .map(gap -> clipped(gap, first, last))
                .distinct()
                .toList();
        List<String> parts = new ArrayList<>();
        if (!records.isEmpty()) {
            parts.add("records of " + Words.listed(records) + " are missing");
        }
        if (!events.isEmpty()) {
            parts.add("events of " + Words.listed(events) + " may be missing");
        }
        return parts.isEmpty() ? "records do not tell, in " + Words.ticks(first, last) : String.join(", ", parts);
    }

    private static String clipped(Gap gap, int first, int last) {
        return Words.ticks(Math.max(gap.firstTick(), first), Math.min(gap.lastTick(), last));
    }
}
