package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.RigWatch;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.report.ResultText;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.FaultScript.Need;
import snagbench.bench.session.RealGreeting;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionSettings;
import snagbench.bench.session.Shuttle;
import snagbench.probe.VirtualRig;

/** A run was killed: the rig's lease has run out, and its stop is latched when the next run comes. Its file has no "ready". */
class EarlierLatchTests {
    private final FaultScript script = ReturnedRigTests.gettingReadyItself(Shuttle.script("reach-blocked-near-home"));
    private final VirtualRig rig = Shuttle.rig("standard");

    private VirtualLink link(UnaryOperator<VirtualRig> greeting) {
        return new VirtualLink("seedling-shuttle", greeting.apply(rig), new RigWatch());
    }

    private void killARun() throws Exception {
        VirtualLink line = link(UnaryOperator.identity());
        RigSession killed =
                RigSession.open(line, SessionSettings.usual(77, 500, () -> false), Optional.of(Shuttle.description()));
        killed.loadGuards(Shuttle.file().guards());
        killed.arm(script, 1);
        byte[] unheard = new byte[4096];
        long until = line.nowMicros() + 3_000_000;
        while (line.nowMicros() < until) {
            line.receive(unheard, until);
        }
    }

    private RunRecord run(UnaryOperator<VirtualRig> greeting, boolean real, boolean releaseLatch) throws Exception {
        killARun();
        Runs runs = Runs.on("standard")
                .of(1, script, script)
                .with(ReturnedRigTests.withoutReady())
                .on(new RunTerms(Set.of(Need.MOTION), Optional.empty(), releaseLatch))
                .by(() -> link(greeting));
        return real
                ? runs.knowing(RealRigTests.storedAsReal(Shuttle.description())).run()
                : runs.run();
    }

    private static List<Verdict> verdicts(RunRecord run) {
        return run.results().stream().map(one -> one.judgement().verdict()).toList();
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void onAVirtualRigTheNextRunReleasesItByItself(boolean releaseLatch) throws Exception {
        RunRecord run = run(UnaryOperator.identity(), false, releaseLatch);

        assertEquals(List.of(Verdict.PASS, Verdict.PASS), verdicts(run), () -> ResultText.summary(run)
                .toString());
        assertEquals(RunEnd.complete(), run.end().orElseThrow());
    }

    @Test
    void onARealRigOnlyIfThatIsAskedFor() throws Exception {
        RunRecord refused = run(RealGreeting::new, true, false);

        assertEquals(List.of(Verdict.ERROR), verdicts(refused));
        String reason = refused.end().orElseThrow().reason();
        assertTrue(reason.contains("a stop is latched (the lease ran out)"), reason);

        assertEquals(
                List.of(Verdict.PASS, Verdict.PASS),
                verdicts(new EarlierLatchTests().run(RealGreeting::new, true, true)));
    }
}
