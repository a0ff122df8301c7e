package snagbench.bench.report.sheet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.judge.InjectionFacts;
import snagbench.bench.judge.Judgement;
import snagbench.bench.trace.Trace;

/** The moments of a script at which one wants to know what was read. */
final class Moments {
    private Moments() {}

    /**
     * A moment.
     *
     * @param name what happened
     * @param row of the trace
     */
    record Moment(String name, int row) {}

    static List<Moment> of(Judgement judgement, Trace trace) {
        List<Moment> moments = new ArrayList<>();
        Optional<InjectionFacts> first = judgement.injections().stream()
                .filter(one -> one.firstTick().isPresent())
                .findFirst();
        if (first.isEmpty()) {
            return moments;
        }
        InjectionFacts injection = first.get();
        int strikes = trace.rowAtOrAfter((int) injection.firstTick().orElse(0));
        add(moments, trace, "before the fault", strikes - 1);
        add(moments, trace, "first tick with the fault", strikes);
        long zero = injection.firstMicros().orElse(0);
        add(moments, trace, "detected", rowAt(trace, zero, judgement.detectionMicros()));
        add(moments, trace, "recovered", rowAt(trace, zero, judgement.recoveryMicros()));
        if (injection.lastTick().isPresent()) {
            add(moments, trace, "last tick with the fault", trace.rowAtOrAfter((int)
                    injection.lastTick().getAsLong()));
        }
        moments.sort(Comparator.comparingInt(Moment::row));
        return moments;
    }

    private static int rowAt(Trace trace, long zero, OptionalLong behind) {
        if (behind.isEmpty()) {
            return -1;
        }
        int row = 0;
        while (row < trace.rows() && trace.micros(row) < zero + behind.getAsLong()) {
            row++;
        }
        return row;
    }

    private static void add(List<Moment> moments, Trace trace, String name, int row) {
        if (row >= 0 && row < trace.rows()) {
            moments.add(new Moment(name, row));
        }
    }
}
