package snagbench.bench.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import snagbench.bench.report.register.AnswerChecker;
import snagbench.bench.report.register.DecisionSheet;
import snagbench.bench.report.register.DecisionTable;
import snagbench.bench.report.register.DecisionTableMaker;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.Trace;

/** Lays the register, as it is now, against the traces of a run. */
final class DecisionCheck {
    private final Surroundings surroundings;
    private final RunPages pages;
    private final NominalRuns nominal;

    DecisionCheck(Surroundings surroundings, Path folder, RunPages pages) {
        this.surroundings = surroundings;
        this.pages = pages;
        this.nominal = new NominalRuns(surroundings, folder, pages);
    }

    /** The table of a rig's register. */
    static DecisionTable table(RigChoice.Rig rig) throws UserError {
        Optional<FailSafeRegister> register = rig.register();
        Optional<ChannelDescription> step = rig.description().step();
        if (register.isEmpty() || step.isEmpty()) {
            throw new UserError(
                    ExitStatus.FILES,
                    "rig " + rig.content().name()
                            + (register.isEmpty()
                                    ? " has no fail-safe register (failsafes.yaml beside its rig.yaml)"
                                    : " tells of no step, by which symptoms could be told apart"));
        }
        return DecisionTableMaker.of(register.get(), step.get());
    }

    DecisionSheet of(RunRecord run) throws UserError, IOException {
        RigChoice.Rig rig = pages.rig(run)
                .orElseThrow(() -> new UserError(
                        ExitStatus.FILES, "the files of rig " + run.header().rig() + " cannot be found or read"));
        DecisionTable table = table(rig);
        AnswerChecker checker =
                new AnswerChecker(rig.register().orElseThrow(), rig.content(), rig.description(), table);
        for (ScriptResult result : run.results()) {
            Optional<StoredTrace> trace = pages.trace(result);
            trace.ifPresent(stored -> checker.look(
                    result.script()
                            + result.variant().map(one -> ", " + one.setting()).orElse(""),
                    stored.trace().under(rig.description()),
                    false));
            if (trace.isEmpty() && result.trace().isPresent()) {
                surroundings
                        .err()
                        .println("warning: the trace of \"" + result.script() + "\" is not there, and is left out");
            }
        }
        for (Trace trace : nominal.traces(run)) {
            checker.look("nominal run", trace.under(rig.description()), true);
        }
        return new DecisionSheet(table, checker.result());
    }
}
