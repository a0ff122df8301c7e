package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.RigWatch;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.script.Between;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.FaultScript.Need;
import snagbench.bench.serve.RigLog;
import snagbench.bench.session.RealGreeting;
import snagbench.bench.session.Shuttle;
import snagbench.bench.session.SwitchedRig;
import snagbench.probe.VirtualRig;
import snagbench.wire.ResetCause;

/** A controller that is switched off and on while its rig rests: somebody may be at the machine. */
class RestartBetweenRunsTests {
    private static final Between RESTS = new Between(2_000_000, Optional.empty(), Between.USUAL_GIVE_UP_MICROS);
    private static final RunTerms MOVING = new RunTerms(Set.of(Need.MOTION), Optional.empty());

    private final FaultScript script = Shuttle.script("reach-blocked-near-home");
    private final StringBuilder log = new StringBuilder();
    private final List<String> rests = new ArrayList<>();
    private String build = "standard";
    private final SwitchedRig rig = new SwitchedRig(() -> Shuttle.rig(build));

    private final RunListener switching = new RunListener() {
        @Override
        public void started(int index, PlannedRun run) {
            // not then
        }

        @Override
        public void progressed(int index, long rigMicros) {
            // not then
        }

        @Override
        public void ended(ScriptResult result) {
            // not then
        }

        @Override
        public void waits(int index, String why) {
            rests.add(why);
            rig.restart(ResetCause.POWER_ON);
        }
    };

    private Runs resting(UnaryOperator<VirtualRig> greeting) {
        VirtualRig logged = new RigLog(line -> log.append(line).append('\n')).around(rig);
        return Runs.on(build)
                .with(RESTS)
                .by(() -> new VirtualLink("seedling-shuttle", greeting.apply(logged), new RigWatch()));
    }

    private Runs real() {
        return resting(RealGreeting::new)
                .knowing(RealRigTests.storedAsReal(Shuttle.description()))
                .on(MOVING);
    }

    private int times(String what) {
        return log.toString().split(what, -1).length - 1;
    }

    @Test
    void aRealRigIsNotSetMovingAgainByThat() throws Exception {
        RunRecord run = real().of(1, script, script, script).run(switching);

        assertEquals(1, run.results().size());
        assertEquals(Verdict.PASS, run.results().get(0).judgement().verdict());
        RunEnd end = run.end().orElseThrow();
        assertEquals(RunEnd.Cause.RIG, end.cause());
        assertTrue(end.reason().contains("the controller restarted (power-on) between two scripts"), end.reason());
        assertEquals(1, rests.size());
        assertEquals(1, times("lease taken"), log::toString);
        assertEquals(1, times(" armed"), log::toString);
    }

    @Test
    void aVirtualRigIsBroughtToReadyAnew() throws Exception {
        RunRecord run = resting(UnaryOperator.identity()).of(1, script, script).run(switching);

        assertEquals(
                List.of(Verdict.PASS, Verdict.PASS),
                run.results().stream().map(one -> one.judgement().verdict()).toList());
        assertEquals(1, rests.size());
        assertEquals(RunEnd.complete(), run.end().orElseThrow());
    }

    /** A controller that is switched off has forgotten its latch when it has rested. */
    @Test
    void aLatchThatIsKnownEndsThePlanBeforeTheRigRests() throws Exception {
        build = "without-rack";
        rig.restart(ResetCause.POWER_ON);
        FaultScript tripping = GuardTests.frozenEncoder();
        RunRecord run = real().of(1, tripping, script).run(switching);

        assertEquals(1, run.results().size());
        assertEquals(Verdict.ERROR, run.results().get(0).judgement().verdict());
        RunEnd end = run.end().orElseThrow();
        assertTrue(end.reason().contains("a stop is latched on the rig; look at the machine"), end.reason());
        assertEquals(List.of(), rests);
        assertEquals(1, times(" armed"), log::toString);
    }
}
