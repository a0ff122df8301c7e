package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceFile;
import snagbench.bench.trace.TraceHeader;
import snagbench.wire.EventKind;

/**
 * Recording without a fault, and traces as tables, by the real command line: in one test by a process as the user starts it,
 * in the others, quicker, within this one.
 */
class RecordProcessTests {
    private static final String SCRIPT = Bench.PLANS + "reach-blocked-midway.fault.yaml";

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    private Told ended(int status, String... args) {
        Told ended = Told.in(empty, args);
        assertEquals(status, ended.status(), ended::all);
        return ended;
    }

    @Test
    void recordsForAsLongAsAskedAndTheSameSeedGivesTheSameBytes() throws Exception {
        String[] args = {"record", "--rig", "seedling-shuttle", "--send", "start-run", "--for", "2", "--trace"};
        ended(0, Stream.concat(Stream.of(args), Stream.of("one.trace")).toArray(String[]::new));
        ended(0, Stream.concat(Stream.of(args), Stream.of("other.trace")).toArray(String[]::new));

        StoredTrace stored = TraceFile.read(bench.file("one.trace"));
        Trace trace = stored.trace();
        assertEquals(TraceHeader.Origin.RECORD, stored.header().origin());
        assertTrue(stored.whole());
        assertTrue(trace.micros(trace.rows() - 1) >= 2_000_000);
        assertTrue(trace.micros(trace.rows() - 2) < 2_000_000);
        int step = trace.rig().step().orElseThrow().index();
        assertTrue(
                trace.events().stream().anyMatch(one -> one.is(EventKind.STATE, step)),
                "it started: " + trace.events());
        assertEquals(-1L, Files.mismatch(bench.file("one.trace"), bench.file("other.trace")));
    }

    @Test
    void withNothingToBeginWithItOnlyListens() throws Exception {
        BenchProcess.Ended ended = BenchProcess.run(empty, "record", "--rig", "seedling-shuttle", "--for", "0.5");

        assertEquals(0, ended.status(), ended::all);
        List<String> lines = ended.out().lines().toList();
        assertTrue(lines.get(0).startsWith("0.5 s of seedling-shuttle (virtual, build "), lines.get(0));
        String named = lines.get(1).substring("Trace: ".length());
        Trace trace = TraceFile.read(bench.file(named)).trace();
        int step = trace.rig().step().orElseThrow().index();
        assertTrue(trace.rows() > 50);
        assertEquals(trace.real(0, step), trace.real(trace.rows() - 1, step), "nothing was started");
    }

    @Test
    void whatWasRecordedWithoutAFaultProvesNothing() throws Exception {
        ended(0, "record", "--rig", "seedling-shuttle", "--begin", SCRIPT, "--for", "2", "--trace", "nominal.trace");

        Told judged = ended(3, "judge", "nominal.trace", SCRIPT);

        assertTrue(judged.out().contains("the trace was recorded without a fault"), judged::all);
        assertFalse(judged.out().contains("\npass"), judged::all);
    }

    @Test
    void aTraceThatBecameATableIsJudgedAsItWas() throws Exception {
        Told ran = ended(0, "run", SCRIPT);
        String trace = empty.relativize(bench.run().resolve("traces/0001-reach-blocked-midway.trace"))
                .toString();
        ended(0, "record", "--from", trace, "--csv", "reach.csv");
        ended(0, "record", "--from", "reach.csv", "--rig", "seedling-shuttle", "--trace", "back.trace");

        Told ofTable = ended(0, "judge", "reach.csv", SCRIPT);
        Told ofTrace = ended(0, "judge", "back.trace", SCRIPT);

        String row = ran.out()
                .lines()
                .filter(line -> line.startsWith("pass "))
                .findFirst()
                .orElseThrow();
        assertTrue(ofTable.out().contains(row), ofTable::all);
        assertTrue(ofTrace.out().contains(row), ofTrace::all);
        assertTrue(ofTable.out().contains("made of a table from elsewhere"), ofTable::all);
    }

    @Test
    void whatTheUserGotWrongIsAClearErrorAndNothingIsWritten() throws Exception {
        Told unknown = ended(2, "record", "--rig", "seedling-shuttle", "--send", "stat-run", "--trace", "x.trace");
        assertTrue(
                unknown.err()
                        .startsWith(
                                "snagbench: --send stat-run: the rig has no such command; it has: start-run, ready"),
                unknown::all);
        assertFalse(Files.exists(bench.file("x.trace")));
        assertEquals(
                "snagbench: nowhere/x.trace: there is no folder nowhere; make it first, or give another name\n",
                ended(2, "record", "--rig", "seedling-shuttle", "--trace", "nowhere/x.trace")
                        .err());
        assertFalse(Files.exists(bench.file("nowhere")));
        assertEquals(
                "snagbench: which rig? Say so with --rig NAME\n",
                ended(2, "record", "--for", "1").err());
        bench.write("log.csv", "us,reach.position (V)\n0,1\n");
        assertEquals(
                "snagbench: log.csv: line 1: the unit of \"reach.position\" is \"V\"; \"mm\" or one that converts into"
                        + " it is wanted\n",
                ended(2, "judge", "log.csv", SCRIPT).err());
        assertEquals(
                "snagbench: log.csv is there already; give another name, or take it away first\n",
                ended(2, "record", "--rig", "seedling-shuttle", "--csv", "log.csv")
                        .err());
    }
}
