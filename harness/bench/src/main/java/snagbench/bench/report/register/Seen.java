package snagbench.bench.report.register;

import java.util.List;

/** Boxes in a trace: whether the readings of the tick that is looked at lie in one of them. */
final class Seen {
    private final TickReadings readings;
    private final int[][] places;
    private final Span[][] spans;

    Seen(TickReadings readings, List<Box> boxes) {
        this.readings = readings;
        places = new int[boxes.size()][];
        spans = new Span[boxes.size()][];
        for (int i = 0; i < spans.length; i++) {
            places[i] = boxes.get(i).spans().keySet().stream()
                    .mapToInt(readings::place)
                    .toArray();
            spans[i] = boxes.get(i).spans().values().toArray(Span[]::new);
        }
    }

    /** Certainly in one of them. */
    boolean holds() {
        for (int i = 0; i < spans.length; i++) {
            if (holds(i)) {
                return true;
            }
        }
        return false;
    }

    private boolean holds(int box) {
        for (int i = 0; i < spans[box].length; i++) {
            Span span = spans[box][i];
            int place = places[box][i];
            if (readings.least(place) < span.least() || readings.greatest(place) > span.most()) {
                return false;
            }
        }
        return true;
    }

    /** Perhaps in one of them: nothing that is known speaks against it. */
    boolean mayHold() {
        for (int i = 0; i < spans.length; i++) {
            if (mayHold(i)) {
                return true;
            }
        }
        return false;
    }

    private boolean mayHold(int box) {
        for (int i = 0; i < spans[box].length; i++) {
            Span span = spans[box][i];
            int place = places[box][i];
            if (readings.greatest(place) < span.least() || readings.least(place) > span.most()) {
                return false;
            }
        }
        return true;
    }
}
