package snagbench.bench.run;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigFile;
import snagbench.bench.trace.Trace;

/**
 * Changes the control code, one change at a time, and runs scripts that have passed until one does not pass any more: those first
 * that name the fail-safe concerned. Only on a virtual rig.
 */
final class AdequacyRunner {
    private final AdequacyPlan wanted;
    private final ControlRuns objections;
    private final RigTurn turns;
    private final Journal journal;
    private final RunListener listener;

    private final List<Passed> passed = new ArrayList<>();
    private final Map<String, Integer> asBuilt = new TreeMap<>();

    AdequacyRunner(AdequacyPlan wanted, ControlRuns objections, RigTurn turns, Journal journal, RunListener listener) {
        this.wanted = wanted;
        this.objections = objections;
        this.turns = turns;
        this.journal = journal;
        this.listener = listener;
    }

    /** A fault run that passed, once for each script. */
    private record Passed(int index, PlannedRun run) {
        boolean names(Set<String> failSafes) {
            return run.script().failSafes().stream().anyMatch(one -> failSafes.contains(one.name()));
        }
    }

    /** Takes a fault run that passed; its trace tells the constants as they are built. */
    void take(int index, PlannedRun run, Trace trace) {
        passed.add(new Passed(index, run));
        for (AdequacyPlan.Change change : wanted.constants()) {
            ChannelDescription constant = change.constant().channel();
            if (!asBuilt.containsKey(constant.name())) {
                asBuilt(trace, constant).ifPresent(raw -> asBuilt.put(constant.name(), raw));
            }
        }
    }

    private static OptionalInt asBuilt(Trace trace, ChannelDescription constant) {
        for (int row = 0; row < trace.rows(); row++) {
            if (trace.has(row, constant.index())) {
                return OptionalInt.of(trace.real(row, constant.index()));
            }
        }
        return OptionalInt.empty();
    }

    /** Makes all changes in turn; tells how the run ends by it, if it does. */
    Optional<RunEnd> run(List<ScriptResult> controls, boolean real) throws IOException {
        for (FailSafeDescription failSafe : wanted.removals()) {
            Change change = removal(failSafe);
            Optional<ScriptResult> before = noticed(failSafe, controls);
            Optional<RunEnd> ended = real
                    ? refuse(change)
                    : before.isPresent()
                            ? note(
                                    change,
                                    0,
                                    0,
                                    before.map(ScriptResult::title),
                                    sentence(before.get().judgement()))
                            : tryOut(change);
            if (ended.isPresent()) {
                return ended;
            }
        }
        for (AdequacyPlan.Change constant : wanted.constants()) {
            for (Change change : changes(constant)) {
                Optional<RunEnd> ended = real ? refuse(change) : tryOut(change);
                if (ended.isPresent()) {
                    return ended;
                }
            }
        }
        return Optional.empty();
    }

    /** One change of the control code. */
    private record Change(
            ChangeResult.Kind kind,
            String name,
            String from,
            String to,
            Set<String> failSafes,
            Optional<FailSafeDescription> without,
            Optional<FaultScript.Adjustment> adjustment,
            Optional<String> notPossible) {
        FaultScript of(FaultScript script) {
            return without.map(script::inhibiting).orElseGet(() -> script.adjusting(adjustment.orElseThrow()));
        }
    }

    private static Change removal(FailSafeDescription failSafe) {
        return new Change(
                ChangeResult.Kind.FAILSAFE,
                failSafe.name(),
                "",
                "",
                Set.of(failSafe.name()),
                Optional.of(failSafe),
                Optional.empty(),
                failSafe.inhibition().isPresent()
                        ? Optional.empty()
                        : Optional.of("the rig cannot leave out " + failSafe.name()));
    }

    /** Down and up, as far as the constant's range goes. */
    private List<Change> changes(AdequacyPlan.Change wantedChange) {
        RigFile.Adjustable constant = wantedChange.constant();
        ChannelDescription channel = constant.channel();
        if (!asBuilt.containsKey(channel.name())) {
            return List.of(change(wantedChange, "", "", 0, Optional.of("no trace tells what it is as built")));
        }
        int built = asBuilt.get(channel.name());
        List<Change> changes = new ArrayList<>();
        for (int raw : new int[] {constant.lower(built), constant.higher(built)}) {
            if (raw != built) {
                changes.add(change(wantedChange, channel.show(built), channel.show(raw), raw, Optional.empty()));
            }
        }
        return changes;
    }

