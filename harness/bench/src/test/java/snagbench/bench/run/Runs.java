package snagbench.bench.run;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.BooleanSupplier;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import snagbench.bench.link.Link;
import snagbench.bench.script.Between;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.Shuttle;

/** Runs scripts on the virtual shuttle as the command line does, and keeps the journal's lines. */
final class Runs {
    private static final long RUN_TIME_MICROS = 30_000_000;
    private static final RigFile FILE = Shuttle.file();
    private static final RigDescription DESCRIPTION = Shuttle.description();
    private static final Instant STARTED = Instant.parse("2026-03-01T22:15:00Z");

    /** Journals are forced to the disk line by line; thousands of them are quicker kept in memory, where there is such a folder. */
    private static final Path MEMORY = Path.of("/dev/shm");

    private final String build;
    private final List<PlannedRun> planned = new ArrayList<>();
    private UnaryOperator<Link> line = link -> link;
    private BooleanSupplier cancelled = () -> false;
    private RunTerms terms = RunTerms.none();
    private RigFile rig = FILE;
    private ChecksWanted checks = ChecksWanted.none();
    private RigDescription stored = DESCRIPTION;
    private final List<ClaimedScript> claims = new ArrayList<>();
    private Between between = Between.nothing();
    private RigConnector connector;
    private List<String> lines = List.of();
    private final Map<String, byte[]> traces = new TreeMap<>();

    private Runs(String build) {
        this.build = build;
        this.connector = () -> line.apply(Shuttle.link(build));
    }

    static Runs on(String build) {
        return new Runs(build);
    }

    Runs of(int seed, FaultScript... scripts) {
        for (FaultScript script : scripts) {
            planned.add(new PlannedRun(script, 1, 1, seed));
        }
        return this;
    }

    /** With something between the harness and the rig. */
    Runs over(UnaryOperator<Link> wrapper) {
        line = wrapper;
        return this;
    }

    /** With another way to the rig. */
    Runs by(RigConnector way) {
        connector = way;
        return this;
    }

    /** With control runs of what passes, and changes of the control code. */
    Runs checking(ChecksWanted wanted) {
        checks = wanted;
        return this;
    }

    /** With what the user allows and demands. */
    Runs on(RunTerms wanted) {
        terms = wanted;
        return this;
    }

    /** With another stored description. */
    Runs knowing(RigDescription description) {
        stored = description;
        return this;
    }

    /** With another rig's file. */
    Runs with(RigFile file) {
        rig = file;
        return this;
    }

    /** With a user who wants to stop. */
    Runs until(BooleanSupplier wanted) {
        cancelled = wanted;
        return this;
    }

    /** The same script so many times, each with the next seed. */
    Runs repeated(FaultScript script, int repeats) {
        for (int repeat = 1; repeat <= repeats; repeat++) {
            planned.add(new PlannedRun(script, repeat, repeats, repeat));
        }
        return this;
    }

    /** With what is to be shown of scripts. */
    Runs claiming(ClaimedScript... wanted) {
        claims.addAll(List.of(wanted));
        return this;
    }

    /** With what holds between two runs. */
    Runs with(Between wanted) {
        between = wanted;
        return this;
    }

    RunRecord run() throws IOException, SessionException {
        return run(new Quiet());
    }

    RunRecord run(RunListener listener) throws IOException, SessionException {
        Path folder = Files.isWritable(MEMORY)
                ? Files.createTempDirectory(MEMORY, "snagbench-test-")
                : Files.createTempDirectory("snagbench-test-");
        try {
            RunPlan plan = new RunPlan(
                    "a test",
                    "a-test.plan.yaml",
                    rig,
                    stored,
                    build,
                    1,
                    RUN_TIME_MICROS,
                    planned,
                    between,
                    claims,
                    checks);
            AtomicInteger nonces = new AtomicInteger();
            PlanRunner runner = new PlanRunner(
                    plan, terms, connector, new RunFolder(folder), listener, cancelled, nonces::incrementAndGet);
            RunRecord run = runner.run(STARTED, "test");
            lines = Files.readAllLines(folder.resolve(Journal.FILE_NAME), StandardCharsets.UTF_8);
            return run;
        } finally {
            takeTraces(folder.resolve(RunFolder.TRACES));
            Files.deleteIfExists(folder.resolve(Journal.FILE_NAME));
            Files.delete(folder);
        }
    }

    /** The bytes of a result's stored trace. */
    byte[] trace(ScriptResult result) {
        String name = result.trace().orElseThrow();
        return Objects.requireNonNull(traces.get(name), () -> name + " was not kept");
    }

    private void takeTraces(Path from) throws IOException {
        if (!Files.isDirectory(from)) {
            return;
        }
        try (Stream<Path> files = Files.list(from)) {
            for (Path file : files.toList()) {
                traces.put(RunFolder.TRACES + "/" + file.getFileName(), Files.readAllBytes(file));
                Files.delete(file);
            }
        }
        Files.delete(from);
    }

    /** The trace files of the run, by the names that the journal gives them. */
    Map<String, byte[]> traces() {
        return traces;
    }

    /** Of one script, alone. */
    ScriptResult only() throws IOException, SessionException {
        List<ScriptResult> results = run().results();
        if (results.size() != 1) {
            throw new AssertionError("one result wanted, found " + results);
        }
        return results.get(0);
    }

    /** All of the journal's lines but the first, which alone bears stamps. */
    List<String> linesBehindTheHeader() {
        return lines.subList(1, lines.size());
    }

    /** The journal's lines with results, as they were written. */
    List<String> resultLines() {
        return lines.stream()
                .filter(one -> one.startsWith("{\"line\":\"result\""))
                .toList();
    }

    private static final class Quiet implements RunListener {
        @Override
        public void started(int index, PlannedRun run) {
            // nobody looks
        }

        @Override
        public void progressed(int index, long rigMicros) {
            // nobody looks
        }

        @Override
        public void ended(ScriptResult result) {
            // nobody looks
        }
    }
}
