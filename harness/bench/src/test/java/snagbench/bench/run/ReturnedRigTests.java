package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.BooleanSupplier;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.link.RigWatch;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.script.Between;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.FaultScript.Need;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.Stage;
import snagbench.bench.serve.RigLog;
import snagbench.bench.session.RealGreeting;
import snagbench.bench.session.Shuttle;
import snagbench.bench.session.SwitchedRig;
import snagbench.probe.VirtualRig;
import snagbench.wire.ResetCause;

/** A rig whose file has no "ready", whose line is lost and comes back by itself: what a real one must not do then. */
class ReturnedRigTests {
    private static final Between RESTS = new Between(2_000_000, Optional.empty(), Between.USUAL_GIVE_UP_MICROS);
    private static final RunTerms MOVING = new RunTerms(Set.of(Need.MOTION), Optional.empty());

    private final FaultScript script = gettingReadyItself(Shuttle.script("reach-blocked-near-home"));
    private final StringBuilder log = new StringBuilder();
    private final SwitchedRig rig = new SwitchedRig(() -> Shuttle.rig("standard"));
    private final VirtualRig logged = new RigLog(line -> log.append(line).append('\n')).around(rig);
    private boolean pulled;
    private boolean staysOut;
    private boolean impatient;
    private boolean stopped;

    static FaultScript gettingReadyItself(FaultScript script) {
        RigFile.Ready ready = Shuttle.file().ready().orElseThrow();
        List<Stage> begin = Stream.concat(
                        Stream.of(
                                new Stage.Send(script.place(), ready.command(), 1),
                                new Stage.WaitFor(script.place(), ready.condition(), ready.withinMicros())),
                        script.begin().stream())
                .toList();
        return new FaultScript(
                script.place(),
                script.name(),
                script.failSafes(),
                script.why(),
                script.needs(),
                begin,
                script.injections(),
                script.expectations(),
                script.end());
    }

    static RigFile withoutReady() {
        RigFile file = Shuttle.file();
        return new RigFile(
                file.place(),
                file.name(),
                file.virtual(),
                file.leaseMillis(),
                file.settlingMicros(),
                Optional.empty(),
                file.guards(),
                file.wiring(),
                file.snapshot());
    }

    /** The cable, which is out while it is pulled; it is in again as soon as somebody looks. */
    private final class Cable implements RigConnector {
        private final UnaryOperator<VirtualRig> greeting;

        Cable(UnaryOperator<VirtualRig> greeting) {
            this.greeting = greeting;
        }

        @Override
        public Link connect() {
            VirtualLink line = new VirtualLink("seedling-shuttle", greeting.apply(logged), new RigWatch());
            return new PassingLink() {
                @Override
                public Link line() {
                    return line;
                }

                @Override
                public int receive(byte[] into, long untilMicros) throws LinkException {
                    if (pulled) {
                        throw new LinkException("the cable is out");
                    }
                    return line.receive(into, untilMicros);
                }
            };
        }

        @Override
        public Optional<Link> reconnect(BooleanSupplier cancelled) {
            stopped = impatient;
            pulled = false;
            return staysOut ? Optional.empty() : Optional.of(connect());
        }
    }

    /** Once, in the first script or behind it, the cable is pulled; its controller may restart with that. */
    private final class Pulls implements RunListener {
        private final boolean resting;
        private final Optional<ResetCause> restart;
        private boolean done;

        Pulls(boolean resting, Optional<ResetCause> restart) {
            this.resting = resting;
            this.restart = restart;
        }

        private void pull() {
            if (!done) {
                done = true;
                pulled = true;
                restart.ifPresent(rig::restart);
            }
        }

        @Override
        public void started(int index, PlannedRun run) {
            // not then
        }

        @Override
        public void progressed(int index, long rigMicros) {
            if (!resting && rigMicros > 700_000) {
                pull();
            }
        }

        @Override
        public void waits(int index, String why) {
            if (resting) {
                pull();
            }
        }

        @Override
        public void ended(ScriptResult result) {
            // not then
        }
    }

    private Runs real() {
        return Runs.on("standard")
                .of(1, script, script)
                .with(withoutReady())
                .with(RESTS)
                .knowing(RealRigTests.storedAsReal(Shuttle.description()))
                .on(MOVING)
                .by(new Cable(RealGreeting::new));
    }

    private static List<Verdict> verdicts(RunRecord run) {
        return run.results().stream().map(one -> one.judgement().verdict()).toList();
    }

