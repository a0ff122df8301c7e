package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.Shuttle;

/** The user stops a run at one moment or another: what is said of the safe stop is what the rig said. */
class CancelledRunTests {
    private final FaultScript script = Shuttle.script("reach-stopped-short-in-the-rack-zone");
    private final AtomicBoolean wanted = new AtomicBoolean();

    /** Wants to stop at a time in a script, or once it has ended. */
    private final class Impatient implements RunListener {
        private final int index;
        private final long atMicros;

        Impatient(int index, long atMicros) {
            this.index = index;
            this.atMicros = atMicros;
        }

        @Override
        public void started(int at, PlannedRun run) {
            // patient still
        }

        @Override
        public void progressed(int at, long rigMicros) {
            wanted.set(wanted.get() || (at == index && rigMicros >= atMicros));
        }

        @Override
        public void ended(ScriptResult result) {
            wanted.set(wanted.get() || result.index() == index);
        }
    }

    @Test
    void inMidScriptTheSafeStopIsConfirmedAndTheScriptCountsAsNotRun() throws Exception {
        RunRecord run = Runs.on("standard")
                .of(1, script, script, script)
                .until(wanted::get)
                .run(new Impatient(1, 700_000));

        assertEquals(1, run.results().size());
        assertEquals(
                new RunEnd(RunEnd.Cause.CANCELLED, "stopped by the user; the rig has confirmed its safe stop"),
                run.end().orElseThrow());
        assertEquals(List.of(script.name(), script.name()), run.notRun());
    }

    @Test
    void betweenScriptsTheSafeStopIsAskedForAsWell() throws Exception {
        RunRecord run =
                Runs.on("standard").of(1, script, script).until(wanted::get).run(new Impatient(0, Long.MAX_VALUE));

        assertEquals(1, run.results().size());
        assertEquals(Verdict.PASS, run.results().get(0).judgement().verdict());
        assertTrue(run.end().orElseThrow().reason().contains("confirmed"), () -> run.end()
                .toString());
    }

    @Test
    void afterARestartNoSafeStopIsClaimedThatNobodyConfirmed() throws Exception {
        RunRecord run = Runs.on("weak-battery")
                .of(1, Shuttle.script("obstacle-in-the-way"), script)
                .until(wanted::get)
                .run(new Impatient(0, Long.MAX_VALUE));

        RunEnd end = run.end().orElseThrow();
        assertEquals(RunEnd.Cause.CANCELLED, end.cause());
        assertTrue(end.reason().contains("the controller restarted (brown-out)"), end.reason());
        assertFalse(end.reason().contains("confirmed"), end.reason());
        assertEquals(1, run.results().size());
    }
}
