package snagbench.bench.report.sheet;

import java.util.OptionalLong;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.InjectionFacts;
import snagbench.bench.judge.Judgement;
import snagbench.bench.trace.Trace;

/**
 * The part of a trace that a chart shows: around the injection, up to whatever was asked for.
 *
 * @param fromMicros its start, since arming
 * @param toMicros its end, behind its start
 */
record Stretch(long fromMicros, long toMicros) {
    private static final long LEAST_AROUND_MICROS = 150_000;
    private static final int SHARE_AROUND = 8;

    static Stretch of(Judgement judgement, Trace trace) {
        long end = trace.rows() == 0 ? 1 : Math.max(1, trace.micros(trace.rows() - 1));
        OptionalLong first = judgement.injections().stream()
                .map(InjectionFacts::firstMicros)
                .filter(OptionalLong::isPresent)
                .mapToLong(OptionalLong::getAsLong)
                .min();
        if (first.isEmpty() || first.getAsLong() >= end) {
            return new Stretch(0, end);
        }
        long last = first.getAsLong();
        for (InjectionFacts one : judgement.injections()) {
            // An override that lasts to the end of the script would make everything else small.
            if (one.ended().map(how -> how != snagbench.wire.EntryEnd.RELEASED).orElse(false)) {
                last = Math.max(
                        last, one.firstMicros().orElse(0) + one.lastedMicros().orElse(0));
            }
        }
        for (Finding finding : judgement.findings()) {
            if (finding.metMicros().isPresent()) {
                long met = finding.metMicros().getAsLong();
                last = Math.max(last, Math.max(met, met + finding.marginMicros().orElse(0)));
            }
            last = Math.max(last, finding.limitMicros().orElse(0));
        }
        if (last == first.getAsLong()) {
            last = end;
        }
        long around = Math.max(LEAST_AROUND_MICROS, (last - first.getAsLong()) / SHARE_AROUND);
        long from = Math.max(0, first.getAsLong() - around);
        return new Stretch(from, Math.max(from + 1, Math.min(end, last + around)));
    }

    long micros() {
        return toMicros - fromMicros;
    }
}
