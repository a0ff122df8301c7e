package snagbench.bench.judge;

import java.util.OptionalLong;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;

/** When a script ends, as far as it is known: where the script says so, and when its last window closes. */
final class Ending {
    private final Course course;
    private final long settlingMicros;
    private OptionalLong written = OptionalLong.empty();
    private OptionalLong lastDeadline = OptionalLong.empty();
    private boolean settled = true;
    private long writtenFloor = Timeline.NEVER;
    private long deadlineFloor;

    Ending(Course course, long settlingMicros) {
        this.course = course;
        this.settlingMicros = settlingMicros;
        FaultScript script = course.script();
        script.end().ifPresent(end -> {
            Moment moment = course.moment(end.after());
            if (moment instanceof Moment.Known known) {
                written = OptionalLong.of(known.micros() + end.micros());
            } else if (isOpen(moment)) {
                settled = false;
                writtenFloor = notBefore(moment) + end.micros();
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
        deadline(course.moment(after), window.mostMicros());
    }

    /** Where nothing is waited for, a script still lasts until its injections had their time. */
    private void injection(int index, Injection injection) {
        deadline(course.strike(index), injection.lastsMicros().orElse(0));
    }

    private void deadline(Moment from, long micros) {
        if (from instanceof Moment.Known known) {
            lastDeadline = OptionalLong.of(Math.max(lastDeadline.orElse(0), known.micros() + micros));
        } else if (isOpen(from)) {
            settled = false;
        } else {
            return;
        }
        deadlineFloor = Math.max(deadlineFloor, notBefore(from) + micros);
    }

    private static boolean isOpen(Moment moment) {
        return moment instanceof Moment.Missing missing && !missing.settled();
    }

    private static long notBefore(Moment moment) {
        return moment instanceof Moment.Known known ? known.micros() : ((Moment.Missing) moment).notBeforeMicros();
    }

    /**
     * The end: the one that the script gives, or else the last deadline and the rig's settling time.
     *
     * @return in microseconds since arming; empty while it cannot be told
     */
    OptionalLong micros() {
        if (written.isPresent()) {
            return written;
        }
        return settled && lastDeadline.isPresent()
                ? OptionalLong.of(lastDeadline.getAsLong() + settlingMicros)
                : OptionalLong.empty();
    }

    /**
     * Until when to listen: to the end, and until every window has closed.
     *
     * @return in microseconds since arming; empty while it cannot be told
     */
    OptionalLong listenToMicros() {
        return settled && lastDeadline.isPresent()
                ? OptionalLong.of(Math.max(micros().orElse(0), lastDeadline.getAsLong()))
                : OptionalLong.empty();
    }

    /** Tells whether everything up to the end was seen. */
    boolean isSeen(Timeline timeline) {
        OptionalLong end = micros();
        return end.isPresent() && timeline.seenThroughMicros() >= end.getAsLong();
    }

    /** The end is not before this time, in microseconds since arming. */
    long notBeforeMicros() {
        return micros().orElse(Math.min(writtenFloor, deadlineFloor + settlingMicros));
    }

    /** The end is not behind this time, in microseconds since arming. */
    long notBehindMicros() {
        return micros().orElse(Timeline.NEVER);
    }
}
