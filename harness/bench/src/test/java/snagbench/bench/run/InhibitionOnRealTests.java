package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
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
import snagbench.bench.script.RigFile;
import snagbench.bench.session.RealGreeting;
import snagbench.bench.session.Shuttle;
import snagbench.probe.VirtualRig;

/** Scripts and twins that leave a fail-safe out by themselves: to a real machine they are what an inhibited run is. */
class InhibitionOnRealTests {
    private static final String AT_THE_TOP = """
            inhibit: FS-02
            inject:
              - when: { step: REACHING, reach.position: at least 120 mm }
                channels: { reach.current: offset 0.10 A }
                lasts: 100 ms
            expect:
              - becomes: { step: GRIPPING }
                within: 2 s
              - must-not-fire: FS-01
            """;

    private static final String IN_AN_INJECTION = """
            inject:
              - when: { step: REACHING, reach.position: at least 120 mm }
                inhibit: FS-02
                lasts: 100 ms
            expect:
              - becomes: { step: GRIPPING }
                within: 2 s
              - must-not-fire: FS-01
            """;

    private static final String BY_ITS_CHANNEL = """
            inject:
              - when: { step: REACHING, reach.position: at least 120 mm }
                channels: { inhibit FS-02: stuck-at 1 }
                lasts: 100 ms
            expect:
              - becomes: { step: GRIPPING }
                within: 2 s
              - must-not-fire: FS-01
            """;

    private static final String WITH_A_DISTURBANCE = """
            inhibit: FS-02
            inject:
              - when: { step: REACHING, reach.position: at least 120 mm }
                disturb: { obstacle.position: 420 mm }
                lasts: 100 ms
            expect:
              - becomes: { step: GRIPPING }
                within: 2 s
              - must-not-fire: FS-01
            """;

    private static final String IN_ITS_TWIN = """
            inject:
              - name: spike
                when: { step: REACHING, reach.position: at least 120 mm }
                channels: { reach.current: spike 8 A for 30 ms }
                twin:
                  channels: { reach.current: spike 8 A for 80 ms }
                  inhibit: FS-02
            expect:
              - must-not-fire: FS-01
            end: 1 s after spike
            """;

    private static FaultScript script(String text) throws IOException {
        return Shuttle.script("leaves one out", "FS-01", text);
    }

    private static RunTerms terms(boolean inhibitedOnReal, Need... more) {
        EnumSet<Need> granted = EnumSet.of(Need.MOTION);
        granted.addAll(List.of(more));
        return new RunTerms(granted, Optional.empty(), false, false, inhibitedOnReal);
    }

    private static Runs on(UnaryOperator<VirtualRig> greeting, RigFile file, FaultScript... scripts) {
        return Runs.on("standard")
                .of(1, scripts)
                .with(file)
                .by(() -> new VirtualLink("seedling-shuttle", greeting.apply(Shuttle.rig("standard")), new RigWatch()));
    }

    private static Runs real(RigFile file, FaultScript... scripts) {
        return on(RealGreeting::new, file, scripts).knowing(RealRigTests.storedAsReal(Shuttle.description()));
    }

    private static RigFile unguarded() {
        RigFile file = Shuttle.file();
        return new RigFile(
                file.place(),
                file.name(),
                file.virtual(),
                file.leaseMillis(),
                file.settlingMicros(),
                file.ready(),
                List.of(),
                file.wiring(),
                file.snapshot());
    }

    private static void leftOut(ScriptResult result, String why) {
        String details = String.join("\n", ResultText.details(result));
        assertEquals(Verdict.NONE, result.judgement().verdict(), details);
        assertTrue(details.contains("left out for its \"inhibit\": " + why), details);
        assertEquals(0, result.rigMicros());
    }

    @ParameterizedTest
    @ValueSource(strings = {AT_THE_TOP, IN_AN_INJECTION, BY_ITS_CHANNEL})
    void suchAScriptIsLeftOutUnlessItIsAskedFor(String text) throws Exception {
        FaultScript sound = Shuttle.script("reach-blocked-near-home");
        RunRecord run =
                real(Shuttle.file(), script(text), sound).on(terms(false)).run();

        leftOut(
                run.results().get(0),
                "a real rig would meet the fault without its fail-safe; --inhibited-on-real asks");
        assertEquals(Verdict.PASS, run.results().get(1).judgement().verdict(), "the plan goes on");
        assertEquals(RunEnd.complete(), run.end().orElseThrow());

        ScriptResult askedFor =
                real(Shuttle.file(), script(text)).on(terms(true)).only();
        assertEquals(Verdict.PASS, askedFor.judgement().verdict(), () -> ResultText.details(askedFor)
                .toString());
        ScriptResult virtual =
                on(UnaryOperator.identity(), Shuttle.file(), script(text)).only();
        assertEquals(Verdict.PASS, virtual.judgement().verdict());
    }

    @Test
    void noOptionLetsItMeetAPhysicalDisturbanceOrHandsOrGoUnguarded() throws Exception {
        RunTerms all = terms(true, Need.HANDS);
        leftOut(
                real(Shuttle.file(), script(WITH_A_DISTURBANCE)).on(all).only(),
                "never on a real rig together with a physical disturbance");
        FaultScript handy = RealRigTests.needing(script(IN_AN_INJECTION), Need.HANDS);
        leftOut(real(Shuttle.file(), handy).on(all).only(), "never on a real rig with somebody's hands at it");
        leftOut(real(unguarded(), script(AT_THE_TOP)).on(all).only(), "never on a real rig without a guard");
        ScriptResult sound = real(unguarded(), Shuttle.script("reach-blocked-near-home"))
                .on(all)
                .only();
        assertEquals(Verdict.PASS, sound.judgement().verdict(), "a script that leaves none out needs no guard");
    }

    @Test
    void aTwinThatLeavesOneOutIsHeldToTheSame() throws Exception {
        ChecksWanted controls = new ChecksWanted(false, true, Optional.empty());
        RunRecord refused = real(Shuttle.file(), script(IN_ITS_TWIN))
                .on(terms(false))
                .checking(controls)
                .run();

        assertEquals(Verdict.PASS, refused.results().get(0).judgement().verdict());
        ScriptResult twin = refused.controls().get(0);
        assertEquals(Role.TWIN, twin.role());
        assertEquals(Verdict.NONE, twin.judgement().verdict());
        assertEquals(
                List.of("it leaves a fail-safe out: a real rig would meet the fault without its fail-safe;"
                        + " --inhibited-on-real asks for it"),
                twin.judgement().reasons());
        assertEquals(0, twin.rigMicros());

        RunRecord made = real(Shuttle.file(), script(IN_ITS_TWIN))
                .on(terms(true))
                .checking(controls)
                .run();
        assertEquals(Verdict.PASS, made.controls().get(0).judgement().verdict());
    }
}
