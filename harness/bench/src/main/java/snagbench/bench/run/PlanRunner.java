package snagbench.bench.run;

import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.IntSupplier;
import org.jspecify.annotations.Nullable;
import snagbench.bench.judge.Judge;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.Programs;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.SessionSettings;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceHeader;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.Hello;
import snagbench.wire.ResetCause;

/**
 * Runs a plan: brings the rig to ready, runs a script, judges it, writes it down, and goes on to the next. A rig that
 * does not come back to ready ends the plan; so does the user.
 *
 * <p>However a run ends, a rig that holds a lease is asked for its safe stop before the line is closed.
 */
public final class PlanRunner {
    /** Its lease ran out, or a guard tripped, just before it was asked. */
    private static final String STOPPED_BEFORE =
            "; it had stopped by itself before it was asked, and that stop is latched: look at the machine before it"
                    + " runs again";

    private final RunPlan plan;
    private final RunTerms terms;
    private final RigConnector connector;
    private final RunFolder folder;
    private final RunListener listener;
    private final BooleanSupplier cancelled;
    private final IntSupplier nonces;

    private @Nullable Link link;
    private @Nullable RigSession session;
    private boolean latched;
    private boolean begun;

    /**
     * A runner for one run.
     *
     * @param plan what to run
     * @param terms on what terms
     * @param connector connects to the rig
     * @param folder takes journal and traces
     * @param listener is told how it goes
     * @param cancelled true once the user wants to stop
     * @param nonces gives each session another name, none of them 0
     */
    public PlanRunner(
            RunPlan plan,
            RunTerms terms,
            RigConnector connector,
            RunFolder folder,
            RunListener listener,
            BooleanSupplier cancelled,
            IntSupplier nonces) {
        this.plan = plan;
        this.terms = terms;
        this.connector = connector;
        this.folder = folder;
        this.listener = listener;
        this.cancelled = cancelled;
        this.nonces = nonces;
    }

    /**
     * Runs the plan to its end, or as far as it goes.
     *
     * @param started the time that the journal's header bears
     * @param harness version of the harness
     * @return the run as the journal has it
     * @throws IOException if the journal cannot be written; what the rig was doing is let go first
     * @throws SessionException if the rig could not be connected, or is not the one that the scripts were checked against: nothing
     *     was run, and there is no journal
     */
    public RunRecord run(Instant started, String harness) throws IOException, SessionException {
        try {
            RigSession first = connect();
            requireTheRightRig(first);
            Hello hello = first.hello();
            RunHeader header = new RunHeader(
                    started,
                    harness,
                    Runtime.version().toString(),
                    plan.name(),
                    plan.file(),
                    plan.rig().name(),
                    hello.build,
                    hello.real != 0,
                    String.format(Locale.ROOT, "0x%08x", hello.digest),
                    plan.seed(),
                    plan.runs().stream().map(PlannedRun::title).toList());
            try (Journal journal = Journal.create(folder.path(), header)) {
                journal.append(runAll(journal));
            }
        } finally {
            disconnect();
        }
        return RunRecord.read(folder.path().resolve(Journal.FILE_NAME));
    }

    private void requireTheRightRig(RigSession connected) throws SessionException {
        List<String> differences = DescriptionCheck.differences(plan.description(), connected.description());
        if (!differences.isEmpty()) {
            throw new SessionException(
                    SessionException.Reason.REFUSED,
                    "the rig is not the one that the scripts were checked against: "
                            + String.join("; ", differences)
                            + ". If it was changed on purpose, run \"identify --save\" and check the scripts again");
        }
        Optional<String> objection = terms.objection(connected.hello());
        if (objection.isPresent()) {
            throw new SessionException(SessionException.Reason.REFUSED, objection.get());
        }
        connected.loadGuards(plan.rig().guards());
    }

    private RunEnd runAll(Journal journal) throws IOException {
        for (int index = 0; index < plan.runs().size(); index++) {
            PlannedRun run = plan.runs().get(index);
            if (cancelled.getAsBoolean()) {
                return stopForUser();
            }
            Optional<String> lacking = terms.lacking(run.script(), isReal());
            if (lacking.isPresent()) {
                note(journal, result(index, run, Judgements.none(lacking.get()), null, Optional.empty()));
                continue;
            }
            try {
                prepare();
            } catch (SessionException e) {
                if (e.reason() == SessionException.Reason.CANCELLED) {
                    return stopForUser();
                }
                letGoIfItHears(e);
                return new RunEnd(RunEnd.Cause.RIG, message(e));
            }
            listener.started(index, run);
            Outcome outcome = runOne(index, run);
            if (outcome.result() == null) {
                return stopForUser();
            }
            note(journal, outcome.result());
            if (outcome.failure() != null && !outcome.goesOn()) {
                return new RunEnd(RunEnd.Cause.RIG, message(outcome.failure()));
            }
        }
        return RunEnd.complete();
    }

    private void note(Journal journal, ScriptResult result) throws IOException {
        journal.append(result);
        listener.ended(result);
    }

    private boolean isReal() {
        return current().hello().real != 0;
    }

