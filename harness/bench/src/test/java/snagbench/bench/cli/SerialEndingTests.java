package snagbench.bench.cli;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.Journal;
import snagbench.bench.run.RunEnd;
import snagbench.bench.run.RunRecord;
import snagbench.bench.serve.Serving;
import snagbench.bench.session.Shuttle;

/**
 * How a run over a port ends when it does not end by itself. The harness is a process of its own wherever that is killed, asked
 * to end or looked at from outside; what the machine did is told by the rig's own log, on the rig's own clock.
 */
@Execution(ExecutionMode.CONCURRENT)
@Timeout(value = 180, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class SerialEndingTests {
    private static final Duration LONGEST = Duration.ofSeconds(60);

    /** Long enough for a busy machine to renew it. */
    private static final double LEASE_SECONDS = 3;

    /** A loop takes 5.2 ms at most; the lease is looked at once a loop. */
    private static final double TICK_SECONDS = 0.006;

    /** The override stays on far longer than any test takes; behind the two stages of the beginning it is entry 2. */
    private static final String LONG_DRAG = """
        fault-script: long drag
        failsafe: FS-01
        why: a test's own
        needs: [motion]
        begin:
          - send: start-run
          - wait-for: { step: REACHING }
            within: 2 s
        inject:
          - name: drags
            when: { step: REACHING, reach.position: at least 20 mm }
            channels:
              reach.current: offset 0.5 A
            lasts: 25 s
        expect:
          - must-not-fire: FS-01
        end: 25 s after drags
        """;

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
        bench.spoil(Bench.RIG + "rig.yaml", "lease: 500 ms", "lease: 3 s");
        bench.write(Bench.PLANS + "long-drag.fault.yaml", LONG_DRAG);
    }

    private String plan(String... scripts) throws IOException {
        StringBuilder text = new StringBuilder("""
            test-plan: endings
            rig: seedling-shuttle
            run-time: 30 s
            reserve: 5 s
            scripts:
            """);
        for (String script : scripts) {
            text.append("  - ").append(script).append(".fault.yaml\n");
        }
        String name = Bench.PLANS + "endings.plan.yaml";
        bench.write(name, text.toString());
        return name;
    }

    /** A harness in the midst of the long drag, in a folder of its own for its results. */
    private BenchProcess dragging(Serving served, String results) throws IOException {
        BenchProcess process = BenchProcess.start(
                empty,
                "run",
                plan("long-drag", "reach-blocked-near-home"),
                "--port",
                served.port().toString(),
                "--out",
                results);
        await().atMost(LONGEST)
                .pollInterval(Duration.ofMillis(20))
                .until(() -> !process.isAlive() || served.log().contains("entry 2 on"));
        assertTrue(process.isAlive(), "it ended before");
        return process;
    }

    /** The same within this process, for what only the line does to it. */
    private Future<Told> draggingHere(Serving served, String port, String results, String... more) throws IOException {
        List<String> args = new ArrayList<>(
                List.of("run", plan("long-drag", "reach-blocked-near-home"), "--port", port, "--out", results));
        args.addAll(List.of(more));
        CompletableFuture<Told> told = CompletableFuture.supplyAsync(
                () -> Told.in(empty, args.toArray(String[]::new)), one -> new Thread(one, "a run").start());
        await().atMost(LONGEST)
                .pollInterval(Duration.ofMillis(20))
                .until(() -> told.isDone() || served.log().contains("entry 2 on"));
        assertFalse(
                told.isDone(),
                () -> "it ended before: " + told.getNow(new Told(0, "", "")).all());
        return told;
    }

    private static Told ended(Future<Told> run) throws Exception {
        return run.get(LONGEST.toSeconds(), TimeUnit.SECONDS);
    }

    private static void inOrder(String log, String... happened) {
        int from = 0;
        for (String one : happened) {
            int at = log.indexOf(one, from);
            assertTrue(at >= 0, () -> "\"" + one + "\", after what came before it, in\n" + log);
            from = at + one.length();
        }
    }

    /** When something happened, on the plant's clock. */
    private static double seconds(String log, String happened) {
        Matcher line = Pattern.compile("(?m)^ *(\\d+\\.\\d+) .*" + Pattern.quote(happened))
                .matcher(log);
        assertTrue(line.find(), () -> "\"" + happened + "\" in\n" + log);
        return Double.parseDouble(line.group(1));
    }

    @Test
    void killedByForceItLeavesARigThatStopsLatchesAndOnlyThenDropsTheOverrideWithinItsLease() throws Exception {
        try (Serving served = Serving.of(Shuttle.rig("standard"));
                BenchProcess process = dragging(served, "results")) {
            process.signal("KILL");
            assertEquals(128 + 9, process.ended().status());
            served.awaitLog("entry 2 off");
            served.awaitLog("active entries: none");

            String log = served.log();
            inOrder(
                    log,
                    "entry 2 on",
                    "host has left",
                    "lease ran out",
                    "safe stop begun, lease",
                    "latched",
                    "safe stop done, lease",
                    "entry 2 off, released");
            double after = seconds(log, "safe stop begun, lease") - seconds(log, "host has left");
            assertTrue(after <= LEASE_SECONDS + TICK_SECONDS, () -> "stops after " + after + " s:\n" + log);

            Told next = Told.in(
                    empty,
                    "run",
                    plan("reach-blocked-near-home"),
                    "--port",
                    served.port().toString(),
                    "--out",
                    "next");
            assertEquals(0, next.status(), next::all);
        }
    }

    @Test
    void askedToEndItLetsGoFirstAndClosesThePortWhenTheRigHasConfirmed() throws Exception {
        List<String> signals = List.of("INT", "TERM", "HUP");
        List<Integer> numbers = List.of(2, 15, 1);
        try (Serving first = Serving.of(Shuttle.rig("standard"));
                Serving second = Serving.of(Shuttle.rig("standard"));
                Serving third = Serving.of(Shuttle.rig("standard"))) {
            List<Serving> rigs = List.of(first, second, third);
            List<BenchProcess> processes = new ArrayList<>();
            // Each as soon as it drags: the override has its own end.
            for (int i = 0; i < signals.size(); i++) {
                processes.add(dragging(rigs.get(i), signals.get(i)));
                processes.get(i).signal(signals.get(i));
            }
            for (int i = 0; i < signals.size(); i++) {
                BenchProcess.Ended ended = processes.get(i).ended();
                assertEquals(128 + numbers.get(i), ended.status(), ended::all);
                rigs.get(i).awaitLog("host has left");
                String log = rigs.get(i).log();
                inOrder(
                        log,
                        "entry 2 on",
                        "safe stop begun, let go",
                        "safe stop done, let go",
                        "entry 2 off, released",
                        "host has left");
                assertFalse(log.contains("latched"), log);
                RunEnd end = run(signals.get(i)).end().orElseThrow();
                assertEquals(
                        new RunEnd(RunEnd.Cause.CANCELLED, "stopped by the user; the rig has confirmed its safe stop"),
                        end);
            }
        }
    }

    private RunRecord run(String results) throws IOException {
        try (var runs = Files.list(bench.file(results))) {
            return RunRecord.read(runs.findFirst().orElseThrow().resolve(Journal.FILE_NAME));
        }
    }

    @Test
    void aPortThatGoesForGoodIsAnErrorThatSaysSoAndEndsThePlan() throws Exception {
        try (Serving served = Serving.of(Shuttle.rig("standard"))) {
            Future<Told> run = draggingHere(served, served.port().toString(), "results");
            served.served().pullCable(Long.MAX_VALUE);
            Told ended = ended(run);

            assertEquals(4, ended.status(), ended::all);
            String sentence = "serial port " + served.port() + " (115200 baud) is gone: the cable was pulled";
            assertTrue(ended.out().contains(sentence), ended::all);
            assertTrue(ended.out().contains("it did not come back by itself"), ended::all);
            assertTrue(ended.out().contains("not run: reach blocked near home"), ended::all);
            assertFalse(ended.all().contains("\tat "), ended::all);
            RunRecord record = run("results");
            assertEquals(List.of(Verdict.ERROR), verdicts(record));
            assertEquals(RunEnd.Cause.RIG, record.end().orElseThrow().cause());
            served.awaitLog("entry 2 off, released");
            inOrder(
                    served.log(),
                    "has gone",
                    "safe stop begun, lease",
                    "latched",
                    "safe stop done, lease",
                    "entry 2 off, released");
        }
    }

    private static List<Verdict> verdicts(RunRecord run) {
        return run.results().stream().map(one -> one.judgement().verdict()).toList();
    }

    @Test
    void aVirtualRigThatComesBackByItselfIsTakenUpAgain() throws Exception {
        Path link = empty.resolve("rig-port");
        try (Serving served = Serving.of(Shuttle.rig("standard"), link)) {
            Future<Told> run = draggingHere(served, link.toString(), "results");
            served.served().pullCable(300_000);
            Told ended = ended(run);

            assertEquals(4, ended.status(), ended::all);
            assertTrue(ended.out().contains("it came back by itself, still running"), ended::all);
            RunRecord record = run("results");
            assertEquals(List.of(Verdict.ERROR, Verdict.PASS), verdicts(record));
            assertEquals(RunEnd.Cause.COMPLETE, record.end().orElseThrow().cause());
            inOrder(
                    served.log(),
                    "has gone",
                    "is there",
                    "safe stop begun, lease",
                    "safe stop done, lease",
                    // As an event, too, unless the new session has just begun, which brings no old ones.
                    "active entries: none",
                    "no longer latched",
                    "armed");
        }
    }

    /** It would have to be moved to get ready, and nobody asked for that; its stop stays latched until somebody does. */
    @Test
    void aRealRigThatComesBackIsNotTakenUpAgainAndItsLatchIsReleasedOnlyWhenAskedFor() throws Exception {
        bench.spoil(Bench.RIG + "rig.snapshot.json", "\"real\" : false", "\"real\" : true");
        Path link = empty.resolve("rig-port");
        try (Serving served = Serving.of(new snagbench.bench.session.RealGreeting(Shuttle.rig("standard")), link)) {
            Told refused =
                    Told.in(empty, "run", plan("long-drag", "reach-blocked-near-home"), "--port", link.toString());
            assertEquals(4, refused.status(), refused::all);
            assertTrue(refused.err().contains("this is a real rig"), refused::all);
            assertTrue(refused.err().contains("--motion"), refused::all);
            assertFalse(served.log().contains("lease taken"), served.log());

            Future<Told> run = draggingHere(served, link.toString(), "moving", "--motion");
            served.served().pullCable(100_000);
            Told ended = ended(run);

            assertEquals(4, ended.status(), ended::all);
            assertTrue(ended.out().contains("is not taken up again by itself"), ended::all);
            assertEquals(List.of(Verdict.ERROR), verdicts(run("moving")));
            served.awaitLog("entry 2 off, released");
            String log = served.log();
            assertEquals(log.indexOf("lease taken"), log.lastIndexOf("lease taken"), "taken once:\n" + log);

            String next = plan("reach-blocked-near-home");
            Told latched = Told.in(empty, "run", next, "--port", link.toString(), "--motion", "--out", "latched");
            assertEquals(4, latched.status(), latched::all);
            assertTrue(latched.all().contains("a stop is latched (the lease ran out)"), latched::all);
            assertTrue(latched.all().contains("if it may move again, run with --release-latch"), latched::all);
            assertFalse(served.log().contains("no longer latched"), served.log());

            Told released = Told.in(
                    empty, "run", next, "--port", link.toString(), "--motion", "--release-latch", "--out", "released");
            assertEquals(0, released.status(), released::all);
            inOrder(served.log(), "entry 2 off, released", "no longer latched", "armed");
        }
    }

    @Test
    void aDiskThatIsFullEndsTheRunWhenTheRigHasLetGo() throws Exception {
        try (Serving served = Serving.of(Shuttle.rig("standard"))) {
            // The titles of all that is planned make a journal that is longer than any trace of this script.
            String plan = bench.plan("reach-current-too-high", 3000);
            try (BenchProcess process = BenchProcess.start(
                    empty, "run", plan, "--port", served.port().toString())) {
                served.awaitLog("armed");
                long room = Files.size(bench.run().resolve(Journal.FILE_NAME)) + 50;
                Process limit = new ProcessBuilder("prlimit", "--pid", Long.toString(process.pid()), "--fsize=" + room)
                        .redirectErrorStream(true)
                        .start();
                assertTrue(limit.waitFor(20, TimeUnit.SECONDS) && limit.exitValue() == 0, "prlimit");
                BenchProcess.Ended ended = process.ended();

                assertEquals(4, ended.status(), ended::all);
                assertTrue(ended.err().contains("journal and traces cannot be written: "), ended::all);
                assertFalse(ended.all().contains("\tat "), ended::all);
            }
            served.awaitLog("host has left");
            String log = served.log();
            inOrder(log, "armed", "safe stop begun, let go", "safe stop done, let go", "host has left");
            assertFalse(log.contains("latched"), log);
            Path journal = bench.run().resolve(Journal.FILE_NAME);
            assertTrue(
                    Files.readString(journal).lines().count() == 2,
                    () -> "the header, and a part of a result: " + journal);
            assertEquals(List.of(), RunRecord.read(journal).results());
            assertEquals(3, Told.by("report", bench.run().toString()).status(), "what is there can be shown");
        }
    }

    @Test
    void aSecondHarnessIsToldWhoHasThePortAndTheFirstRunsOn() throws Exception {
        try (Serving served = Serving.of(Shuttle.rig("standard"));
                BenchProcess process = dragging(served, "results")) {
            Told second = Told.in(
                    empty, "run", plan("long-drag"), "--port", served.port().toString());

            assertEquals(4, second.status(), second::all);
            assertTrue(
                    second.err()
                            .contains("serial port " + served.port()
                                    + " cannot be opened: it is in use by java (process " + process.pid() + ")"),
                    second::all);
            assertTrue(second.err().contains("Nothing was run."), second::all);
            assertTrue(process.isAlive());
            assertFalse(served.log().contains("entry 2 off"), served.log());
        }
    }
}
