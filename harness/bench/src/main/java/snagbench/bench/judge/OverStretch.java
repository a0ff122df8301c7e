package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Stretch;

/** Judges something over a stretch: works out the stretch, and leaves the rest to what is judged. */
final class OverStretch {
    private OverStretch() {}

    /** What is judged, over ticks that are worked out. */
    interface Judged {
        /** In words, such as "always battery.voltage above 7.00 V". */
        String what();

        /** Judges. */
        Finding over(Extent extent, Findings to);
    }

    /** Judges over a stretch; over all from arming to the script's end where there is none. */
    static Finding judge(Course course, Expectation expectation, Optional<Stretch> over, Judged judged) {
        Findings to = new Findings(expectation.name(), expectation.place())
                .expected(judged.what() + over.map(Words::stretch).orElse(" to the script's end"));
        if (over.isEmpty()) {
            return judged.over(Extent.toTheEnd(course, Moment.ARMING), to);
        }
        Stretch stretch = over.get();
        Moment from = course.moment(stretch.from());
        Moment end = course.moment(stretch.to().orElse(stretch.from()));
        if (!(from instanceof Moment.Known begins) || !(end instanceof Moment.Known ends)) {
            Moment missing = from instanceof Moment.Missing ? from : end;
            return notJudged(to, ((Moment.Missing) missing).why());
        }
        Extent extent = Extent.of(course, stretch, begins, ends);
        if (extent.isEmpty()) {
            return notJudged(
                    to,
                    stretch.to().map(Anchor::show).orElse("its end") + " came no later than "
                            + stretch.from().show());
        }
        return judged.over(extent, to);
    }

    private static Finding notJudged(Findings to, String why) {
        return to.butWas("not judged: " + why).where(-1).of(Verdict.INCONCLUSIVE);
    }

    /** That what was seen does not reach to the end of the stretch. */
    static Finding notSeen(Timeline timeline, Extent extent, Findings to) {
        return to.butWas("not judged to " + extent.end() + ": what counts of the trace ends at "
                        + Words.at(timeline.seenThroughMicros() - extent.from().micros()))
                .where(timeline.lastTick())
                .of(Verdict.INCONCLUSIVE);
    }
}
