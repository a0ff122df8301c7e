package snagbench.bench.judge;

import java.util.List;
import java.util.stream.Collectors;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;

/** Judges whether moments came one after the other. */
final class OrderJudge {
    private final Course course;
    private final Expectation.Order expectation;

    OrderJudge(Course course, Expectation.Order expectation) {
        this.course = course;
        this.expectation = expectation;
    }

    Finding judge() {
        List<Anchor> anchors = expectation.moments();
        Findings to = new Findings(expectation.name(), expectation.place())
                .expected("in this order: " + anchors.stream().map(Anchor::show).collect(Collectors.joining(", ")));
        List<Moment> moments = anchors.stream().map(this::moment).toList();
        for (Moment one : moments) {
            if (one instanceof Moment.Missing missing) {
                return to.butWas("not judged: " + missing.why()).where(-1).of(Verdict.INCONCLUSIVE);
            }
        }
        long least = Long.MAX_VALUE;
        int unknown = 0;
        for (int i = 1; i < moments.size(); i++) {
            Moment.Known before = (Moment.Known) moments.get(i - 1);
            Moment.Known next = (Moment.Known) moments.get(i);
            int behind = isSamePart(anchors, i)
                    ? isBehind(next, before)
                    : Truth.of(course.chain().part(anchors.get(i - 1))
                            < course.chain().part(anchors.get(i)));
            if (behind == Truth.FALSE) {
                if (isSamePart(anchors, i)) {
                    to.margin(Math.min(0, next.micros() - before.micros()));
                }
                return to.butWas(words(anchors.get(i), next, anchors.get(i - 1), before))
                        .where(next.tick())
                        .of(Verdict.FAIL);
            }
            unknown = behind == Truth.UNKNOWN ? i : unknown;
            least = isSamePart(anchors, i) ? Math.min(least, next.micros() - before.micros()) : least;
        }
        if (unknown > 0) {
            int tick = ((Moment.Known) moments.get(unknown)).tick();
            return to.butWas("not known which came first in tick " + tick + ": "
                            + Holes.between(course.timeline(), tick, tick))
                    .where(tick)
                    .of(Verdict.INCONCLUSIVE);
        }
        if (least != Long.MAX_VALUE) {
            to.margin(least).fact("closest", Words.span(least) + " apart");
        }
        return to.of(Verdict.PASS);
    }

    private static String words(Anchor next, Moment.Known nextMoment, Anchor before, Moment.Known beforeMoment) {
        return next.show() + " came "
                + (nextMoment.tick() == beforeMoment.tick()
                        ? "no later than " + before.show() + ", in the same tick"
                        : Words.span(beforeMoment.micros() - nextMoment.micros()) + " before " + before.show());
    }

    private boolean isSamePart(List<Anchor> anchors, int second) {
        return course.chain().part(anchors.get(second - 1)) == course.chain().part(anchors.get(second));
    }

    private Moment moment(Anchor anchor) {
        Course at = course.first();
        for (int part = 0; part < course.chain().part(anchor); part++) {
            if (at.behind().isEmpty()) {
                return new Moment.Missing(false, 0, "nothing was recorded behind a restart of the controller");
            }
            at = at.behind().get();
        }
        return at.moment(anchor);
    }

    /** What it can be, as {@link Truth}: two events of one tick of which one was lost may have come either way. */
    private static int isBehind(Moment.Known next, Moment.Known before) {
        if (next.tick() != before.tick()) {
            return Truth.of(next.tick() > before.tick());
        }
        // States are as they are at the end of a tick, so one may follow in the tick of an event, but not the other way
        // round.
        if (!isEvent(before)) {
            return Truth.FALSE;
        }
        if (!isEvent(next)) {
            return Truth.of(before.firstTickForStates() <= next.tick());
        }
        return next.event() == 0 || before.event() == 0 ? Truth.UNKNOWN : Truth.of(next.event() > before.event());
    }

    private static boolean isEvent(Moment.Known moment) {
        return moment.event() > 0 || moment.firstTickForStates() == moment.tick();
    }
}
