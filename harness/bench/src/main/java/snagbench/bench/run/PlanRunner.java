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
import snagbench.bench.script.Injection;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.SessionSettings;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.ChannelKind;
import snagbench.wire.Hello;

/**
 * Runs a plan: brings the rig to ready, runs a script, judges it, writes it down, and goes on to the next. A rig that
 * does not come back to ready ends the plan; so does the user.
 */
public final class PlanRunner {
    private final RunPlan plan;
    private final RigConnector connector;
    private final RunFolder folder;
    private final RunListener listener;
    private final BooleanSupplier cancelled;
    private final IntSupplier nonces;

    private @Nullable Link link;
    private boolean latched;

    /**
     * A runner for one run.
     *
     * @param plan what to run
     * @param connector connects to the rig
     * @param folder takes journal and traces
     * @param listener is told how it goes
     * @param cancelled true once the user wants to stop
     * @param nonces gives each session another name, none of them 0
     */
    public PlanRunner(
            RunPlan plan,
            RigConnector connector,
            RunFolder folder,
            RunListener listener,
            BooleanSupplier cancelled,
            IntSupplier nonces) {
        this.plan = plan;
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
        RigSession first = connect();
        try {
            List<String> differences = DescriptionCheck.differences(plan.description(), first.description());
            if (!differences.isEmpty()) {
                throw new SessionException(
                        SessionException.Reason.REFUSED,
                        "the rig is not the one that the scripts were checked against: "
                                + String.join("; ", differences)
                                + ". If it was changed on purpose, run \"identify --save\" and check the scripts again");
            }
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
                journal.append(runAll(journal, first));
            }
        } finally {
            disconnect();
        }
        return RunRecord.read(folder.path().resolve(Journal.FILE_NAME));
    }

    private RunEnd runAll(Journal journal, RigSession first) throws IOException {
        RigSession current = first;
        for (int index = 0; index < plan.runs().size(); index++) {
            PlannedRun run = plan.runs().get(index);
            if (cancelled.getAsBoolean()) {
                return stopForUser(current);
            }
            try {
                if (current.restart().isPresent()) {
                    current = reopen();
                }
                makeReady(current);
            } catch (SessionException e) {
                if (e.reason() == SessionException.Reason.CANCELLED) {
                    return stopForUser(current);
                }
                letGoIfItHears(current, e);
                return new RunEnd(RunEnd.Cause.RIG, message(e));
            }
            listener.started(index, run);
            Outcome outcome = runOne(index, run, current);
            if (outcome.result() == null) {
                return stopForUser(current);
            }
            journal.append(outcome.result());
            listener.ended(outcome.result());
            if (outcome.failure() != null && !mayGoOn(outcome.failure())) {
                return new RunEnd(RunEnd.Cause.RIG, message(outcome.failure()));
            }
        }
        return RunEnd.complete();
    }

    /** Only a virtual rig is brought to ready again by itself after a restart: a real one would move unattended. */
    private boolean mayGoOn(SessionException failure) {
        return failure.reason() == SessionException.Reason.RESTARTED
                && !plan.description().limits().real();
    }

    private record Outcome(
            @Nullable ScriptResult result, @Nullable SessionException failure) {}

    private Outcome runOne(int index, PlannedRun run, RigSession current) throws IOException {
        TraceRecorder recorder = null;
        SessionException failure = null;
        ScriptRun scriptRun = new ScriptRun(
                current,
                run.script(),
                plan.rig().settlingMicros(),
                plan.runTimeMicros(),
                micros -> listener.progressed(index, micros));
        try {
            recorder = current.arm(run.script(), run.seed());
            scriptRun.listen(recorder);
        } catch (SessionException e) {
            failure = e;
        }
        if (failure != null && failure.reason() == SessionException.Reason.CANCELLED) {
            return new Outcome(null, failure);
        }
        Trace trace = recorder == null ? null : recorder.trace();
        current.endRecording();
        if (failure == null) {
            try {
                latched = current.letGo();
            } catch (SessionException e) {
                failure = e;
            }
        } else {
            letGoIfItHears(current, failure);
        }
        Judgement judgement = trace == null
                ? Judgements.error("the script could not be armed: " + message(failure), run.script())
                : judge(run, trace, failure);
        Trace counted = trace == null ? null : scriptRun.toItsEnd(trace);
        return new Outcome(result(index, run, judgement, counted), failure);
    }

    private Judgement judge(PlannedRun run, Trace trace, @Nullable SessionException failure) {
        Judgement judgement = Judge.judge(run.script(), trace, plan.rig());
        boolean harnessFailed = failure != null && failure.reason() != SessionException.Reason.RESTARTED;
        return harnessFailed
                ? Judgements.worsened(judgement, Verdict.ERROR, message(failure), run.script())
                : judgement;
    }

    private ScriptResult result(int index, PlannedRun run, Judgement judgement, @Nullable Trace trace)
            throws IOException {
        return new ScriptResult(
                index,
                run.script().name(),
                run.script().place(),
                run.repeat(),
                run.repeats(),
                run.seed(),
                run.script().failSafes().stream().map(one -> one.name()).toList(),
                evidence(run),
                judgement,
                trace == null || trace.rows() == 0 ? 0 : trace.micros(trace.rows() - 1),
                loops(trace),
                trace == null ? 0 : ScriptRun.gapTicks(trace),
                Optional.empty());
    }

    private static ScriptResult.LoopTimes loops(@Nullable Trace trace) {
        return trace == null || trace.rows() == 0
                ? new ScriptResult.LoopTimes(0, 0)
                : new ScriptResult.LoopTimes(trace.medianLoopMicros(), trace.longestLoopMicros());
    }

    private static ScriptResult.Evidence evidence(PlannedRun run) {
        List<Injection.Forcing> forcings = run.script().injections().stream()
                .flatMap(injection -> injection.forcings().stream())
                .toList();
        long physical = forcings.stream()
                .filter(forcing -> forcing.channel().kind() == ChannelKind.DISTURBANCE)
                .count();
        if (physical == 0) {
            return ScriptResult.Evidence.TOLD;
        }
        return physical == forcings.size() ? ScriptResult.Evidence.PHYSICAL : ScriptResult.Evidence.TOLD_AND_PHYSICAL;
    }

    private void makeReady(RigSession current) throws SessionException {
        if (plan.rig().ready().isEmpty()) {
            return;
        }
        boolean virtual = !plan.description().limits().real();
        if (latched && !virtual) {
            throw new SessionException(
                    SessionException.Reason.REFUSED,
                    "a stop is latched on the rig; look at the machine, bring it to ready by hand, and run again");
        }
        current.makeReady(plan.rig().ready().get(), latched);
        latched = false;
    }

    private RigSession connect() throws SessionException {
        try {
            link = connector.connect();
        } catch (LinkException e) {
            throw new SessionException(SessionException.Reason.LINK, String.valueOf(e.getMessage()), e);
        }
        return reopen();
    }

    private RigSession reopen() throws SessionException {
        Link open = link;
        if (open == null) {
            throw new IllegalStateException("no link");
        }
        SessionSettings settings =
                SessionSettings.usual(nonces.getAsInt(), plan.rig().leaseMillis(), cancelled);
        RigSession opened = RigSession.open(open, settings, Optional.of(plan.description()));
        opened.loadGuards(plan.rig().guards());
        return opened;
    }

    /** The user wants to stop: the machine's safe stop comes first. */
    private RunEnd stopForUser(RigSession current) {
        current.endRecording();
        try {
            current.letGo();
        } catch (SessionException e) {
            return new RunEnd(RunEnd.Cause.CANCELLED, "stopped by the user; " + message(e));
        }
        return new RunEnd(RunEnd.Cause.CANCELLED, "stopped by the user; the rig has confirmed its safe stop");
    }

    /** A rig that refused something or missed an answer stops now, and not only when its lease runs out. */
    private static void letGoIfItHears(RigSession current, SessionException failure) {
        boolean mayHear = failure.reason() == SessionException.Reason.REFUSED
                || failure.reason() == SessionException.Reason.SILENT;
        if (mayHear) {
            try {
                current.letGo();
            } catch (SessionException e) {
                // What is told is the failure before; the lease ends by itself.
                return;
            }
        }
    }

    private void disconnect() {
        Link open = link;
        if (open != null) {
            open.close();
        }
    }

    private static String message(@Nullable Exception e) {
        return e == null ? "" : String.valueOf(e.getMessage());
    }
}
