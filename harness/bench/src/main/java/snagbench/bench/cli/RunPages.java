package snagbench.bench.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import snagbench.bench.report.MarkdownSummary;
import snagbench.bench.report.ResultsJson;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.report.sheet.RunSheet;
import snagbench.bench.report.sheet.Sources;
import snagbench.bench.run.PlannedRun;
import snagbench.bench.run.RunPlan;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.read.RigFinder;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.session.Programs;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.TraceFile;

/** The files that are made of a run's journal and traces, beside them. */
final class RunPages {
    private final Surroundings surroundings;
    private final Path folder;
    private final Results results;

    RunPages(Surroundings surroundings, Path folder, Results results) {
        this.surroundings = surroundings;
        this.folder = folder;
        this.results = results;
    }

    /** The run's folder. */
    Path folder() {
        return folder;
    }

    /** Of a run that just ended: what was run is known. */
    void write(RunRecord run, RunPlan plan) throws IOException {
        write(
                run,
                result -> Optional.of(plan.runs().get(result.index()).script()),
                plan.rig().wiring());
    }

    /** Of any journal: what the user's files still say of it. Files that are gone or have changed only make the page poorer. */
    void write(RunRecord run) throws IOException {
        Optional<RigChoice.Rig> rig = rig(run);
        Map<Path, List<FaultScript>> read = new HashMap<>();
        write(
                run,
                result -> rig.flatMap(known -> script(result, known, read)),
                rig.map(known -> known.content().wiring()).orElse(Map.of()));
    }

    private void write(RunRecord run, Function<ScriptResult, Optional<FaultScript>> scripts, Map<String, String> wiring)
            throws IOException {
        Path json = ResultsJson.write(run, folder);
        MarkdownSummary.write(run, folder);
        Path page = RunSheet.write(run, new Sources(this::trace, scripts, wiring, RegisterSheet.read(folder)), folder);
        results.note("Results: " + surroundings.show(json));
        results.note("Report:  " + surroundings.show(page));
    }

    Optional<StoredTrace> trace(ScriptResult result) {
        // A journal may come from anywhere: it names no file outside its own folder.
        Optional<Path> file = result.trace()
                .map(name -> folder.resolve(name).normalize())
                .filter(path -> path.startsWith(folder.normalize()) && Files.isRegularFile(path));
        try {
            return file.isPresent() ? Optional.of(TraceFile.read(file.get())) : Optional.empty();
        } catch (IOException e) {
            surroundings.err().println("warning: " + surroundings.show(file.get()) + ": " + e.getMessage());
            return Optional.empty();
        }
    }

    Optional<RigChoice.Rig> rig(RunRecord run) {
        Path from = run.results().isEmpty()
                ? Path.of(run.header().file())
                : run.results().get(0).place().file();
        Optional<Path> file =
                RigFinder.find(run.header().rig(), from, surroundings.folder()).value();
        return file.map(surroundings::path)
                .flatMap(found -> new RigChoice(surroundings).read(found, new ArrayList<>()));
    }

    /** The script as it is now, if the rig was loaded with just this. */
    private Optional<FaultScript> script(ScriptResult result, RigChoice.Rig rig, Map<Path, List<FaultScript>> read) {
        Path file = result.place().file();
        List<FaultScript> all = read.computeIfAbsent(
                file,
                path -> Files.isRegularFile(path)
                        ? ScriptReader.readAll(path, rig.description(), rig.content())
                                .value()
                                .orElse(List.of())
                        : List.of());
        String name = result.script()
                + result.variant().map(one -> ", " + one.setting()).orElse("");
        Optional<FaultScript> found =
                all.stream().filter(one -> PlannedRun.nameOf(one).equals(name)).findFirst();
        if (found.isEmpty() || result.trace().isEmpty()) {
            return found;
        }
        Optional<StoredTrace> trace = trace(result);
        return found.filter(one -> trace.isEmpty() || trace.get().header().program() == Programs.digestOf(one));
    }
}
