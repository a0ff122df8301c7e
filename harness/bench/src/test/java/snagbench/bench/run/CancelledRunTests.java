package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.Shuttle;

/** The user stops a run at one moment or another: what is said of the safe stop is what the rig said. */
class CancelledRunTests {
    private static final long LEASE_MICROS = 500_000;
    private static final long LOOP_MICROS = 5_300;

    private final FaultScript script = Shuttle.script("reach-stopped-short-in-the-rack-zone");

    private final AtomicBoolean wanted = new AtomicBoolean();
    private final AtomicBoolean cut = new AtomicBoolean();

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

    /** Nothing that the harness says comes through from a time on, until the user wants to stop. */
    private final class Cut implements PassingLink {
        private final Link line;

        Cut(Link line) {
            this.line = line;
        }

        @Override
        public void send(byte[] bytes, int length) throws LinkException {
            if (!cut.get() || wanted.get()) {
                line.send(bytes, length);
            }
        }

        @Override
        public Link line() {
            return line;
        }
    }

    @Test
    void whereTheLeaseHadJustRunOutItIsToldThatTheRigLatched() throws Exception {
        RunListener late = new RunListener() {
            @Override
            public void started(int at, PlannedRun run) {
                // all is well
            }

            @Override
            public void progressed(int at, long rigMicros) {
                cut.set(rigMicros >= 300_000);
                // Its last renewal was no longer ago than a quarter of the lease: it has run out by then, and not long
                // before.
                wanted.set(rigMicros >= 300_000 + LEASE_MICROS + LOOP_MICROS);
            }

            @Override
            public void ended(ScriptResult result) {
                // it does not come to that
            }
        };
        RunRecord run = Runs.on("standard")
                .of(1, script)
                .over(Cut::new)
                .until(wanted::get)
                .run(late);

        assertEquals(List.of(), run.results());
        assertEquals(
                new RunEnd(
                        RunEnd.Cause.CANCELLED,
                        "stopped by the user; the rig has confirmed its safe stop; it had stopped by itself before it"
                                + " was asked, and that stop is latched: look at the machine before it runs again"),
                run.end().orElseThrow());
    }
}
