package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a user can get wrong on the command line: status 2, a sentence that says what would do, and nothing is made. */
class UsageTests {
    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    private Told refused(String... args) {
        Told told = Told.by(args);
        assertEquals(2, told.status(), told::all);
        assertFalse(told.all().contains("\tat "), told::all);
        assertFalse(told.err().isBlank(), "says something");
        assertFalse(bench.hasResults());
        return told;
    }

    private Told refusedToRun(String plan) {
        return refused("run", path(plan), "--out", path("results"));
    }

    private String path(String name) {
        return bench.file(name).toString();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "run", "check", "report", "go", "run a.plan.yaml --speed 3", "run a.plan.yaml --seed many"})
    void usageErrorsEndWithTwo(String args) {
        refused(args.isEmpty() ? new String[0] : args.split(" "));
    }

    /** A plan of so many runs would fill the memory before it began. */
    @Test
    void moreRunsThanAPlanMakesAreRefusedWithPlaceAndCure() throws IOException {
        bench.write(
                Bench.PLANS + "varied.fault.yaml",
                bench.read(Bench.PLANS + "reach-blocked-anywhere.fault.yaml")
                        .replace("40 mm .. 327 mm in 8", "40.00 mm .. 327.00 mm in 1000"));
        Told told = refusedToRun(bench.plan("varied", 10_000));
        assertTrue(
                told.err()
                        .contains(
                                "10000 runs of each of the 1000 scripts that the file stands for are 10000000, and a plan"
                                        + " makes 10000 of a file at most"),
                told::all);
        assertTrue(told.err().contains("often.plan.yaml:6:"), told::all);

        StringBuilder plan = new StringBuilder(bench.read(bench.plan("reach-current-too-high", 10_000)));
        for (int i = 0; i < 10; i++) {
            bench.write(
                    Bench.PLANS + "copy" + i + ".fault.yaml",
                    bench.read(Bench.PLANS + "reach-current-too-high.fault.yaml"));
            plan.append("  - copy").append(i).append(".fault.yaml: { repeat: 10000 }\n");
        }
        bench.write(Bench.PLANS + "often.plan.yaml", plan.toString());
        told = refusedToRun(Bench.PLANS + "often.plan.yaml");
        assertTrue(
                told.err().contains("often.plan.yaml:1:1: the plan comes to 110000 runs, and one makes 100000 at most"),
                told::all);
        assertTrue(told.err().contains("write less for \"repeat\", or make several plans of it"), told::all);
    }

    /** What would be without effect is refused, and not passed over. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "new x.fault.yaml --failsafe FS-01 --step REACHING --channel reach.current --channel battery.voltage"
                        + " --fault freeze | --channel is given 2 times; without --from a script begins with one",
                "new x.fault.yaml --failsafe FS-01 --at 5 | --at goes with --from: a time of which trace?",
                "new x.fault.yaml --failsafe FS-01 --for 5 | --for goes with --from: a time of which trace?",
                "new x.fault.yaml --from a.trace --at 5 --fault freeze | --fault does not go with --from: the trace says",
                "new x.fault.yaml --from a.trace --at 5 --step REACHING | --step does not go with --from: the trace says",
                "new x.fault.yaml --from a.trace --at 9223372036854775807 | --at 9223372036854775807: wanted milliseconds",
                "new x.fault.yaml --from a.trace --at 5 --for 9223372036854775807 | --for 9223372036854775807: wanted",
                "record --from a.trace --csv a.csv --seed 2 | --seed does not go with --from: a file is turned into",
                "record --from a.trace --csv a.csv --build usual | --build does not go with --from",
                "record --from a.trace --csv a.csv --port /dev/ttyUSB0 | --port does not go with --from",
                "record --from a.trace --csv a.csv --baud 9600 | --baud does not go with --from",
                "record --from a.trace --csv a.csv --motion | --motion does not go with --from",
                "record --from a.trace --csv a.csv --for 5 | --for does not go with --from"
            })
    void optionsWithoutAnEffectAreRefused(String command, String words) {
        Told told = Told.in(empty, (command.strip() + " --rig seedling-shuttle").split(" "));

        assertEquals(2, told.status(), told::all);
        assertTrue(told.err().startsWith("snagbench: " + words.strip()), told::all);
    }

    @Test
    void aPathThatTheSystemCannotNameIsRefused() {
        Told told = refused("check", "gr\u0000n.fault.yaml");
        assertTrue(told.err().contains("\"gr n.fault.yaml\" is no path here: Nul character not allowed"), told::all);
    }

    @Test
    void theRealCommandLineEndsWithTwoAsWell() throws Exception {
        BenchProcess.Ended ended = BenchProcess.run(empty, "run", "not-there.plan.yaml", "--speed", "3");

        assertEquals(2, ended.status(), ended::all);
        assertTrue(ended.err().contains("--speed"), ended::all);
        assertEquals("", ended.out());
        assertFalse(bench.hasResults());
    }

    @Test
    void aPlanForABuildThatTheRigDoesNotHaveSaysWhichItHas() throws Exception {
        bench.spoil(Bench.PLANS + "first-light-broken.plan.yaml", "build: without-FS-02", "build: without-FS-20");

        Told ended = refusedToRun(Bench.PLANS + "first-light-broken.plan.yaml");

        assertTrue(ended.err().contains("\"without-FS-20\""), ended::all);
        assertTrue(ended.err().contains("without-FS-02"), ended::all);
    }

    @Test
    void aRigThatIsNotThereIsToldWithTheNearestOne() throws Exception {
        bench.spoil(Bench.PLANS + "first-light.plan.yaml", "rig: seedling-shuttle", "rig: seedling-shutle");

        Told ended = refusedToRun(Bench.PLANS + "first-light.plan.yaml");

        assertTrue(ended.err().contains("\"seedling-shutle\""), ended::all);
        assertTrue(ended.err().contains("\"seedling-shuttle\""), ended::all);
    }

    @Test
    void aVirtualRigThatIsNotOnTheClassPathIsNamedWithThoseThatAre() throws Exception {
        bench.spoil(Bench.RIG + "rig.yaml", "virtual: seedling-shuttle", "virtual: lifter");

        Told ended = refusedToRun(Bench.PLANS + "first-light.plan.yaml");

        assertTrue(ended.err().contains("\"lifter\""), ended::all);
        assertTrue(ended.err().contains("seedling-shuttle"), ended::all);
    }

    @Test
    void resultsWhereNoFolderCanBeAreRefused() throws Exception {
        Files.writeString(empty.resolve("taken"), "a file");

        Told ended = refused("run", path(Bench.PLANS + "first-light.plan.yaml"), "--out", path("taken"));

        assertTrue(ended.err().contains("no folder for the results"), ended::all);
        assertTrue(ended.err().contains("taken is there already, and is no folder"), ended::all);
        assertFalse(ended.err().contains("Exception"), ended::all);
        assertEquals("a file", Files.readString(empty.resolve("taken")));
    }

    @Test
    void aScriptThatIsNotThereIsToldBeforeItsRigIsAskedFor() {
        Told missing = refused("run", path("nowhere.fault.yaml"));
        Told folder = refused("check", path("test-plans"));

        assertEquals(
                "snagbench: there is no file " + path("nowhere.fault.yaml"),
                missing.err().strip());
        assertEquals(
                "snagbench: " + path("test-plans") + " is a folder, where a file is wanted",
                folder.err().strip());
    }

    @Test
    void twoPlansAtOnceAreRefused() {
        Told ended = refused(
                "run", path(Bench.PLANS + "first-light.plan.yaml"), path(Bench.PLANS + "first-light-broken.plan.yaml"));

        assertTrue(ended.err().contains("one plan at a time"), ended::all);
    }

    @Test
    void helpIsNoErrorAndShowsAnExampleForEachCommand() {
        for (String command : List.of("run", "check", "identify", "report")) {
            Told ended = Told.by(command, "--help");
            assertEquals(0, ended.status(), ended::all);
            assertTrue(ended.out().contains("Example: snagbench " + command), ended::all);
        }
    }
}
