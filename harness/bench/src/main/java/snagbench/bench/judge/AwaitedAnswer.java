package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Expectation.AnsweredBy;
import snagbench.bench.trace.Gap;
import snagbench.bench.trace.Happening;
import snagbench.wire.EventKind;

/** A fail-safe's report: its n-th one from the anchor's tick on. */
final class AwaitedAnswer implements Awaited {
    private static final long NO_LIMIT = Long.MAX_VALUE / 2;

    private final Course course;
    private final Timeline timeline;
    private final AnsweredBy expectation;
    private final int failSafe;
    private final int time;
    private int event;

    AwaitedAnswer(Course course, AnsweredBy expectation, int time) {
        this.course = course;
        this.timeline = course.timeline();
        this.expectation = expectation;
        this.failSafe = expectation.failSafe().number();
        this.time = time;
    }

    @Override
    public String what() {
        return expectation.failSafe().name() + " answers"
                + (time == 1 ? "" : " for the " + Words.ordinal(time) + " time");
    }

    @Override
    public int firstTick(Moment.Known anchor) {
        return anchor.tick();
    }

    /**
     * A report carries its count since arming. So the place of a report behind the anchor is known as closely as how many
     * were made before the anchor, and reports that were lost show in the counts of those behind them.
     */
    @Override
    public void gather(Moment.Known anchor, Arrival arrival) {
        List<Happening> seen = reports(anchor);
        long leastBefore = countBefore(anchor);
        long mostBefore = leastBefore;
        if (!timeline.hasAllEvents(0, anchor.tick())) {
            mostBefore = seen.isEmpty() ? NO_LIMIT : seen.get(0).b() - 1L;
            boolean noneBetween = !seen.isEmpty()
                    && timeline.hasAllEvents(anchor.tick(), seen.get(0).tick());
            leastBefore = noneBetween ? mostBefore : leastBefore;
        }
        int from = anchor.tick();
        long count = leastBefore;
        for (Happening one : seen) {
            // Between the last report and this one, those were lost whose counts were left out.
            hidden(arrival, from, one.tick(), count + 1 - mostBefore, one.b() - 1 - leastBefore);
            if (one.b() - mostBefore <= time && time <= one.b() - leastBefore) {
                arrival.mayBeAt(one.tick());
                event = one.number();
            }
            if (one.b() - mostBefore >= time) {
                return;
            }
            from = one.tick();
            count = one.b();
        }
        hidden(arrival, from, Integer.MAX_VALUE, count + 1 - mostBefore, Long.MAX_VALUE);
        arrival.mayBeMissing();
    }

    /** Reports that were not seen may have been made in these ticks; their places behind the anchor are between two. */
    private void hidden(Arrival arrival, int from, int to, long firstPlace, long lastPlace) {
        if (lastPlace < firstPlace || time < firstPlace || time > lastPlace) {
            return;
        }
        for (Gap gap : timeline.unknownEvents()) {
            if (gap.touches(from, to)) {
                arrival.mayBeHidden(Math.max(gap.firstTick(), from), Math.min(gap.lastTick(), to));
            }
        }
    }

    private List<Happening> reports(Moment.Known anchor) {
        return timeline.events().stream()
                .filter(one -> counts(one, anchor) && one.a() == failSafe)
                .toList();
    }

    private static boolean counts(Happening one, Moment.Known anchor) {
        return one.kind() == EventKind.ANSWERED && one.tick() >= anchor.tick() && one.number() > anchor.event();
    }

    /** How many reports were seen to be made before the anchor. */
    private long countBefore(Moment.Known anchor) {
        return timeline.events().stream()
                .filter(one -> one.is(EventKind.ANSWERED, failSafe) && !counts(one, anchor))
                .mapToLong(Happening::b)
                .max()
                .orElse(0);
    }

    @Override
    public String insteadAt(int tick, Moment.Known anchor) {
        List<String> others = new ArrayList<>();
        for (Happening one : timeline.events()) {
            if (counts(one, anchor) && one.a() != failSafe && one.tick() <= tick) {
                others.add(course.trace().rig().failSafeName(one.a()) + " had answered");
            }
        }
        long made = reports(anchor).stream().filter(one -> one.tick() <= tick).count();
        String step = Readings.step(course.trace(), tick);
        return expectation.failSafe().name()
                + (made == 0 ? " silent" : " had answered " + made + " of " + time + " times")
                + (others.isEmpty() ? "" : ", " + others.get(0))
                + (step.isEmpty() ? "" : ", " + step);
    }

    @Override
    public Optional<Spoilt> spoilt(Moment.Known anchor, Arrival arrival) {
        if (!expectation.noOther()) {
            return Optional.empty();
        }
        boolean allSeen = arrival.isExact() && timeline.hasAllEvents(anchor.tick(), arrival.lastTick());
        int own = 0;
        for (Happening one : timeline.events()) {
            if (counts(one, anchor) && one.a() == failSafe && ++own == time && allSeen) {
                return Optional.empty();
            }
            if (counts(one, anchor) && one.a() != failSafe && (allSeen || one.tick() < arrival.leastTick())) {
                String name = course.trace().rig().failSafeName(one.a());
                String at = Words.at(one.micros() - anchor.micros());
                return Optional.of(new Spoilt(Verdict.FAIL, name + " answered before it, at " + at));
            }
        }
        return Optional.of(new Spoilt(
                Verdict.INCONCLUSIVE,
                "not known whether another fail-safe answered before it: "
                        + Holes.between(timeline, anchor.tick(), Math.max(anchor.tick(), arrival.lastTick()))));
    }

    @Override
    public Moment.Known momentAt(int tick, long micros) {
        return new Moment.Known(tick, micros, event, tick);
    }
}
