package snagbench.bench.run;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import java.util.function.LongConsumer;
import snagbench.bench.judge.ScriptEnd;
import snagbench.bench.judge.SettledFail;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Stage;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.SessionSettings;
import snagbench.bench.trace.Gap;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.Record;

/** One script on a rig that is ready: arm, listen to its end, let go. */
final class ScriptRun {
    private static final long CYCLE_MICROS = 100_000;
    /** Between two looks at whether the end is known, where no event came. */
    private static final int ROWS_BETWEEN_LOOKS = 50;
    /** How long events may be late behind the end of a script. */
    private static final long LATE_EVENTS_MICROS = 2_000_000;
    /** How long a stop that the rig makes by itself is watched at most. */
    private static final long LONGEST_STOP_MICROS = SessionSettings.USUAL_STOP_MICROS;
    /** How long a script is listened to behind the tick by which it has failed for certain. */
    private static final long LISTENED_BEHIND_A_FAIL_MICROS = 2_000_000;
    /** A rig of which so long nothing at all is recorded is not listened to for ever. */
    private static final long LONGEST_WITHOUT_RECORDS_MICROS = 5_000_000;

    private final RigSession session;
    private final FaultScript script;
    private final long settlingMicros;
    private final long longestMicros;
    private final LongConsumer progress;
    private final Consumer<Trace> seen;
    private final long afterRestartMicros;
    private final Optional<SettledFail> settledFail;

    private int rowsJudged;
    private OptionalLong earlyEnd = OptionalLong.empty();
    private int rowsLooked;
    private int eventsLooked;

    /**
     * A run of a script.
     *
     * @param session on a rig that is ready
     * @param script what runs
     * @param settlingMicros how long the rig needs after the last deadline
     * @param runTimeMicros how long is listened at most, beyond the beginning
     * @param progress is told the rig's time
     * @param seen is shown what was seen so far, never more than to the script's end
     * @param settledFail tells whether it has failed for certain, upon which it ends early; empty where it must not
     */
    ScriptRun(
            RigSession session,
            FaultScript script,
            long settlingMicros,
            long runTimeMicros,
            LongConsumer progress,
            Consumer<Trace> seen,
            Optional<SettledFail> settledFail) {
        this.settledFail = settledFail;
        this.session = session;
        this.script = script;
        this.settlingMicros = settlingMicros;
        this.longestMicros = runTimeMicros + beginLimit(script.begin());
        this.progress = progress;
        this.seen = seen;
        this.afterRestartMicros = Math.min(new AfterRestart(script).endMicros(settlingMicros), runTimeMicros);
    }

    private static long beginLimit(List<Stage> begin) {
        return begin.stream()
                .mapToLong(stage -> stage instanceof Stage.WaitFor wait ? wait.withinMicros() : 0)
                .sum();
    }

    /** Listens from arming to the end; what was seen is in the recorder even if this fails. */
    Trace listen(TraceRecorder recorder) throws SessionException {
        OptionalLong end = OptionalLong.empty();
        int rows = 0;
        long rowMicros = session.nowMicros();
        while (true) {
            session.work(session.nowMicros() + CYCLE_MICROS);
            Trace trace = recorder.trace();
            if (session.restart().isPresent()) {
                return trace;
            }
            if (trace.rows() > rows) {
                rows = trace.rows();
                rowMicros = session.nowMicros();
            } else if (session.nowMicros() - rowMicros >= LONGEST_WITHOUT_RECORDS_MICROS) {
                throw new SessionException(
                        SessionException.Reason.SILENT,
                        "the rig answers, but no record of it has come for "
                                + LONGEST_WITHOUT_RECORDS_MICROS / 1_000_000
                                + " s: does the line carry that many bytes a second?");
            }
            if (trace.rows() == 0) {
                continue;
            }
            long now = trace.micros(trace.rows() - 1);
            progress.accept(now);
            if (isNew(trace)) {
                end = ScriptEnd.micros(script, trace, settlingMicros, longestMicros);
            }
            endEarly(trace, now);
            if (earlyEnd.isPresent()) {
                end = OptionalLong.of(Math.min(end.orElse(longestMicros), earlyEnd.getAsLong()));
            }
            if (end.isEmpty() && now >= longestMicros) {
                end = OptionalLong.of(longestMicros);
            }
            seen.accept(end.isPresent() ? trace.upTo(end.getAsLong()) : trace);
            if (isStopped(trace) || isSeen(trace, now, end)) {
                return trace;
            }
        }
    }

