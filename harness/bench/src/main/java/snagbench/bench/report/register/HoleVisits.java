package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import snagbench.bench.script.ChannelDescription;

/** Counts in one trace the ticks that lie in a hole of the table. */
final class HoleVisits {
    private static final double MICROS_PER_SECOND = 1e6;

    private final String trace;
    private final boolean isNominal;
    private final List<Count> counts;
    /** By the step's value: regions that are meant in it. */
    private final List<List<Here>> bySteps = new ArrayList<>();

    /** How often a hole was met in all traces. */
    static final class Count {
        long ticks;
        long nominalTicks;
        String first = "";
    }

    private record Here(int hole, Seen where) {}

    HoleVisits(
            TickReadings readings,
            List<DecisionTable.Hole> holes,
            ChannelDescription step,
            Map<String, Axis> axes,
            List<Count> counts,
            String trace,
            boolean isNominal) {
        this.trace = trace;
        this.isNominal = isNominal;
        this.counts = counts;
        step.valueNames().forEach(name -> bySteps.add(new ArrayList<>()));
        for (int hole = 0; hole < holes.size(); hole++) {
            for (DecisionTable.Region region : holes.get(hole).regions()) {
                Box box = Box.ANYTHING;
                for (DecisionTable.Range range : region.where()) {
                    Axis axis = Objects.requireNonNull(axes.get(range.channel()));
                    box = box.with(axis, new Span(range.least(), range.most()));
                }
                Here here = new Here(hole, new Seen(readings, List.of(box)));
                region.steps().forEach(name -> bySteps.get(step.valueNames().indexOf(name))
                        .add(here));
            }
        }
    }

    /** A tick in which no condition of the register holds. */
    void look(int step, long micros) {
        if (step < 0 || step >= bySteps.size()) {
            return;
        }
        int last = -1;
        for (Here here : bySteps.get(step)) {
            if (here.hole() != last && here.where().holds()) {
                last = here.hole();
                meet(counts.get(last), micros);
            }
        }
    }

    private void meet(Count count, long micros) {
        if (isNominal) {
            count.nominalTicks++;
            return;
        }
        count.ticks++;
        if (count.first.isEmpty()) {
            count.first = trace + String.format(Locale.ROOT, ", %.3f s", micros / MICROS_PER_SECOND);
        }
    }
}
