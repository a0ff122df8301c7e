package snagbench.bench.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;

/** When a trace's steps began and its fail-safes answered, for who looks for the moment at which something went wrong. */
final class Moments {
    private static final int MOST = 60;

    private Moments() {}

    /** A line each, in their order; the last one says how many more there are. */
    static List<String> of(Trace trace) {
        List<Seen> seen = new ArrayList<>(steps(trace));
        for (Happening event : trace.events()) {
            if (event.kind() == EventKind.ANSWERED) {
                seen.add(new Seen(event.micros(), trace.rig().failSafeName(event.a()) + " answers"));
            }
        }
        seen.sort((one, other) -> Long.compare(one.micros(), other.micros()));
        List<String> lines = new ArrayList<>();
        seen.stream().limit(MOST).forEach(one -> lines.add(one.line()));
        if (seen.size() > MOST) {
            lines.add("  and " + (seen.size() - MOST) + " more");
        }
        return lines.isEmpty() ? List.of("  neither a step nor a fail-safe") : lines;
    }

    private static List<Seen> steps(Trace trace) {
        Optional<ChannelDescription> step = trace.rig().step();
        List<Seen> seen = new ArrayList<>();
        if (step.isEmpty()) {
            return seen;
        }
        String last = "";
        for (int row = 0; row < trace.rows(); row++) {
            if (trace.has(row, step.get().index())) {
                String name = step.get().show(trace.real(row, step.get().index()));
                if (!name.equals(last)) {
                    seen.add(new Seen(trace.micros(row), name));
                }
                last = name;
            }
        }
        return seen;
    }

    private record Seen(long micros, String what) {
        String line() {
            return String.format(Locale.ROOT, "%8d ms  %s", micros / 1000, what);
        }
    }
}
