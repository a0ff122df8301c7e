package snagbench.bench.judge;

import java.util.OptionalLong;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;

/** When a script ends, as far as it is known: where the script says so, and when its last window closes. */
final class Ending {
    private final Course course;
    private OptionalLong written = OptionalLong.empty();
    private OptionalLong lastDeadline = OptionalLong.empty();
    private boolean settled = true;

    Ending(Course course) {
        this.course = course;
        FaultScript script = course.script();
        script.end().ifPresent(end -> {
            Moment moment = course.moment(end.after());
            if (moment instanceof Moment.Known known) {
                written = OptionalLong.of(known.micros() + end.micros());
            } else {
                settle(moment);
            }
        });
        for (Expectation expectation : script.expectations()) {
            if (expectation instanceof Expectation.AnsweredBy it) {
                window(it.after(), it.within());
            } else if (expectation instanceof Expectation.Becomes it) {
                window(it.after(), it.within());
            }
        }
        for (int i = 0; i < script.injections().size(); i++) {
            injection(i, script.injections().get(i));
        }
    }

    private void window(Anchor after, Expectation.Window window) {
        Moment moment = course.moment(after);
        settle(moment);
        if (moment instanceof Moment.Known known) {
            deadline(known.micros() + window.mostMicros());
        }
    }

    /** Where nothing is waited for, a script still lasts until its injections had their time. */
    private void injection(int index, Injection injection) {
        Moment moment = course.strike(index);
        settle(moment);
        if (moment instanceof Moment.Known known) {
            deadline(known.micros() + injection.lastsMicros().orElse(0));
        }
    }

    private void settle(Moment moment) {
        settled &= !(moment instanceof Moment.Missing missing) || missing.settled();
    }

    private void deadline(long micros) {
        lastDeadline = OptionalLong.of(Math.max(lastDeadline.orElse(0), micros));
    }

    /** The end that the script gives, in microseconds since arming; empty where it gives none, or it cannot be told. */
    OptionalLong written() {
        return written;
    }

    /** When the last window closes, of those whose anchors are known. */
    OptionalLong lastDeadline() {
        return lastDeadline;
    }

    /** Tells whether nothing that is still to come can move the end. */
    boolean isSettled() {
        return settled;
    }

    /** Whether everything up to the end was seen, where the script's own end or the last deadline is the least. */
    boolean isSeen(Timeline timeline) {
        if (written.isPresent()) {
            return timeline.seenThroughMicros() >= written.getAsLong();
        }
        return settled && lastDeadline.isPresent() && timeline.seenThroughMicros() >= lastDeadline.getAsLong();
    }

    /** Nothing behind this time is judged, in microseconds since arming. */
    long judgedThroughMicros() {
        return written.orElse(Timeline.NEVER);
    }
}
