package snagbench.bench.session;

import java.util.Locale;
import java.util.Optional;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.LeftOut;
import snagbench.wire.RequestBody;
import snagbench.wire.Term;
import snagbench.wire.Timing;

/**
 * What the connected rig's probe cannot do of a program, by its own greeting. Scripts are checked against a stored description
 * before; but builds of one description can differ in this.
 */
final class Abilities {
    private Abilities() {}

    /** What is missing for a program, as people say it; empty if nothing is. */
    static Optional<String> missing(RigProgram program, int kinds) {
        return program.messages().stream()
                .flatMap(message -> missing(message, kinds).stream())
                .findFirst();
    }

    private static Optional<String> missing(RequestBody message, int kinds) {
        if (message instanceof Entry entry) {
            EntryKind kind = EntryKind.of(entry.kind);
            return kind != null && (kinds >>> kind.code() & 1) == 0
                    ? Optional.of(kind.name().toLowerCase(Locale.ROOT).replace('_', '-'))
                    : Optional.empty();
        }
        if (message instanceof Timing timing) {
            if (LeftOut.TIMINGS.isIn(kinds)) {
                return Optional.of("timings (for, delay, count, every-time, intermittent)");
            }
            return timing.onMicros != 0 && LeftOut.RHYTHM.isIn(kinds) ? Optional.of("intermittent") : Optional.empty();
        }
        if (message instanceof Term term) {
            Comparison comparison = Comparison.of(term.comparison);
            boolean windowed = comparison == Comparison.FASTER_THAN || comparison == Comparison.SLOWER_THAN;
            return windowed && LeftOut.WINDOWS.isIn(kinds) ? Optional.of("moves") : Optional.empty();
        }
        return Optional.empty();
    }
}
