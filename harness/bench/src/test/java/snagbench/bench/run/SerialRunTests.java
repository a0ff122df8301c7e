package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import snagbench.bench.judge.Verdict;
import snagbench.bench.serve.Serving;
import snagbench.bench.session.Shuttle;

/** First light over real ports, in real time: nothing but the way of the bytes is another. */
@Execution(ExecutionMode.CONCURRENT)
@Timeout(value = 120, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class SerialRunTests {
    private static final int SEED = 1;
    private static final Duration PATIENCE = Duration.ofSeconds(1);
    private static final List<String> SCRIPTS = List.of(
            "reach-blocked-midway",
            "reach-blocked-near-home",
            "reach-current-too-high",
            "reach-current-offset",
            "current-spike-too-short",
            "grip-not-there-yet",
            "reach-stopped-short-in-the-rack-zone",
            "obstacle-in-the-way");

    private record Line(String build, String script, String result) {}

    private static Line inProcess(String build, String script) throws Exception {
        Runs runs = Runs.on(build).of(SEED, Shuttle.script(script));
        runs.run();
        return new Line(build, script, runs.resultLines().get(0));
    }

    private static Line overAPort(String build, String script) throws Exception {
        try (Serving served = Serving.of(Shuttle.rig(build))) {
            Runs runs = Runs.on(build)
                    .of(SEED, Shuttle.script(script))
                    .with(Shuttle.patientFile())
                    .by(new SerialConnector(served.port().toString(), 115_200, PATIENCE, System::nanoTime));
            RunRecord run = runs.run();
            assertEquals(RunEnd.complete(), run.end().orElseThrow(), script);
            assertEquals(0, run.results().get(0).gapTicks(), script);
            return new Line(build, script, runs.resultLines().get(0));
        }
    }

    /**
     * The whole line of the journal is the same to the last character: verdict, findings, the ticks of the injections, and
     * all times from arming to the microsecond, of which no two ticks have the same.
     */
    @Test
    void allScriptsComeToTheSameVerdictsAtTheSameTicksAsInProcess() throws Exception {
        List<Line> expected = new ArrayList<>();
        List<Future<Line>> served = new ArrayList<>();
        ExecutorService sideBySide = Executors.newCachedThreadPool();
        try {
            for (String build : List.of("standard", "without-FS-02")) {
                for (String script : SCRIPTS) {
                    served.add(sideBySide.submit(() -> overAPort(build, script)));
                    expected.add(inProcess(build, script));
                }
            }
            List<Line> seen = new ArrayList<>();
            for (Future<Line> one : served) {
                seen.add(one.get(100, TimeUnit.SECONDS));
            }
            for (int i = 0; i < expected.size(); i++) {
                assertEquals(expected.get(i), seen.get(i));
            }
        } finally {
            sideBySide.shutdownNow();
        }
        long failing = expected.stream()
                .filter(line -> line.result().contains("\"verdict\":\"" + Verdict.FAIL.name() + "\""))
                .count();
        assertTrue(failing > 0, "the broken build fails some, so that not only passes are compared");
    }

    /** The controller's battery gives way in the first script; its start is heard over the same port. */
    @Test
    void aRestartIsTheSameFailOverAPortAndThePlanGoesOn() throws Exception {
        Runs inProcess = Runs.on("weak-battery")
                .of(SEED, Shuttle.script("obstacle-in-the-way"), Shuttle.script("current-spike-too-short"));
        inProcess.run();
        try (Serving served = Serving.of(Shuttle.rig("weak-battery"))) {
            Runs runs = Runs.on("weak-battery")
                    .of(SEED, Shuttle.script("obstacle-in-the-way"), Shuttle.script("current-spike-too-short"))
                    .with(Shuttle.patientFile())
                    .by(new SerialConnector(served.port().toString(), 115_200, PATIENCE, System::nanoTime));
            RunRecord run = runs.run();

            assertEquals(
                    List.of(Verdict.FAIL, Verdict.PASS),
                    run.results().stream().map(one -> one.judgement().verdict()).toList());
            assertEquals(inProcess.resultLines(), runs.resultLines());
            served.awaitLog("brown out");
        }
    }

    /** A pseudo-terminal's number may be another program's by the time that it is there again. */
    @Test
    void aPseudoTerminalIsNotTakenUpAgainByItsNumber() throws Exception {
        try (Serving served = Serving.of(Shuttle.rig("standard"))) {
            RigConnector connector = new SerialConnector(served.port().toString(), 115_200, PATIENCE, System::nanoTime);

            assertTrue(connector.reconnect(() -> false).isEmpty());
        }
    }
}
