package snagbench.bench.run;

import java.io.IOException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.BooleanSupplier;
import java.util.function.IntSupplier;
import snagbench.bench.evidence.ClaimOutcome;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Place;
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
    private final List<ScriptResult> results = new ArrayList<>();

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
                    plan.runs().stream().map(PlannedRun::title).toList(),
                    plan.between().restMicros(),
                    plan.claims());
            try (Journal journal = Journal.create(folder.path(), header)) {
                journal.append(runAll(journal));
            }
        }
        return RunRecord.read(folder.path().resolve(Journal.FILE_NAME));
    }

    private RunEnd runAll(Journal journal) throws IOException {
        RigTurn turns = new RigTurn(rig, scripts, listener);
        ControlRuns which = new ControlRuns(plan, terms, rig.isReal());
        ControlRunner controls = new ControlRunner(plan, which, turns, journal, listener);
        Optional<AdequacyRunner> adequacy =
                plan.checks().adequacy().map(wanted -> new AdequacyRunner(wanted, which, turns, journal, listener));
        Set<FaultScript> passed = new HashSet<>();
        for (int index = 0; index < plan.runs().size(); index++) {
            PlannedRun run = plan.runs().get(index);
            if (cancelled.getAsBoolean()) {
                return rig.stopForUser();
            }
            Optional<String> lacking = terms.lacking(run.script(), plan.rig(), rig.isReal());
            if (lacking.isPresent()) {
                note(journal, result(index, run, Judgements.none(lacking.get()), Optional.empty()));
                continue;
            }
            Optional<String> pointless = pointless(run);
            if (pointless.isPresent()) {
                note(journal, result(index, run, Judgements.none(pointless.get()), Optional.empty()));
                continue;
            }
            int at = index;
            RigTurn.Turn turn = turns.run(ScriptJob.of(index, run), index, run);
            if (turn.outcome().isEmpty()) {
                return turn.end().orElseThrow();
            }
            ScriptResult result =
                    result(index, run, turn.outcome().get().judgement().orElseThrow(), turn.outcome());
            note(journal, result);
            Optional<RunEnd> end = turn.end();
            if (end.isEmpty() && result.judgement().verdict() == Verdict.PASS && passed.add(run.script())) {
                Trace trace = turn.outcome().get().trace().orElseThrow();
                adequacy.ifPresent(one -> one.take(at, run, trace));
                end = controls.controlsOf(result, run, trace);
            }
            if (end.isPresent()) {
                return end.get();
            }
        }
        Optional<RunEnd> end =
                adequacy.isPresent() ? adequacy.get().run(controls.made(), rig.isReal()) : Optional.empty();
        return end.orElseGet(RunEnd::complete);
    }

    /** Why a run would show nothing more: what its script is to show cannot be shown any longer, whatever it comes to. */
    private Optional<String> pointless(PlannedRun run) {
        Place script = run.script().place();
        List<ScriptResult> before = results.stream()
                .filter(one -> one.place().equals(script))
                .filter(one -> one.judgement().verdict() != Verdict.NONE)
                .toList();
        int passed = (int) before.stream()
                .filter(one -> one.judgement().verdict() == Verdict.PASS)
                .count();
        return plan.claimOf(script)
                .map(claimed -> ClaimOutcome.of(claimed.claim(), claimed.runs(), before.size(), before.size() - passed))
                .filter(outcome -> outcome.standing() == ClaimOutcome.Standing.OUT_OF_REACH)
                .map(outcome -> "not run: " + outcome.words());
    }

    private void note(Journal journal, ScriptResult result) throws IOException {
        journal.append(result);
        results.add(result);
        listener.ended(result);
    }

    private ScriptResult result(
            int index, PlannedRun run, Judgement judgement, Optional<ScriptRunner.Outcome> outcome) {
        return ScriptResult.of(index, run, judgement, outcome, plan.variation(index));
    }
}