    private void endedWithoutMovingAgain(RunRecord run, Verdict verdict, String why) {
        assertEquals(List.of(verdict), verdicts(run));
        RunEnd end = run.end().orElseThrow();
        assertEquals(RunEnd.Cause.RIG, end.cause());
        assertTrue(end.reason().contains(why), end.reason());
        assertEquals(1, run.notRun().size());
        assertEquals(1, log.toString().split(" armed", -1).length - 1, log::toString);
    }

    @ParameterizedTest
    @EnumSource(
            value = ResetCause.class,
            names = {"BROWN_OUT", "WATCHDOG", "SOFTWARE"})
    void aRealRigThatRestartedByItselfIsNotDrivenOn(ResetCause cause) throws Exception {
        RunRecord run = real().run(new Pulls(false, Optional.of(cause)));

        endedWithoutMovingAgain(run, Verdict.FAIL, "the controller restarted (" + RigReturn.name(cause) + ")");
    }

    @ParameterizedTest
    @EnumSource(
            value = ResetCause.class,
            names = {"POWER_ON", "EXTERNAL", "UNKNOWN"})
    void norIsOneThatTheCableHasRestarted(ResetCause cause) throws Exception {
        RunRecord run = real().run(new Pulls(false, Optional.of(cause)));

        endedWithoutMovingAgain(
                run,
                Verdict.ERROR,
                "it came back by itself, started anew (" + RigReturn.name(cause)
                        + "), and a real rig does not move unattended after that");
    }

    @Test
    void norIsOneThatRestartedWhileItRested() throws Exception {
        RunRecord run = real().run(new Pulls(true, Optional.of(ResetCause.POWER_ON)));

        endedWithoutMovingAgain(
                run, Verdict.PASS, "the cable is out; it came back by itself, started anew (power-on), and a real rig");
    }

    @Test
    void oneThatRanOnHasLatchedItsStop() throws Exception {
        RunRecord run = real().run(new Pulls(false, Optional.empty()));

        endedWithoutMovingAgain(run, Verdict.ERROR, "a stop is latched on the rig; look at the machine");
    }

    @Test
    void aVirtualRigIsDrivenOn() throws Exception {
        RunRecord run = Runs.on("standard")
                .of(1, script, script)
                .with(withoutReady())
                .by(new Cable(UnaryOperator.identity()))
                .run(new Pulls(false, Optional.of(ResetCause.BROWN_OUT)));

        assertEquals(List.of(Verdict.FAIL, Verdict.PASS), verdicts(run));
        assertEquals(RunEnd.complete(), run.end().orElseThrow());
    }

    private RunRecord virtual(RunListener pulls) throws Exception {
        return Runs.on("standard")
                .of(1, script, script)
                .with(RESTS)
                .until(() -> stopped)
                .by(new Cable(UnaryOperator.identity()))
                .run(pulls);
    }

    /** The port may stay away, or be there again just then. */
    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void whoStopsWhileItIsWaitedForTheLineHasStoppedTheRun(boolean away) throws Exception {
        impatient = true;
        staysOut = away;
        RunRecord run = virtual(new Pulls(false, Optional.empty()));

        assertEquals(List.of(), run.results());
        assertEquals(2, run.notRun().size());
        stoppedByTheUser(run);
    }

    @Test
    void betweenTwoScriptsAsWell() throws Exception {
        impatient = true;
        staysOut = true;
        RunRecord run = virtual(new Pulls(true, Optional.empty()));

        assertEquals(List.of(Verdict.PASS), verdicts(run));
        stoppedByTheUser(run);
    }

    private static void stoppedByTheUser(RunRecord run) {
        assertEquals(
                new RunEnd(
                        RunEnd.Cause.CANCELLED,
                        "stopped by the user while the line was lost; the rig has not confirmed its safe stop, and its"
                                + " lease ends by itself. Look at the machine before going near it"),
                run.end().orElseThrow());
    }

    @Test
    void aLineThatStaysAwayIsTheRigsFaultWhereNobodyStops() throws Exception {
        staysOut = true;
        RunRecord run = virtual(new Pulls(false, Optional.empty()));

        assertEquals(List.of(Verdict.ERROR), verdicts(run));
        RunEnd end = run.end().orElseThrow();
        assertEquals(RunEnd.Cause.RIG, end.cause());
        assertTrue(end.reason().contains("the cable is out; it did not come back by itself"), end.reason());
    }
}
