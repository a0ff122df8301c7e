package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.Expectation.AnsweredBy;
import snagbench.bench.trace.Gap;
import snagbench.bench.trace.Happening;
import snagbench.wire.EventKind;

/** A fail-safe's report: its first one from the anchor's tick on. */
final class AwaitedAnswer implements Awaited {
    private final Course course;
    private final Timeline timeline;
    private final AnsweredBy expectation;
    private final int failSafe;

    AwaitedAnswer(Course course, AnsweredBy expectation) {
        this.course = course;
        this.timeline = course.timeline();
        this.expectation = expectation;
        this.failSafe = expectation.failSafe().number();
    }

    @Override
    public String what() {
        return expectation.failSafe().name() + " answers";
    }

    @Override
    public int firstTick(Moment.Known anchor) {
        return anchor.tick();
    }

    @Override
    public void gather(Moment.Known anchor, Arrival arrival) {
        Happening seen = seen(anchor);
        int last = seen == null ? Integer.MAX_VALUE : seen.tick();
        if (seen == null || !isFirstForCertain(seen)) {
            for (Gap gap : timeline.unknownEvents()) {
                if (gap.touches(anchor.tick(), last)) {
                    arrival.mayBeHidden(Math.max(gap.firstTick(), anchor.tick()), Math.min(gap.lastTick(), last));
                }
            }
        }
        if (seen != null) {
            arrival.mayBeAt(seen.tick());
        } else {
            arrival.mayBeMissing();
        }
    }

    private @Nullable Happening seen(Moment.Known anchor) {
        for (Happening one : timeline.events()) {
            if (counts(one, anchor) && one.a() == failSafe) {
                return one;
            }
        }
        return null;
    }

    private static boolean counts(Happening one, Moment.Known anchor) {
        return one.kind() == EventKind.ANSWERED && one.tick() >= anchor.tick() && one.number() > anchor.event();
    }

    /** A report carries its count since arming: where all that it counts were seen, none is hidden. */
    private boolean isFirstForCertain(Happening report) {
        long seenUpToIt = timeline.events().stream()
                .filter(one -> one.is(EventKind.ANSWERED, failSafe) && one.number() <= report.number())
                .count();
        return seenUpToIt == report.b();
    }

    @Override
    public String insteadAt(int tick, Moment.Known anchor) {
        List<String> others = new ArrayList<>();
        for (Happening one : timeline.events()) {
            if (counts(one, anchor) && one.a() != failSafe && one.tick() <= tick) {
                others.add(course.trace().rig().failSafeName(one.a()) + " had answered");
            }
        }
        String step = Readings.step(course.trace(), tick);
        return expectation.failSafe().name() + " silent" + (others.isEmpty() ? "" : ", " + others.get(0))
                + (step.isEmpty() ? "" : ", " + step);
    }

    @Override
    public Optional<Spoilt> spoilt(Moment.Known anchor, Arrival arrival) {
        if (!expectation.noOther()) {
            return Optional.empty();
        }
        for (Happening one : timeline.events()) {
            if (counts(one, anchor) && one.a() == failSafe) {
                break;
            }
            if (counts(one, anchor)) {
                String name = course.trace().rig().failSafeName(one.a());
                String at = Words.at(one.micros() - anchor.micros());
                return Optional.of(new Spoilt(Verdict.FAIL, name + " answered before it, at " + at));
            }
        }
        return timeline.hasAllEvents(anchor.tick(), arrival.lastTick())
                ? Optional.empty()
                : Optional.of(new Spoilt(
                        Verdict.INCONCLUSIVE,
                        "not known whether another fail-safe answered before it: "
                                + Holes.between(timeline, anchor.tick(), arrival.lastTick())));
    }

    @Override
    public Moment.Known momentAt(int tick, long micros) {
        int number = 0;
        for (Happening one : timeline.events()) {
            if (one.tick() == tick && one.is(EventKind.ANSWERED, failSafe)) {
                number = one.number();
            }
        }
        return new Moment.Known(tick, micros, number, tick);
    }
}
