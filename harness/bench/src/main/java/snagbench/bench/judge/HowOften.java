package snagbench.bench.judge;

import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.trace.Happening;
import snagbench.wire.EventKind;

/** How often a condition comes about, or a fail-safe reports, in a stretch. */
final class HowOften implements OverStretch.Judged {
    private static final int NO_LIMIT = Integer.MAX_VALUE;

    private final Course course;
    private final Timeline timeline;
    private final Expectation.Times expectation;

    HowOften(Course course, Expectation.Times expectation) {
        this.course = course;
        this.timeline = course.timeline();
        this.expectation = expectation;
    }

    @Override
    public String what() {
        int least = expectation.least();
        String times;
        if (expectation.most().isEmpty()) {
            times = "at least " + least;
        } else if (expectation.most().getAsInt() == least) {
            times = String.valueOf(least);
        } else {
            times = (least == 0 ? "at most " : least + " to ")
                    + expectation.most().getAsInt();
        }
        return expectation.what().show() + " " + times + (times.equals("1") ? " time" : " times");
    }

    @Override
    public Finding over(Extent extent, Findings to) {
        Count count = isReport() ? reports(extent) : occurrences(extent);
        int most = expectation.most().orElse(NO_LIMIT);
        if (!extent.isSeen()) {
            count = new Count(count.least, NO_LIMIT, count.lastTick);
        }
        if (count.least > most || count.most < expectation.least()) {
            // What is certain of it: by so many at least it was beyond.
            int beyond = count.least > most ? most - count.least : count.most - expectation.least();
            return to.times(expectation.what().show(), beyond)
                    .butWas(words(count))
                    .where(count.lastTick)
                    .of(Verdict.FAIL);
        }
        if (count.least >= expectation.least() && count.most <= most) {
            int below = count.least - expectation.least();
            int spare = expectation.most().isPresent() && extent.isSeen() ? Math.min(below, most - count.most) : below;
            return to.times(expectation.what().show(), spare)
                    .fact("reached", words(count))
                    .of(Verdict.PASS);
        }
        if (!extent.isSeen()) {
            return OverStretch.notSeen(timeline, extent, to.fact("reached", words(count)));
        }
        int last = Math.max(extent.firstTick(), extent.lastTick());
        return to.butWas("not known, " + words(count) + ": " + Holes.between(timeline, extent.firstTick(), last))
                .where(last)
                .of(Verdict.INCONCLUSIVE);
    }

    private boolean isReport() {
        return expectation.what().terms().size() == 1
                && expectation.what().terms().get(0) instanceof Condition.Answers;
    }

    private Count occurrences(Extent extent) {
        int first = extent.from().firstTickForStates();
        Signal signal = course.signals().of(expectation.what());
        Occurrences found = new Occurrences(course.trace(), signal, first, NO_LIMIT);
        int lastRise = -1;
        for (int tick = first; tick <= extent.lastTick() && !extent.isBehind(tick); tick++) {
            int before = found.most();
            found.step(tick, (extent.mayHave(tick) ? Truth.TRUE : 0) | (extent.has(tick) ? 0 : Truth.FALSE));
            lastRise = found.most() > before ? tick : lastRise;
        }
        return found.isOpen() ? new Count(found.least(), found.most(), lastRise) : new Count(0, NO_LIMIT, -1);
    }

    /** Reports are counted as such, and those that were lost by the counts that the others carry. */
    private Count reports(Extent extent) {
        int failSafe = ((Condition.Answers) expectation.what().terms().get(0))
                .failSafe()
                .number();
        int certain = 0;
        int possible = 0;
        int lastTick = -1;
        Happening first = null;
        Happening last = null;
        for (Happening one : timeline.events()) {
            if (!one.is(EventKind.ANSWERED, failSafe) || !extent.mayHaveEvent(one.tick(), one.number())) {
                continue;
            }
            possible++;
            lastTick = one.tick();
            if (extent.hasEvent(one.tick(), one.number())) {
                certain++;
                first = first == null ? one : first;
                last = one;
            }
        }
        int least = first == null || last == null ? 0 : Math.max(certain, last.b() - first.b() + 1);
        boolean complete = timeline.hasAllEvents(extent.firstTick(), lastTick(extent));
        return new Count(least, complete ? possible : NO_LIMIT, lastTick);
    }

    private int lastTick(Extent extent) {
        int tick = extent.lastEventTick();
        while (tick > extent.firstTick() && extent.isBehind(tick) && !extent.mayHaveEvents(tick)) {
            tick--;
        }
        return tick;
    }

    private static String words(Count count) {
        String least = count.least == 1 ? "once" : count.least + " times";
        if (count.least == count.most) {
            return least;
        }
        return "at least " + least + (count.most == NO_LIMIT ? "" : " and at most " + count.most + " times");
    }

    private record Count(int least, int most, int lastTick) {}
}
