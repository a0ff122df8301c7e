package snagbench.bench.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import snagbench.bench.report.Figures;
import snagbench.bench.report.register.RecoveryCosts;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.run.PlannedRun;
import snagbench.bench.run.Recordings;
import snagbench.bench.run.RigConnector;
import snagbench.bench.run.RigRecorder;
import snagbench.bench.run.Role;
import snagbench.bench.run.RunPlan;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.RunTerms;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.SessionException;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceFile;
import snagbench.wire.EventKind;

/**
 * Runs of a virtual rig without a fault, one for each seed that a plan used, as the measure of what recoveries cost. They lie beside
 * the run's traces.
 */
final class NominalRuns {
    /** Name of the folder in a run's own that takes them. */
    static final String FOLDER = "nominal";

    private static final String SAME_SEEDS = "nominal runs of the same seeds";
    /** More would only tell the same of more seeds. */
    private static final int MOST_SEEDS = 10;

    private final Surroundings surroundings;
    private final Path folder;
    private final RunPages pages;

    NominalRuns(Surroundings surroundings, Path folder, RunPages pages) {
        this.surroundings = surroundings;
        this.folder = folder;
        this.pages = pages;
    }

    private Path file(int seed) {
        return folder.resolve(FOLDER).resolve("seed-" + seed + TraceFile.ENDING);
    }

    /** Makes them, as the plan's first script begins. */
    void record(RunPlan plan, RunRecord run, RigConnector connector) throws IOException, SessionException {
        Optional<FaultScript> first =
                plan.runs().stream().map(PlannedRun::script).findFirst();
        if (first.isEmpty()) {
            return;
        }
        FaultScript beginning = Recordings.beginningOf(first.get());
        List<Integer> seeds = run.results().stream()
                .filter(result -> result.role() == Role.FAULT)
                .map(ScriptResult::seed)
                .distinct()
                .limit(MOST_SEEDS)
                .toList();
        Files.createDirectories(folder.resolve(FOLDER));
        for (int seed : seeds) {
            if (!surroundings.cancelled().getAsBoolean()) {
                new RigRecorder(
                                plan.rig(),
                                plan.description(),
                                RunTerms.none(),
                                connector,
                                surroundings.cancelled(),
                                seed == 0 ? 1 : seed)
                        .record(beginning, seed, plan.runTimeMicros(), file(seed), micros -> {});
            }
        }
    }

    /** What recoveries cost against them. */
    List<RegisterSheet.Measured> costs(RunRecord run, ChannelDescription step) {
        Map<Integer, Optional<Trace>> bySeed = new TreeMap<>();
        return costs(
                run, new RecoveryCosts(step, seed -> bySeed.computeIfAbsent(seed, one -> read(file(one))), SAME_SEEDS));
    }

    /** What recoveries cost against one nominal run, whatever the seed: a real rig has none. */
    List<RegisterSheet.Measured> costs(RunRecord run, ChannelDescription step, StoredTrace nominal, String name)
            throws UserError {
        Optional<String> why = whyNoMeasure(nominal.trace());
        if (why.isPresent()) {
            throw new UserError(
                    ExitStatus.FILES,
                    name + ": no nominal run: " + why.get()
                            + "; record a run without a fault, in which all goes as it should (\"record\")");
        }
        Optional<Trace> trace = Optional.of(nominal.trace());
        return costs(run, new RecoveryCosts(step, seed -> trace, name));
    }

    /** Only a whole run in which no fail-safe answered, and the controller kept running, tells what a run takes without a recovery. */
    private static Optional<String> whyNoMeasure(Trace trace) {
        Optional<String> answered = trace.events().stream()
                .filter(one -> one.kind() == EventKind.ANSWERED)
                .findFirst()
                .map(one -> trace.rig().failSafeName(one.a()) + " answered at " + Figures.millis(one.micros())
                        + " after arming");
        if (answered.isPresent()) {
            return answered;
        }
        if (trace.restart().isPresent()) {
            return Optional.of("the controller restarted");
        }
        boolean whole = trace.rows() > 0 && trace.hasAllEvents(0, trace.tick(trace.rows() - 1));
        return whole ? Optional.empty() : Optional.of("not all that happened in it was recorded");
    }

    private List<RegisterSheet.Measured> costs(RunRecord run, RecoveryCosts costs) {
        return costs.of(run.results(), result -> pages.trace(result).map(StoredTrace::trace));
    }

    /** The traces of the nominal runs that are there. */
    List<Trace> traces(RunRecord run) {
        return run.results().stream()
                .map(ScriptResult::seed)
                .distinct()
                .flatMap(seed -> read(file(seed)).stream())
                .toList();
    }

    private Optional<Trace> read(Path file) {
        try {
            return Files.isRegularFile(file) ? Optional.of(TraceFile.read(file).trace()) : Optional.empty();
        } catch (IOException e) {
            surroundings.err().println("warning: " + surroundings.show(file) + ": " + e.getMessage());
            return Optional.empty();
        }
    }
}
