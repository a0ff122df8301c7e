package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.report.ChecksText;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Place;
import snagbench.bench.script.ProgramLayout;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.Shuttle;

/** What counts as a change of the control code that a plan notices, what does not, and what was never tried. */
class AdequacyTests {
    private static final FaultScript SOUND = Shuttle.script("reach-blocked-midway");

    private static final AdequacyPlan.Change PATIENCE = new AdequacyPlan.Change(
            new RigFile.Adjustable(
                    new Place(Path.of("rig.yaml"), 1, 1),
                    Shuttle.description().channel("shelf.patience").orElseThrow(),
                    BigDecimal.ZERO,
                    10),
            Set.of("FS-10"));

    private static FailSafeDescription failSafe(String name) {
        return Shuttle.description().failSafe(name).orElseThrow();
    }

    private static Runs trying(AdequacyPlan changes, String build, FaultScript... scripts) {
        return Runs.on(build).of(1, scripts).checking(new ChecksWanted(false, false, Optional.of(changes)));
    }

    private static AdequacyPlan leavingOut(String failSafe) {
        return new AdequacyPlan(List.of(failSafe(failSafe)), List.of());
    }

    private static void notTried(List<ChangeResult> changes, String... words) {
        assertEquals(
                List.of(words),
                changes.stream()
                        .map(one -> one.words() + ": " + one.notPossible().orElse("was tried"))
                        .toList());
        Adequacy adequacy = Adequacy.of(changes);
        assertEquals(0, adequacy.failSafesNoticed() + adequacy.constantsNoticed());
        assertEquals(List.of(), adequacy.unnoticed());
        assertEquals(0, adequacy.runs());
        assertTrue(ChecksText.adequacy(changes).contains("not tried: " + words[0]), () -> ChecksText.adequacy(changes)
                .toString());
    }

    /** A short fault every 5 mm, until the probe has no slot left. */
    private static FaultScript takesAllSlots(int slots) throws IOException {
        String injections = IntStream.range(0, slots - 2)
                .mapToObj(number -> "  - when: { reach.position: at least " + (60 + 5 * number) + " mm }\n"
                        + "    channels: { reach.current: offset 0.01 A }\n    lasts: 5 ms\n")
                .collect(Collectors.joining());
        return Shuttle.script(
                "takes all slots",
                "FS-02",
                "inject:\n" + injections + "expect:\n  - becomes: { step: GRIPPING }\n    within: 2 s\n"
                        + "  - must-not-fire: FS-02\n");
    }

    @Test
    void aScriptThatHasTakenAllSlotsIsNotRunWithAChangeAndThePlanEndsWell() throws Exception {
        int slots = Shuttle.description().limits().slots();
        FaultScript full = takesAllSlots(slots);
        assertEquals(slots, ProgramLayout.of(full).entries());
        AdequacyPlan both = new AdequacyPlan(List.of(failSafe("FS-02")), List.of(PATIENCE));
        RunRecord run = trying(both, "standard", full).run();

        assertEquals(Verdict.PASS, run.results().get(0).judgement().verdict());
        assertEquals(RunEnd.complete(), run.end().orElseThrow());
        String why = "no script that passed can be run with it: the rig's probe has no slot left for it";
        notTried(
                run.changes(),
                "without FS-02: " + why,
                "shelf.patience 3000 ms -> 2990 ms: " + why,
                "shelf.patience 3000 ms -> 3010 ms: " + why);

        AdequacyPlan constant = new AdequacyPlan(List.of(), List.of(PATIENCE));
        RunRecord withAnother = trying(constant, "standard", full, SOUND).run();
        assertEquals(
                List.of(1, 1),
                withAnother.changes().stream().map(ChangeResult::runs).toList(),
                "the other script is run with it");
        assertEquals(2, Adequacy.of(withAnother.changes()).unnoticed().size());
    }

    /** The cable is pulled in the run in which FS-08 is left out, which that script would not notice. */
    @Test
    void aLineThatIsLostNoticesNothing() throws Exception {
        AtomicInteger begun = new AtomicInteger();
        RunListener counting = new RunListener() {
            @Override
            public void started(int index, PlannedRun run) {
                begun.incrementAndGet();
            }

            @Override
            public void progressed(int index, long rigMicros) {
                // nobody looks
            }

            @Override
            public void ended(ScriptResult result) {
                // nobody looks
            }
        };
        RunRecord run = trying(leavingOut("FS-08"), "standard", SOUND)
                .over(line -> new PassingLink() {
                    @Override
                    public Link line() {
                        return line;
                    }

                    @Override
                    public int receive(byte[] into, long untilMicros) throws LinkException {
                        if (begun.get() == 2) {
                            throw new LinkException("the cable is out");
                        }
                        return line.receive(into, untilMicros);
                    }
                })
                .run(counting);

        assertEquals(Verdict.PASS, run.results().get(0).judgement().verdict());
        notTried(run.changes(), "without FS-08: the rig failed while \"reach blocked midway\" ran with it");
        RunEnd end = run.end().orElseThrow();
        assertEquals(RunEnd.Cause.RIG, end.cause());
        assertTrue(end.reason().contains("the cable is out"), end.reason());
    }

    @Test
    void aScriptThatFailsNotices() throws Exception {
        RunRecord run = trying(leavingOut("FS-03"), "standard", Shuttle.script("rack-empty"))
                .run();

        ChangeResult change = run.changes().get(0);
        assertEquals(Optional.of("rack has not fed a pot"), change.noticedBy());
        assertEquals("fail: sees it", change.how());
        assertEquals(1, change.runs());
    }

    @Test
    void whereNoScriptPassedNothingIsTried() throws Exception {
        RunRecord run = trying(leavingOut("FS-08"), "without-FS-02", SOUND).run();

        assertEquals(Verdict.FAIL, run.results().get(0).judgement().verdict());
        notTried(run.changes(), "without FS-08: no script passed that could be run with it");
    }

    @Test
    void whereEachScriptLeavesTheFailSafeOutItselfNothingIsTried() throws Exception {
        FaultScript without = Shuttle.script("leaves it out", "FS-01", """
                inhibit: FS-02
                inject:
                  - when: { step: REACHING, reach.position: at least 120 mm }
                    channels: { reach.current: offset 0.10 A }
                    lasts: 100 ms
                expect:
                  - becomes: { step: GRIPPING }
                    within: 2 s
                  - must-not-fire: FS-01
                """);
        RunRecord run = trying(leavingOut("FS-02"), "standard", without).run();

        assertEquals(Verdict.PASS, run.results().get(0).judgement().verdict());
        notTried(
                run.changes(),
                "without FS-02: no script that passed can be run with it: the script leaves out FS-02 itself");
    }
}
