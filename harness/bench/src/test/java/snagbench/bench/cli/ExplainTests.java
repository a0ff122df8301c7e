package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is said of a plan and of a register is what stands in them. */
class ExplainTests {
    private static final String REGISTER = Bench.RIG + "failsafes.yaml";

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    private String explained(String name) {
        Told told = Told.by("explain", bench.file(name).toString());
        assertEquals(0, told.status(), told::all);
        return told.out();
    }

    private static void assertHas(String text, String... lines) {
        List<String> all = text.lines().toList();
        for (String line : lines) {
            assertTrue(all.contains(line), () -> line + "\n in:\n" + text);
        }
    }

    @Test
    void aPlanSaysWhatIsRunHowOftenAndWhatItIsEvidenceFor() throws IOException {
        bench.write(Bench.PLANS + "mine.plan.yaml", """
                test-plan: mine
                rig: seedling-shuttle
                build: without-FS-02
                run-time: 30 s
                reserve: 5 s
                control-runs: { no-fault: true }
                adequacy: { failsafes: true }
                scripts:
                  - reach-blocked-midway.fault.yaml: { claim: { reliability: 90 %, confidence: 90 % } }
                  - reach-blocked-anywhere.fault.yaml
                  - obstacle-and-then-a-jam.fault.yaml
                """);

        String text = explained(Bench.PLANS + "mine.plan.yaml");

        assertHas(
                text,
                "\"mine\" is for rig seedling-shuttle, build \"without-FS-02\": 3 files, 10 scripts, 31 runs.",
                "A run of the machine is 30 s; recoveries may cost 5 s of it in all.",
                "On top of that, each script that passes is run without its fault: then its fail-safes must keep quiet.",
                "At the end the control code is changed, one thing at a time, and some script must notice: each fail-safe left"
                        + " out.",
                "  1  reach blocked midway, 22 times, for FS-02; to show, with 90 % confidence, that 90 % of such runs pass",
                "  2  reach blocked anywhere, 8 scripts, for FS-02",
                "  3  obstacle, and then a jam in the throat, for FS-02 and FS-06",
                "  FS-02  reach blocked midway, reach blocked anywhere, obstacle, and then a jam in the throat",
                "  FS-06  obstacle, and then a jam in the throat");
        assertTrue(!text.contains("run with each fail-safe left out") && !text.contains("adjustable"), text);
        assertTrue(text.contains("takes 15 min 30 s on the rig's clock at most"), text);
        assertTrue(text.contains("For FS-01, FS-03, FS-04, FS-05, FS-07"), text);
        assertTrue(text.contains("it needs motion (3 files)"), text);
    }

    @Test
    void aPlanSaysWhatHoldsBetweenTwoRuns() throws IOException {
        String head = "test-plan: mine\nrig: seedling-shuttle\nrun-time: 30 s\nreserve: 5 s\n";
        String scripts = "scripts:\n  - reach-blocked-midway.fault.yaml: { repeat: 7 }\n";
        String only = "start-only-if: { battery.voltage: at least 12.2 V, step: READY }";
        bench.write(
                Bench.PLANS + "rests.plan.yaml",
                head + "between: { rest: 20 s, " + only + ", give-up-after: 5 min }\n" + scripts);
        bench.write(Bench.PLANS + "waits.plan.yaml", head + "between: { " + only + " }\n" + scripts);
        bench.write(
                Bench.PLANS + "more.plan.yaml",
                head + "between: { rest: 90 s }\ncontrol-runs: { inhibited: true }\n" + scripts);

        String starts =
                "A run starts only when the rig's real readings tell that battery.voltage is at least 12.2 V and the"
                        + " step is READY. If that has not come about after ";
        String ends = ", the plan ends, and what is left of it is not run.";
        assertHas(
                explained(Bench.PLANS + "rests.plan.yaml"),
                "Between two runs the rig rests for 20 s: 2 min in all.",
                starts + "5 min" + ends);
        String waits = explained(Bench.PLANS + "waits.plan.yaml");
        assertHas(waits, starts + "1 min" + ends);
        assertTrue(!waits.contains("rests"), waits);
        assertHas(
                explained(Bench.PLANS + "more.plan.yaml"),
                "Between two runs the rig rests for 1 min 30 s: 9 min in all, and as long before each of those on top.");
        String neither = explained(Bench.PLANS + "first-light.plan.yaml");
        assertTrue(!neither.contains("rests") && !neither.contains("starts only"), neither);
    }

    @Test
    void aPlanWithAnErrorIsNotExplained() throws IOException {
        bench.spoil(Bench.PLANS + "first-light.plan.yaml", "reserve: 5 s", "reserve: 5");

        Told told = Told.by(
                "explain", bench.file(Bench.PLANS + "first-light.plan.yaml").toString());

        assertEquals(2, told.status(), told::all);
        assertEquals("", told.out());
        assertTrue(told.err().contains("has no unit"), told::all);
    }

    @Test
    void aRegisterSaysWhatEachFailSafeSeesDoesAndCosts() {
        String text = explained(REGISTER);
        assertTrue(
                text.lines()
                        .anyMatch(line -> line.startsWith(
                                        "         - when the step as told is DRAWING_BACK, reach.position as told"
                                                + " is at most 60 mm")
                                && line.endsWith(", for 40 ms")),
                text);
        assertHas(
                text,
                "Rig seedling-shuttle has 13 fail-safes, their severity by MIL-STD-1629A.",
                "FS-04 grip missed (III)",
                "  Sees   Drawing back with a pot, the arm is nearly home and the throat's beam is clear.",
                "  Does   Open the fingers and reach again from there.",
                "  Then   the step is GRIPPING, within 3 s of the first tick with the trouble.",
                "  Costs  2.4 s to 3 s of the run's reserve.",
                "  Proved by pot-slips, slip-and-shove, throat-clear-on-the-way-home, throat-flickers.");
    }

    @Test
    void whatHasNothingToExplainIsRefusedWithWhatHas() {
        Told told = Told.by("explain", bench.file(Bench.RIG + "rig.yaml").toString());

        assertEquals(2, told.status(), told::all);
        assertTrue(told.err().contains("rig.yaml is a rig's file; what can be explained is a fault script"), told::all);
    }
}
