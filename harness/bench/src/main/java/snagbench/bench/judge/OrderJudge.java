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
        for (int i = 1; i < moments.size(); i++) {
            Moment.Known before = (Moment.Known) moments.get(i - 1);
            Moment.Known next = (Moment.Known) moments.get(i);
            if (course.chain().part(anchors.get(i - 1)) > course.chain().part(anchors.get(i))
                    || (isSamePart(anchors, i) && !isBehind(next, before))) {
                return to.butWas(anchors.get(i).show() + " came "
                                + (next.tick() == before.tick()
                                        ? "no later than " + anchors.get(i - 1).show() + ", in the same tick"
                                        : Words.span(before.micros() - next.micros()) + " before "
                                                + anchors.get(i - 1).show()))
                        .where(next.tick())
                        .of(Verdict.FAIL);
            }
            least = isSamePart(anchors, i) ? Math.min(least, next.micros() - before.micros()) : least;
        }
        if (least != Long.MAX_VALUE) {
            to.fact("closest", Words.span(least) + " apart");
        }
        return to.of(Verdict.PASS);
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

    /** States are as they are at the end of a tick, so one may follow in the tick of an event, but not the other way round. */
    private static boolean isBehind(Moment.Known next, Moment.Known before) {
        if (next.tick() != before.tick()) {
            return next.tick() > before.tick();
        }
        return before.event() > 0 && (next.event() == 0 || next.event() > before.event());
    }
}
