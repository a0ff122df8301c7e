package snagbench.bench.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import snagbench.bench.run.ControlCheck;
import snagbench.bench.run.ControlVerdicts;
import snagbench.bench.run.PlannedRun;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.run.TraceJudge;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Problem;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.read.RigFiles;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.session.Programs;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.TraceHeader;

/** Judges a stored trace again; needs no rig. */
@Command(
        name = "judge",
        mixinStandardHelpOptions = true,
        description = {
            "Judges a stored trace again, with a script that may have changed since. No rig is needed.",
            "What the rig was loaded with then stays as it was: a script that injects something else must be run again.",
            "The trace of a control run of the script is judged as that: 0 where it bears the script's pass out, else 3."
        },
        footer = {
            "",
            "Example: snagbench judge results/2026-03-01T22-15-00-nightly/traces/0001-reach-blocked-midway.trace"
                    + " test-plans/seedling-shuttle/reach-blocked-midway.fault.yaml"
        })
final class JudgeCommand implements Callable<Integer> {
    private final Surroundings surroundings;

    @Parameters(
            index = "0",
            paramLabel = "TRACE",
            description = "A *.trace of a run, or a *.csv as \"record\" makes it.")
    private String traceGiven = "";

    @Parameters(index = "1", paramLabel = "SCRIPT", description = "A *.fault.yaml.")
    private String scriptGiven = "";

    @Mixin
    private SharedOptions shared = new SharedOptions();

    @Mixin
    private Talk talk = new Talk();

    JudgeCommand(Surroundings surroundings) {
        this.surroundings = surroundings;
    }

    @Override
    public Integer call() throws UserError {
        talk.check();
        Path script = surroundings.path(scriptGiven);
        RigChoice rigs = new RigChoice(surroundings);
        Path rigFile = shared.rig().isPresent() ? rigs.find(shared.rig().get(), script) : rigs.guess(script);
        StoredTrace stored = new TraceFiles(surroundings).read(traceGiven, () -> rigFile);
        Reading reading = read(script, rigFile, stored.trace().rig(), rigs);
        if (reading.script().value().isEmpty()) {
            reading.problems().forEach(this::show);
            surroundings.err().println("Nothing was judged.");
            return ExitStatus.FILES;
        }
        reading.problems().forEach(this::show);
        FaultScript read = theOneOf(reading.script().value().get(), stored.header());
        ScriptResult result = new TraceJudge(stored, reading.rig(), reading.description()).judge(read, traceGiven);
        Optional<ControlCheck> control = result.control().map(one -> ControlVerdicts.check(result));
        show(stored, reading.rig(), result, control);
        return control.map(one -> one.takesThePass() ? ExitStatus.INCONCLUSIVE : ExitStatus.PASS)
                .orElse(ExitStatus.of(result.judgement().verdict()));
    }

    /** Of a file that varies something, the script that the trace is of; else one with which the rig was loaded so. */
    private static FaultScript theOneOf(List<FaultScript> scripts, TraceHeader header) {
        return scripts.stream()
                .filter(one -> PlannedRun.nameOf(one).equals(header.script()))
                .findFirst()
                .or(() -> scripts.stream()
                        .filter(one -> Programs.digestOf(one) == header.program())
                        .findFirst())
                .orElse(scripts.get(0));
    }

    /** What could be read, against which description of the rig. */
    private record Reading(
            RigFile rig, RigDescription description, Checked<List<FaultScript>> script, List<Problem> problems) {}

    /**
     * Against the rig as it was when the trace was made, if the files fit that; else against the rig as it is stored now, and
     * what the trace lacks of it is told.
     */
    private Reading read(Path script, Path rigFile, RigDescription then, RigChoice rigs) throws UserError {
        Checked<RigFile> asItWas = RigFiles.readRig(rigFile, Optional.of(then));
        if (asItWas.value().isPresent()) {
            Checked<List<FaultScript>> read =
                    ScriptReader.readAll(script, then, asItWas.value().get());
            if (read.value().isPresent()) {
                List<Problem> problems = new ArrayList<>(asItWas.problems());
                problems.addAll(read.problems());
                return new Reading(asItWas.value().get(), then, read, problems);
            }
        }
        List<Problem> problems = new ArrayList<>();
        Optional<RigChoice.Rig> now = rigs.read(rigFile, problems);
        if (now.isEmpty()) {
            problems.forEach(this::show);
            throw new UserError(ExitStatus.FILES, "the rig's files cannot be read. Nothing was judged.");
        }
        Checked<List<FaultScript>> read =
                ScriptReader.readAll(script, now.get().description(), now.get().content());
        problems.addAll(read.problems());
        return new Reading(now.get().content(), now.get().description(), read, problems);
    }

    private void show(Problem problem) {
        ProblemText.lines(problem, surroundings).forEach(surroundings.err()::println);
    }

    private void show(StoredTrace stored, RigFile rig, ScriptResult result, Optional<ControlCheck> control) {
        String of = stored.header().script().isEmpty()
                ? ""
                : " of \"" + stored.header().script() + "\"";
        String build = stored.header().build().isEmpty()
                ? ""
                : ", build " + stored.header().build();
        Results results = new Results(surroundings, talk);
        results.begin(traceGiven + of + " on " + rig.name() + " ("
                + stored.header().origin().word() + build + "), seed "
                + stored.header().seed());
        results.row(result);
        control.ifPresent(one -> {
            String change = one.control().change();
            results.note("this is the trace of a control run of the script, its "
                    + one.control().role().words() + (change.isEmpty() ? "" : " (" + change + ")")
                    + ", and is judged as that");
            results.note(one.state().word() + ": " + one.sentence());
        });
        results.details(result);
    }
}
