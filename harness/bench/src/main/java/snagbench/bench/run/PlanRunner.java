package snagbench.bench.run;

import java.io.IOException;
import java.time.Instant;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.IntSupplier;
import snagbench.bench.judge.Judgement;
import snagbench.bench.session.SessionException;
import snagbench.bench.trace.Trace;
import snagbench.wire.Hello;

/**
 * Runs a plan: brings the rig to ready, runs a script, judges it, writes it down, and goes on to the next. A rig that
 * does not come back to ready ends the plan; so does the user.
 *
 * <p>However a run ends, a rig that holds a lease is asked for its safe stop before the line is closed.
 */
public final class PlanRunner {
    private final RunPlan plan;
    private final RunTerms terms;
    private final HeldRig rig;
    private final ScriptRunner scripts;
    private final RunFolder folder;
    private final RunListener listener;
    private final BooleanSupplier cancelled;

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
        this.folder = folder;
        this.listener = listener;
        this.cancelled = cancelled;
        this.rig = new HeldRig(plan, terms, connector, cancelled, nonces);
        this.scripts = new ScriptRunner(plan, terms, rig, folder);
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
        try (HeldRig held = rig) {
            held.begin();
            Hello hello = held.current().hello();
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
        }
        return RunRecord.read(folder.path().resolve(Journal.FILE_NAME));
    }

    private RunEnd runAll(Journal journal) throws IOException {
        for (int index = 0; index < plan.runs().size(); index++) {
            PlannedRun run = plan.runs().get(index);
            if (cancelled.getAsBoolean()) {
                return rig.stopForUser();
            }
            Optional<String> lacking = terms.lacking(run.script(), rig.isReal());
            if (lacking.isPresent()) {
                note(journal, leftOut(index, run, lacking.get()));
                continue;
            }
            Optional<RunEnd> ended = runOne(journal, index, run);
            if (ended.isPresent()) {
                return ended.get();
            }
        }
        return RunEnd.complete();
    }

    /** Empty if the plan goes on. */
    private Optional<RunEnd> runOne(Journal journal, int index, PlannedRun run) throws IOException {
        try {
            rig.prepare();
        } catch (SessionException e) {
            return Optional.of(endOf(e));
        }
        listener.started(index, run);
        ScriptRunner.Outcome outcome =
                scripts.run(ScriptJob.of(index, run), micros -> listener.progressed(index, micros));
        if (outcome.judgement().isEmpty()) {
            return Optional.of(rig.stopForUser());
        }
        note(journal, result(index, run, outcome.judgement().get(), outcome.trace(), outcome.traceFile()));
        return outcome.endsThePlan().map(failure -> new RunEnd(RunEnd.Cause.RIG, failure.getMessage()));
    }

    /** The rig did not come to ready. */
    private RunEnd endOf(SessionException failure) {
        if (failure.reason() == SessionException.Reason.CANCELLED) {
            return rig.stopForUser();
        }
        rig.letGoIfItHears(failure);
        return new RunEnd(RunEnd.Cause.RIG, failure.getMessage());
    }

    private void note(Journal journal, ScriptResult result) throws IOException {
        journal.append(result);
        listener.ended(result);
    }

    private ScriptResult leftOut(int index, PlannedRun run, String reason) {
        return result(index, run, Judgements.none(reason), Optional.empty(), Optional.empty());
    }

    private ScriptResult result(
            int index, PlannedRun run, Judgement judgement, Optional<Trace> trace, Optional<String> traceFile) {
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
                trace.filter(seen -> seen.rows() > 0)
                        .map(seen -> seen.micros(seen.rows() - 1))
                        .orElse(0L),
                trace.map(ScriptResult.LoopTimes::of).orElse(new ScriptResult.LoopTimes(0, 0)),
                trace.map(ScriptRun::gapTicks).orElse(0L),
                traceFile,
                plan.variation(index));
    }
}
