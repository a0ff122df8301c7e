package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import snagbench.bench.judge.ControlReadings;

/** What some channels read in one tick of a trace: each is looked up once a tick, however many conditions ask for it. */
final class TickReadings {
    private final ControlReadings trace;
    private final Map<Axis, Integer> places = new HashMap<>();
    private final List<ControlReadings.Reading> readings = new ArrayList<>();
    private long[] least = new long[0];
    private long[] greatest = new long[0];

    TickReadings(ControlReadings trace) {
        this.trace = trace;
    }

    /** Where an axis has its place; to be asked for before the first tick. */
    int place(Axis axis) {
        return places.computeIfAbsent(axis, one -> {
            readings.add(trace.of(one.channel(), one.source()));
            return readings.size() - 1;
        });
    }

    void goTo(int tick) {
        if (least.length != readings.size()) {
            least = new long[readings.size()];
            greatest = new long[readings.size()];
        }
        for (int i = 0; i < least.length; i++) {
            least[i] = readings.get(i).least(tick);
            greatest[i] = readings.get(i).greatest(tick);
        }
    }

    long least(int place) {
        return least[place];
    }

    long greatest(int place) {
        return greatest[place];
    }
}