    private static Change change(
            AdequacyPlan.Change wantedChange, String from, String to, int raw, Optional<String> notPossible) {
        ChannelDescription channel = wantedChange.constant().channel();
        return new Change(
                ChangeResult.Kind.CONSTANT,
                channel.name(),
                from,
                to,
                wantedChange.failSafes(),
                Optional.empty(),
                Optional.of(new FaultScript.Adjustment(channel, raw)),
                notPossible);
    }

    /** An inhibited run that did not pass has settled it already. */
    private static Optional<ScriptResult> noticed(FailSafeDescription failSafe, List<ScriptResult> controls) {
        return controls.stream()
                .filter(one -> one.role() == Role.INHIBITED
                        && one.judgement().verdict() == Verdict.FAIL
                        && one.control().orElseThrow().change().equals(failSafe.name() + " inhibited"))
                .findFirst();
    }

    private Optional<RunEnd> refuse(Change change) throws IOException {
        return notPossible(
                change, "never on a real rig: it would run script after script with its control code changed");
    }

    private Optional<RunEnd> tryOut(Change change) throws IOException {
        if (change.notPossible().isPresent()) {
            return notPossible(change, change.notPossible().get());
        }
        List<Passed> order = new ArrayList<>(passed);
        order.sort(Comparator.comparing(one -> !one.names(change.failSafes())));
        int runs = 0;
        long rigMicros = 0;
        Optional<String> objection = Optional.empty();
        for (Passed one : order) {
            Optional<String> itsOwn = objection(change, one.run().script());
            if (itsOwn.isPresent()) {
                objection = objection.or(() -> itsOwn);
                continue;
            }
            ScriptJob job =
                    new ScriptJob(change.of(one.run().script()), one.run().seed(), Optional.empty());
            RigTurn.Turn turn = turns.run(job, one.index(), one.run());
            if (turn.outcome().isEmpty()) {
                return turn.end();
            }
            runs++;
            rigMicros += turn.outcome().get().lastedMicros();
            Judgement judgement = new ControlRun(
                            new Control(Role.INHIBITED, one.index(), ""), job.script(), 0, Optional.empty())
                    .taken(turn.outcome().get().judgement().orElseThrow());
            if (judgement.verdict() == Verdict.FAIL) {
                note(change, runs, rigMicros, Optional.of(one.run().title()), sentence(judgement));
                return turn.end();
            }
            if (turn.end().isPresent()) {
                notPossible(change, "the rig failed while \"" + one.run().title() + "\" ran with it");
                return turn.end();
            }
        }
        if (runs == 0) {
            return notPossible(
                    change,
                    objection
                            .map(why -> "no script that passed can be run with it: " + why)
                            .orElse("no script passed that could be run with it"));
        }
        return note(change, runs, rigMicros, Optional.empty(), "");
    }

    /** Why a script cannot be run with a change. */
    private Optional<String> objection(Change change, FaultScript script) {
        return change.without().isPresent()
                ? objections.objection(script, change.without().get())
                : objections.noRoomFor(change.of(script));
    }

    private Optional<RunEnd> note(Change change, int runs, long rigMicros, Optional<String> noticedBy, String how)
            throws IOException {
        write(new ChangeResult(
                change.kind(),
                change.name(),
                change.from(),
                change.to(),
                runs,
                rigMicros,
                noticedBy,
                how,
                Optional.empty()));
        return Optional.empty();
    }

    private Optional<RunEnd> notPossible(Change change, String why) throws IOException {
        write(new ChangeResult(
                change.kind(),
                change.name(),
                change.from(),
                change.to(),
                0,
                0,
                Optional.empty(),
                "",
                Optional.of(why)));
        return Optional.empty();
    }

    private void write(ChangeResult result) throws IOException {
        journal.append(result);
        listener.tried(result);
    }

    private static String sentence(Judgement judgement) {
        return judgement.findings().stream()
                .filter(one -> one.verdict() == judgement.verdict() || one.verdict() == Verdict.ERROR)
                .findFirst()
                .map(one -> one.verdict().word() + ": " + one.name())
                .orElse(judgement.verdict().word());
    }
}