    private RigSession current() {
        RigSession open = session;
        if (open == null) {
            throw new IllegalStateException("no session");
        }
        return open;
    }

    /** What came of a script: no result where the user stopped it; and whether a failure keeps the plan from going on. */
    private record Outcome(
            @Nullable ScriptResult result, @Nullable SessionException failure, boolean goesOn) {}

    private Outcome runOne(int index, PlannedRun run) throws IOException {
        RigSession at = current();
        TraceRecorder recorder = null;
        SessionException failure = null;
        String traceName = RunFolder.traceName(index, PlannedRun.nameOf(run.script()));
        TraceKeeper keeper = new TraceKeeper(
                folder.path().resolve(traceName),
                new TraceHeader(
                        TraceHeader.Origin.RUN,
                        PlannedRun.nameOf(run.script()),
                        run.seed(),
                        Programs.digestOf(run.script()),
                        at.hello().build));
        ScriptRun scriptRun = new ScriptRun(
                at,
                run.script(),
                plan.rig().settlingMicros(),
                plan.runTimeMicros(),
                micros -> listener.progressed(index, micros),
                keeper::append);
        try {
            recorder = at.arm(run.script(), run.seed());
            scriptRun.listen(recorder);
        } catch (SessionException e) {
            failure = e;
        }
        if (failure != null && failure.reason() == SessionException.Reason.CANCELLED) {
            keeper.close();
            return new Outcome(null, failure, false);
        }
        boolean goesOn = false;
        if (failure != null && failure.reason() == SessionException.Reason.LINK) {
            Optional<RigReturn> back = comeBack(at);
            goesOn = back.isPresent();
            failure = lost(failure, back, recorder);
        } else if (failure != null && failure.reason() == SessionException.Reason.SILENT) {
            // A board that starts slowly is heard again only now, with the greeting that tells of its restart.
            letGoIfItHears(failure);
            failure = at.restart().isPresent() ? restarted(at.restart().get()) : failure;
        }
        if (recorder != null && isExpectedRestart(run, recorder, failure)) {
            failure = goOn(scriptRun, recorder);
            if (failure.reason() == SessionException.Reason.CANCELLED) {
                keeper.close();
                return new Outcome(null, failure, false);
            }
        }
        Trace trace = recorder == null ? null : scriptRun.toItsEnd(recorder.trace());
        at.endRecording();
        current().endRecording();
        if (failure == null) {
            try {
                latched = at.letGo();
            } catch (SessionException e) {
                failure = e;
                goesOn = e.reason() == SessionException.Reason.LINK
                        && comeBack(at).isPresent();
            }
        } else {
            letGoIfItHears(failure);
        }
        // Only a virtual rig is brought to ready again by itself after a restart: a real one would move unattended.
        goesOn |= failure != null && failure.reason() == SessionException.Reason.RESTARTED && !isReal();
        Judgement judgement = trace == null
                ? Judgements.error("the script could not be armed: " + message(failure), run.script())
                : judge(run, trace, failure);
        Optional<String> kept = Optional.empty();
        if (trace != null) {
            keeper.finish(trace);
            kept = Optional.of(traceName);
        }
        return new Outcome(result(index, run, judgement, trace, kept), failure, goesOn);
    }

    private static boolean isExpectedRestart(
            PlannedRun run, TraceRecorder recorder, @Nullable SessionException failure) {
        boolean heard = failure == null || failure.reason() == SessionException.Reason.RESTARTED;
        return heard
                && AfterRestart.isExpected(run.script())
                && recorder.trace().restart().isPresent();
    }

    /**
     * Listens on behind a restart that the script expects. Nothing that moves is sent: what the control code does now, it does
     * by itself.
     */
    private SessionException goOn(ScriptRun scriptRun, TraceRecorder recorder) {
        try {
            if (current().restart().isPresent()) {
                latched = false;
                reopen(0);
            }
            current().recordAfterRestart(recorder);
            scriptRun.listenAfterRestart(current(), recorder);
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
            String why = mustMoveToGetReady()
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
                message(failure) + "; it came back by itself" + back.get().words(),
                failure);
    }

    private static SessionException restarted(ResetCause cause) {
        return new SessionException(
                SessionException.Reason.RESTARTED, "the controller restarted (" + RigReturn.name(cause) + ")");
    }

    private Judgement judge(PlannedRun run, Trace trace, @Nullable SessionException failure) {
        Judgement judgement = Judge.judge(run.script(), trace, plan.rig());
        boolean harnessFailed = failure != null && failure.reason() != SessionException.Reason.RESTARTED;
        return harnessFailed
                ? Judgements.worsened(judgement, Verdict.ERROR, message(failure), run.script())
                : judgement;
    }

    private ScriptResult result(
            int index, PlannedRun run, Judgement judgement, @Nullable Trace trace, Optional<String> traceFile) {
        return new ScriptResult(
                index,
                run.script().name(),
                run.script().place(),
                run.repeat(),
                run.repeats(),
                run.seed(),
                run.script().failSafes().stream().map(one -> one.name()).toList(),
                ScriptResult.Evidence.of(run.script()),
                judgement,
                trace == null || trace.rows() == 0 ? 0 : trace.micros(trace.rows() - 1),
                trace == null ? new ScriptResult.LoopTimes(0, 0) : ScriptResult.LoopTimes.of(trace),
                trace == null ? 0 : ScriptRun.gapTicks(trace),
                traceFile,
                plan.variation(index));
    }

