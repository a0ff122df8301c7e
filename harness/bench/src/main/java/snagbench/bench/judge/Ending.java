package snagbench.bench.judge;

import java.util.OptionalLong;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;

/**
 * When a script ends, as far as it is known: where the script says so, and when its last window closes. Of a script whose
 * controller restarts, each part has an end of its own.
 */
final class Ending {
    private final Course course;
    private final boolean isOwn;
    private final long settlingMicros;
    private OptionalLong written = OptionalLong.empty();
    private OptionalLong lastDeadline = OptionalLong.empty();
    private boolean settled = true;
    private long writtenFloor = Timeline.NEVER;
    private long deadlineFloor;

    private Ending(Course course, long settlingMicros, boolean isOwn) {
        this.course = course;
        this.isOwn = isOwn;
        this.settlingMicros = settlingMicros;
        FaultScript script = course.script();
        script.end().filter(end -> counts(end.after())).ifPresent(end -> {
            Moment moment = course.moment(end.after());
            if (moment instanceof Moment.Known known) {
                written = OptionalLong.of(known.micros() + end.micros());
            } else if (isOpen(moment)) {
                settled = false;
                writtenFloor = notBefore(moment) + end.micros();
            }
        });
        script.expectations().forEach(this::expectation);
        if (course.part() == 0) {
            for (int i = 0; i < script.injections().size(); i++) {
                injection(i, script.injections().get(i));
            }
        }
    }

    /** The script's end. */
    static Ending of(Course course, long settlingMicros) {
        return new Ending(course, settlingMicros, true);
    }

    /** The end of all that does not hang on something that is to last to the end, which would chase its own tail. */
    static Ending withoutWhatHangsOnIt(Course course, long settlingMicros) {
        return new Ending(course, settlingMicros, false);
    }

    private boolean counts(Anchor anchor) {
        return course.chain().part(anchor) == course.part()
                && (isOwn || !course.chain().hangsOnTheEnd(anchor));
    }

    private void expectation(Expectation expectation) {
        Anchor anchor = Chain.anchorOf(expectation);
        if (!counts(anchor)) {
            return;
        }
        if (expectation instanceof Expectation.Timed timed) {
            deadline(course.moment(anchor), timed.within().mostMicros() + holdMicros(timed));
        }
        Chain.stretchOf(expectation)
                .flatMap(stretch -> stretch.window())
                .ifPresent(window -> deadline(course.moment(anchor), window.mostMicros()));
    }

    private static long holdMicros(Expectation.Timed timed) {
        if (timed instanceof Expectation.Stays stays) {
            return stays.forMicros();
        }
        return timed instanceof Expectation.Settles settles
                ? settles.forMicros().orElse(0)
                : 0;
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
     * The end: the one that the script gives, or else the last deadline and the rig's settling time. A restart that the
     * script asks for ends a part with the last that was seen of it.
     *
     * @return in microseconds since arming; empty while it cannot be told
     */
    OptionalLong micros() {
        OptionalLong planned = planned();
        return course.endsWithRestart()
                ? OptionalLong.of(Math.min(
                        planned.orElse(Timeline.NEVER), course.timeline().seenThroughMicros()))
                : planned;
    }

    private OptionalLong planned() {
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
                ? OptionalLong.of(Math.max(planned().orElse(0), lastDeadline.getAsLong()))
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
