package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.trace.Trace;

/** The reading of a stretch that came nearest to breaking a limit, or went furthest beyond it. */
final class WorstReading {
    private final Timeline timeline;
    private final Trace trace;
    private final Extent extent;
    private final Optional<Slack> slack;
    private final boolean opposite;
    private final RowCursor rows;
    private final Place possible = new Place();
    private final Place certain = new Place();

    /**
     * Nothing looked at yet.
     *
     * @param timeline of the trace
     * @param extent the stretch
     * @param slack the distance from the limit; empty where there is none
     * @param opposite true if the comparison must not hold
     */
    WorstReading(Timeline timeline, Extent extent, Optional<Slack> slack, boolean opposite) {
        this.timeline = timeline;
        this.trace = timeline.trace();
        this.extent = extent;
        this.slack = slack;
        this.opposite = opposite;
        this.rows = new RowCursor(trace);
    }

    private static final class Place {
        private long distance = Long.MAX_VALUE;
        private int tick = -1;
        private int rowTick = -1;

        private void take(long itsDistance, int itsTick, int itsRowTick) {
            if (itsDistance < distance) {
                distance = itsDistance;
                tick = itsTick;
                rowTick = itsRowTick;
            }
        }
    }

    /** Looks at a tick that may belong to the stretch. */
    void look(int tick) {
        if (slack.isEmpty() || slack.get().isOpen(tick)) {
            return;
        }
        long distance = distance(tick);
        if (distance >= possible.distance && distance >= certain.distance) {
            return;
        }
        int row = rows.rowAtOrAfter(tick);
        int rowTick = row < trace.rows() ? trace.tick(row) : tick;
        possible.take(distance, tick, rowTick);
        // Least and greatest of a record are there for certain only if all of its ticks are.
        boolean isThere = tick == rowTick
                ? extent.has(tick)
                : extent.has(rowTick) && extent.has(rowTick - trace.periodTicks() + 1);
        if (isThere) {
            certain.take(distance, tick, rowTick);
        }
    }

    /** The least robustness of what is asked for, at a tick. */
    private long distance(int tick) {
        Slack its = slack.orElseThrow();
        return opposite ? -its.greatest(tick) : its.least(tick);
    }

    boolean isBroken() {
        return certain.tick >= 0 && certain.distance <= 0;
    }

    int tick() {
        return certain.rowTick;
    }

    void tellBroken(Findings to) {
        if (isBroken()) {
            to.value(slack.orElseThrow().channel(), certain.distance);
        }
    }

    String broken() {
        return words(certain) + " (" + beyond(certain.distance);
    }

    void tellClosest(Findings to, String label) {
        if (possible.tick < 0 || possible.distance < 0) {
            return;
        }
        Slack its = slack.orElseThrow();
        to.value(its.channel(), possible.distance);
        to.fact(label, words(possible) + " (" + Readings.show(its.channel(), possible.distance) + " to spare)");
    }

    private String words(Place place) {
        Slack its = slack.orElseThrow();
        return its.name() + " " + its.value(place.tick, !opposite) + " at "
                + Words.at(timeline.latest(place.rowTick) - extent.from().micros());
    }

    private String beyond(long distance) {
        return distance == 0
                ? "at the limit)"
                : Readings.show(slack.orElseThrow().channel(), -distance) + " beyond the limit)";
    }

    /** How far beyond its limit the worst reading of the row was, in brackets; empty where that means nothing. */
    String beyondAt(int tick) {
        int row = rows.rowAtOrAfter(tick);
        if (slack.isEmpty() || row == trace.rows() || slack.get().isOpen(trace.tick(row))) {
            return "";
        }
        int worst = trace.tick(row);
        for (int at = Math.max(0, worst - trace.periodTicks() + 1); at < trace.tick(row); at++) {
            worst = distance(at) < distance(worst) ? at : worst;
        }
        if (distance(worst) > 0) {
            return "";
        }
        String within = trace.periodTicks() == 1
                ? ""
                : slack.get().value(worst, !opposite) + " within " + trace.periodTicks() + " ticks, ";
        return " (" + within + beyond(distance(worst));
    }
}