    /**
     * Looks whether the script has failed for certain. It is then listened to a little longer, so that the report can tell how
     * late something came; never to less than was shown to others. The more was seen, the rarer the looks, so that they cost no
     * more than in proportion.
     */
    private void endEarly(Trace trace, long now) {
        if (settledFail.isEmpty()
                || earlyEnd.isPresent()
                || trace.rows() - rowsJudged < Math.max(ROWS_BETWEEN_LOOKS, rowsJudged / 16)) {
            return;
        }
        rowsJudged = trace.rows();
        OptionalLong tick = settledFail.get().look(trace);
        if (tick.isPresent()) {
            int row = trace.rowAtOrAfter((int) tick.getAsLong());
            earlyEnd = OptionalLong.of(Math.max(now, trace.micros(row) + LISTENED_BEHIND_A_FAIL_MICROS));
        }
    }

    /** Listens on behind a restart, in another session; what was seen is in the recorder even if this fails. */
    void listenAfterRestart(RigSession again, TraceRecorder recorder) throws SessionException {
        long heardMicros = again.nowMicros();
        int rows = 0;
        while (again.restart().isEmpty()) {
            again.work(again.nowMicros() + CYCLE_MICROS);
            Trace trace = recorder.trace().upToAfterRestart(afterRestartMicros);
            Trace part = trace.afterRestart().orElseThrow();
            if (part.rows() > rows) {
                rows = part.rows();
                heardMicros = again.nowMicros();
                seen.accept(trace);
                progress.accept(part.micros(rows - 1));
            } else if (again.nowMicros() - heardMicros >= LONGEST_WITHOUT_RECORDS_MICROS) {
                throw new SessionException(
                        SessionException.Reason.SILENT, "no record of the rig has come since the controller restarted");
            }
            if (isStopped(part) || (rows > 0 && part.micros(rows - 1) >= afterRestartMicros)) {
                return;
            }
        }
    }

    private boolean isNew(Trace trace) {
        int events = trace.events().size();
        if (events == eventsLooked && trace.rows() - rowsLooked < ROWS_BETWEEN_LOOKS) {
            return false;
        }
        eventsLooked = events;
        rowsLooked = trace.rows();
        return true;
    }

    /** The rig has stopped by itself, for a guard or its lease. */
    private static boolean isStopped(Trace trace) {
        if (trace.rows() == 0) {
            return false;
        }
        int flags = trace.flags(trace.rows() - 1);
        return (flags & Record.LATCHED) != 0 && (flags & Record.STOPPING) == 0;
    }

    private static boolean isSeen(Trace trace, long now, OptionalLong end) {
        if (end.isEmpty() || now < end.getAsLong()) {
            return false;
        }
        if ((trace.flags(trace.rows() - 1) & Record.STOPPING) != 0 && now < end.getAsLong() + LONGEST_STOP_MICROS) {
            return false;
        }
        boolean eventsComplete = trace.completeEventsThroughTick() >= trace.tick(trace.rows() - 1);
        return eventsComplete || now >= end.getAsLong() + LATE_EVENTS_MICROS;
    }

    /** The trace up to the script's end: how long somebody listened behind it depends on when he looked. */
    Trace toItsEnd(Trace trace) {
        OptionalLong end = ScriptEnd.micros(script, trace, settlingMicros, longestMicros);
        if (earlyEnd.isPresent()) {
            end = OptionalLong.of(Math.min(end.orElse(longestMicros), earlyEnd.getAsLong()));
        }
        Trace first = end.isPresent() ? trace.upTo(end.getAsLong()) : trace;
        return first.upToAfterRestart(afterRestartMicros);
    }

    static long gapTicks(Trace trace) {
        return trace.gaps().stream().mapToLong(ScriptRun::ticks).sum();
    }

    private static long ticks(Gap gap) {
        return (long) gap.lastTick() - gap.firstTick() + 1;
    }
}
