package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.RigWatch;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.report.ResultText;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.FaultScript.Need;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.bench.serve.RigLog;
import snagbench.bench.session.RealGreeting;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.Shuttle;
import snagbench.probe.VirtualRig;

/** What is asked for before a rig moves that greets as a real one, and what is left out on it. */
class RealRigTests {
    private final FaultScript script = Shuttle.script("reach-blocked-near-home");
    private final StringBuilder log = new StringBuilder();

    private VirtualLink real() {
        VirtualRig logged = new RigLog(line -> log.append(line).append('\n')).around(Shuttle.rig("standard"));
        return new VirtualLink("seedling-shuttle", new RealGreeting(logged), new RigWatch());
    }

    /** As if the description had been stored from this rig. */
    static RigDescription storedAsReal(RigDescription stored) {
        ProbeCapacity was = stored.limits();
        return new RigDescription(
                stored.digest(),
                stored.channels(),
                stored.failSafes(),
                new ProbeCapacity(
                        true,
                        was.tickMicros(),
                        was.slots(),
                        was.terms(),
                        was.points(),
                        was.guards(),
                        was.frame(),
                        was.kinds(),
                        was.history()));
    }

    static FaultScript needing(FaultScript script, Need... needs) {
        return new FaultScript(
                script.place(),
                script.name(),
                script.failSafes(),
                script.why(),
                Set.of(needs),
                script.begin(),
                script.injections(),
                script.expectations(),
                script.end());
    }

    private static RunTerms granting(Need... needs) {
        Set<Need> granted = EnumSet.noneOf(Need.class);
        granted.addAll(List.of(needs));
        return new RunTerms(granted, Optional.empty());
    }

    private Runs runs(FaultScript... scripts) {
        return Runs.on("standard")
                .of(1, scripts)
                .knowing(storedAsReal(Shuttle.description()))
                .by(this::real);
    }

    @Test
    void withoutBeingAskedForNothingMovesAndNoLeaseIsTaken() {
        SessionException refused =
                assertThrows(SessionException.class, () -> runs(script).run());

        assertTrue(refused.getMessage().contains("this is a real rig"), refused.getMessage());
        assertTrue(refused.getMessage().contains("--motion"), refused.getMessage());
        assertFalse(log.toString().contains("lease taken"), log::toString);
    }

    @Test
    void askedForItIsDrivenAsAnyOther() throws Exception {
        RunRecord run = runs(script).on(granting(Need.MOTION)).run();

        assertEquals(Verdict.PASS, run.results().get(0).judgement().verdict());
        assertTrue(run.header().real());
    }

    @Test
    void scriptsWhoseNeedsAreNotMetAreLeftOutWithTheReason() throws Exception {
        FaultScript handy = needing(script, Need.MOTION, Need.HANDS, Need.CLEAR_FLOOR);
        FaultScript lifted = needing(script, Need.MOTION, Need.WHEELS_UP);
        RunRecord run = runs(handy, lifted, script)
                .on(granting(Need.MOTION, Need.WHEELS_UP))
                .run();

        assertEquals(
                List.of(Verdict.NONE, Verdict.PASS, Verdict.PASS),
                run.results().stream().map(one -> one.judgement().verdict()).toList());
        String details = String.join("\n", ResultText.details(run.results().get(0)));
        assertTrue(details.contains("left out: it needs hands (--hands), clear floor (--clear-floor)"), details);
        assertEquals(RunEnd.Cause.COMPLETE, run.end().orElseThrow().cause());
        assertTrue(
                ResultText.summary(run).stream().anyMatch(line -> line.contains("2 pass, 1 not run")),
                () -> ResultText.summary(run).toString());
    }

    /** Nobody can lend a hand to a rig made of arithmetic, unless it is said that somebody can; it has room, and no wheels. */
    @Test
    void onAVirtualRigOnlyHandsAreMissing() throws Exception {
        FaultScript handy = needing(script, Need.HANDS);
        FaultScript other = needing(script, Need.MOTION, Need.WHEELS_UP, Need.CLEAR_FLOOR);
        RunRecord run = Runs.on("standard").of(1, handy, other).run();
        RunRecord granted =
                Runs.on("standard").of(1, handy).on(granting(Need.HANDS)).run();

        assertEquals(
                List.of(Verdict.NONE, Verdict.PASS),
                run.results().stream().map(one -> one.judgement().verdict()).toList());
        assertEquals(Verdict.PASS, granted.results().get(0).judgement().verdict());
    }

    @Test
    void aRealRigIsNotTakenForTheVirtualOneThatTheScriptsWereCheckedAgainst() {
        SessionException refused = assertThrows(SessionException.class, () -> Runs.on("standard")
                .of(1, script)
                .by(this::real)
                .on(granting(Need.MOTION))
                .run());

        assertTrue(
                refused.getMessage().contains("it is a real rig, and the stored one is virtual"), refused.getMessage());
        assertFalse(log.toString().contains("lease taken"), log::toString);
    }

    @Test
    void aRigWithAnotherBuildThanThePlanIsForIsRefused() {
        SessionException refused = assertThrows(SessionException.class, () -> Runs.on("standard")
                .of(1, script)
                .on(new RunTerms(Set.of(), Optional.of("1.0 no FS-02")))
                .run());

        assertTrue(
                refused.getMessage()
                        .contains(
                                "the plan is for build \"1.0 no FS-02\" of the control code, and the rig runs \"1.0\""),
                refused.getMessage());
    }

    /** Whatever throws, the machine stops first. */
    @Test
    void anExceptionOfOurOwnLetsGoBeforeItIsThrownOn() {
        RunListener wrong = new RunListener() {
            @Override
            public void started(int index, PlannedRun run) {
                // all is well
            }

            @Override
            public void progressed(int index, long rigMicros) {
                if (rigMicros > 500_000) {
                    throw new IllegalStateException("a fault of our own");
                }
            }

            @Override
            public void ended(ScriptResult result) {
                // it does not come to that
            }
        };

        assertThrows(
                IllegalStateException.class,
                () -> runs(script).on(granting(Need.MOTION)).run(wrong));

        String all = log.toString();
        assertTrue(all.indexOf("safe stop done, let go") > all.indexOf("armed"), all);
        assertFalse(all.contains("latched"), all);
    }
}
