package snagbench.bench.run;

import java.io.IOException;
import java.util.Optional;
import java.util.function.LongConsumer;
import org.jspecify.annotations.Nullable;
import snagbench.bench.judge.Judge;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.SettledFail;
import snagbench.bench.judge.Verdict;
import snagbench.bench.session.Programs;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceHeader;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.ResetCause;

/** Runs one script on a rig that is ready, judges what was seen, and keeps its trace. */
final class ScriptRunner {
    private final RunPlan plan;
    private final RunTerms terms;
    private final HeldRig rig;
    private final RunFolder folder;

    ScriptRunner(RunPlan plan, RunTerms terms, HeldRig rig, RunFolder folder) {
        this.plan = plan;
        this.terms = terms;
        this.rig = rig;
        this.folder = folder;
    }

    /**
     * What came of a script.
     *
     * @param judgement verdict and reasons; empty where the user stopped it
     * @param trace what was seen; empty where it could not be armed
     * @param traceFile where that is kept
     * @param failure what went wrong with rig or line
     * @param goesOn whether the plan may go on in spite of it
     */
    record Outcome(
            Optional<Judgement> judgement,
            Optional<Trace> trace,
            Optional<String> traceFile,
            Optional<SessionException> failure,
            boolean goesOn) {
        static Outcome stopped() {
            return new Outcome(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty(), false);
        }

        /** How long it was on the rig's clock, from arming on; 0 where nothing was seen. */
        long lastedMicros() {
            return trace.filter(seen -> seen.rows() > 0)
                    .map(seen -> seen.micros(seen.rows() - 1))
                    .orElse(0L);
        }

        /** Why the plan cannot go on. */
        Optional<SessionException> endsThePlan() {
            return goesOn ? Optional.empty() : failure;
        }
    }

    /**
     * Runs a script.
     *
     * @param job which
     * @param progress is told the rig's time since arming, often
     * @return what came of it
     * @throws IOException if its trace cannot be kept; the rig has been let go by then
     */
    Outcome run(ScriptJob job, LongConsumer progress) throws IOException {
        RigSession at = rig.current();
        TraceRecorder recorder = null;
        SessionException failure = null;
        Optional<TraceKeeper> keeper = job.traceFile().map(name -> keeper(name, job, at));
        ScriptRun scriptRun = new ScriptRun(
                at,
                job.script(),
                plan.rig().settlingMicros(),
                plan.runTimeMicros(),
                progress,
                trace -> keeper.ifPresent(open -> open.append(trace)),
                settledFail(job));
        try {
            recorder = at.arm(job.script(), job.seed());
            scriptRun.listen(recorder);
        } catch (SessionException e) {
            failure = e;
        }
        if (isOfTheUser(failure)) {
            keeper.ifPresent(TraceKeeper::close);
            return Outcome.stopped();
        }
        boolean goesOn = false;
        if (failure != null && failure.reason() == SessionException.Reason.LINK) {
            Optional<RigReturn> back = rig.comeBack(at);
            goesOn = back.filter(rig::mayGoOn).isPresent();
            failure = lost(failure, back, recorder);
        } else if (failure != null && failure.reason() == SessionException.Reason.SILENT) {
            // A board that starts slowly is heard again only now, with the greeting that tells of its restart.
            rig.letGoIfItHears(failure);
            failure = at.restart().isPresent() ? restarted(at.restart().get()) : failure;
        }
        if (recorder != null && isExpectedRestart(job, recorder, failure)) {
            failure = goOn(scriptRun, recorder);
        }
        if (rig.isGivenUpForUser() || isOfTheUser(failure)) {
            keeper.ifPresent(TraceKeeper::close);
            return Outcome.stopped();
        }
        Trace trace = recorder == null ? null : scriptRun.toItsEnd(recorder.trace());
        at.endRecording();
        rig.current().endRecording();
        if (failure == null) {
            try {
                rig.letGo(at);
            } catch (SessionException e) {
                failure = e;
                goesOn = e.reason() == SessionException.Reason.LINK
                        && rig.comeBack(at).filter(rig::mayGoOn).isPresent();
            }
            if (rig.isGivenUpForUser()) {
                keeper.ifPresent(TraceKeeper::close);
                return Outcome.stopped();
            }
        } else {
            rig.letGoIfItHears(failure);
        }
        // Only a virtual rig is brought to ready again by itself after a restart: a real one would move unattended.
        goesOn |= failure != null && failure.reason() == SessionException.Reason.RESTARTED && !rig.isReal();
        Judgement judgement = trace == null
                ? Judgements.error("the script could not be armed: " + message(failure), job.script())
                : judge(job, trace, failure);
        if (trace != null && keeper.isPresent()) {
            keeper.get().finish(trace);
        }
        return new Outcome(
                Optional.of(judgement),
                Optional.ofNullable(trace),
                trace == null ? Optional.empty() : job.traceFile(),
                Optional.ofNullable(failure),
                goesOn);
    }