    /** Brings the rig to ready; after a restart, or where it was lost and came back by itself, in a new session. */
    private void prepare() throws SessionException {
        try {
            if (current().restart().isPresent()) {
                latched = false;
                reopen(0);
            }
            makeReady();
        } catch (SessionException e) {
            if (e.reason() != SessionException.Reason.LINK
                    || comeBack(current()).isEmpty()) {
                throw e;
            }
            makeReady();
        }
    }

    private void makeReady() throws SessionException {
        if (latched && isReal()) {
            throw new SessionException(
                    SessionException.Reason.REFUSED,
                    "a stop is latched on the rig; look at the machine, bring it to ready by hand, and run again");
        }
        if (!begun && isReal() && terms.releaseLatch()) {
            latched = true;
        }
        begun = true;
        Optional<RigFile.Ready> ready = plan.rig().ready();
        if (ready.isPresent()) {
            try {
                current().makeReady(ready.get(), latched);
            } catch (SessionException e) {
                if (e.reason() != SessionException.Reason.LATCHED) {
                    throw e;
                }
                releaseOf(e);
                current().makeReady(ready.get(), true);
            }
        } else if (latched) {
            current().releaseLatch();
        }
        latched = false;
    }

    /** A stop of an earlier run may still be latched. On a virtual rig there is nothing to look at. */
    private void releaseOf(SessionException refusal) throws SessionException {
        if (isReal()) {
            throw new SessionException(
                    SessionException.Reason.LATCHED,
                    refusal.getMessage() + ". Look at the machine first, with its power off; if it may move again, run"
                            + " with --release-latch");
        }
    }

    private RigSession connect() throws SessionException {
        try {
            link = connector.connect();
        } catch (LinkException e) {
            throw new SessionException(SessionException.Reason.LINK, String.valueOf(e.getMessage()), e);
        }
        return open(0);
    }

    private void reopen(long busyMicros) throws SessionException {
        requireTheRightRig(open(busyMicros));
    }

    private RigSession open(long busyMicros) throws SessionException {
        Link open = link;
        if (open == null) {
            throw new IllegalStateException("no link");
        }
        SessionSettings settings = SessionSettings.usual(
                        nonces.getAsInt(), plan.rig().leaseMillis(), cancelled)
                .withGreeting(connector.greetingMicros(), busyMicros);
        RigSession opened = RigSession.open(open, settings, Optional.of(plan.description()));
        session = opened;
        return opened;
    }

    private boolean mustMoveToGetReady() {
        return isReal() && plan.rig().ready().isPresent();
    }

    /**
     * Takes a rig up again whose line was lost, if it came back by itself and need not move to get ready. Its lease has to run
     * out first, and its stop to be done.
     */
    private Optional<RigReturn> comeBack(RigSession before) {
        if (mustMoveToGetReady()) {
            return Optional.empty();
        }
        closeLink();
        try {
            Optional<Link> again = connector.reconnect(cancelled);
            if (again.isEmpty()) {
                return Optional.empty();
            }
            link = again.get();
            reopen(plan.rig().leaseMillis() * 1000L + SessionSettings.USUAL_STOP_MICROS);
        } catch (LinkException | SessionException e) {
            // What is told is that it was lost.
            return Optional.empty();
        }
        RigReturn back = RigReturn.of(before.hello(), current().hello());
        latched = back.isSameBoot();
        return Optional.of(back);
    }

    /** The user wants to stop: the machine's safe stop comes first. */
    private RunEnd stopForUser() {
        current().endRecording();
        boolean stopLatched;
        try {
            stopLatched = current().letGo();
        } catch (SessionException e) {
            return new RunEnd(RunEnd.Cause.CANCELLED, "stopped by the user; " + message(e));
        }
        return new RunEnd(
                RunEnd.Cause.CANCELLED,
                "stopped by the user; the rig has confirmed its safe stop" + (stopLatched ? STOPPED_BEFORE : ""));
    }

    /** A rig that refused something or missed an answer stops now, and not only when its lease runs out. */
    private void letGoIfItHears(SessionException failure) {
        boolean mayHear = failure.reason() == SessionException.Reason.REFUSED
                || failure.reason() == SessionException.Reason.LATCHED
                || failure.reason() == SessionException.Reason.SILENT;
        if (mayHear) {
            // What is told is the failure before; where it does not hear, the lease ends by itself.
            current().close();
        }
    }

    /** The safe stop first, if it is still owed, then the line. */
    private void disconnect() {
        try {
            if (session != null) {
                session.close();
            }
        } finally {
            closeLink();
        }
    }

    private void closeLink() {
        Link open = link;
        if (open != null) {
            link = null;
            open.close();
        }
    }

    private static String message(@Nullable Exception e) {
        return e == null ? "" : String.valueOf(e.getMessage());
    }
}