    private TraceKeeper keeper(String name, ScriptJob job, RigSession at) {
        return new TraceKeeper(
                folder.path().resolve(name),
                new TraceHeader(
                        TraceHeader.Origin.RUN,
                        PlannedRun.nameOf(job.script()),
                        job.seed(),
                        Programs.digestOf(job.script()),
                        at.hello().build));
    }

    /** Where a restart is expected, leaving the rig alone before it comes would only leave that to the next script. */
    private Optional<SettledFail> settledFail(ScriptJob job) {
        return terms.toTheEnd() || !job.isJudgedWhole() || AfterRestart.isExpected(job.script())
                ? Optional.empty()
                : Optional.of(new SettledFail(job.script(), plan.rig()));
    }

    private static boolean isOfTheUser(@Nullable SessionException failure) {
        return failure != null && failure.reason() == SessionException.Reason.CANCELLED;
    }

    private static boolean isExpectedRestart(
            ScriptJob job, TraceRecorder recorder, @Nullable SessionException failure) {
        boolean heard = failure == null || failure.reason() == SessionException.Reason.RESTARTED;
        return heard
                && AfterRestart.isExpected(job.script())
                && recorder.trace().restart().isPresent();
    }

    /**
     * Listens on behind a restart that the script expects. Nothing that moves is sent: what the control code does now, it does
     * by itself.
     */
    private SessionException goOn(ScriptRun scriptRun, TraceRecorder recorder) {
        try {
            rig.reopenAfterRestart();
            rig.current().recordAfterRestart(recorder);
            scriptRun.listenAfterRestart(rig.current(), recorder);
        } catch (SessionException e) {
            return e;
        }
        return new SessionException(
                SessionException.Reason.RESTARTED, "the controller restarted, as the script expects");
    }

    /** What a lost line means, now that it is known whether the rig came back: it may have gone because it restarted. */
    private SessionException lost(
            SessionException failure, Optional<RigReturn> back, @Nullable TraceRecorder recorder) {
        if (back.isEmpty()) {
            String why = rig.mustMoveToGetReady()
                    ? "; a real rig that has to move to get ready is not taken up again by itself"
                    : "; it did not come back by itself";
            return new SessionException(SessionException.Reason.LINK, message(failure) + why, failure);
        }
        if (back.get().tellsOfARestart()) {
            if (recorder != null) {
                recorder.restarted(back.get().cause());
            }
            return restarted(back.get().cause());
        }
        return new SessionException(
                SessionException.Reason.LINK,
                message(failure) + "; it came back by itself" + rig.words(back.get()),
                failure);
    }

    private static SessionException restarted(ResetCause cause) {
        return new SessionException(
                SessionException.Reason.RESTARTED, "the controller restarted (" + RigReturn.name(cause) + ")");
    }

    private Judgement judge(ScriptJob job, Trace trace, @Nullable SessionException failure) {
        Judgement judgement = Judge.judge(job.script(), trace, plan.rig());
        boolean harnessFailed = failure != null && failure.reason() != SessionException.Reason.RESTARTED;
        return harnessFailed
                ? Judgements.worsened(judgement, Verdict.ERROR, message(failure), job.script())
                : judgement;
    }

    private static String message(@Nullable Exception e) {
        return e == null ? "" : String.valueOf(e.getMessage());
    }
}
