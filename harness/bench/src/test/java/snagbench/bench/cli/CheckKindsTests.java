package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Each kind of file is checked as what it is, whether its name says so or what stands in it. */
class CheckKindsTests {
    private static final String SCRIPT = Bench.PLANS + "reach-blocked-midway.fault.yaml";
    private static final String PLAN = Bench.PLANS + "first-light.plan.yaml";
    private static final String RIG = Bench.RIG + "rig.yaml";
    private static final String REGISTER = Bench.RIG + "failsafes.yaml";
    private static final String SNAPSHOT = Bench.RIG + "rig.snapshot.json";

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    private Told check(String... names) {
        String[] args = new String[names.length + 1];
        args[0] = "check";
        for (int index = 0; index < names.length; index++) {
            args[index + 1] = names[index].startsWith("-") || names[index].equals("nosuch")
                    ? names[index]
                    : bench.file(names[index]).toString();
        }
        return Told.by(args);
    }

    private void assertOne(Told told, String file, String... words) {
        assertEquals(2, told.status(), told::all);
        assertTrue(told.out().startsWith(bench.file(file) + ":"), told::all);
        assertTrue(told.out().contains("1 error, "), told::all);
        for (String word : words) {
            assertTrue(told.out().contains(word), () -> word + " in: " + told.all());
        }
    }

    @Test
    void goodFilesOfAllKindsAreGood() {
        Told told = check(SCRIPT, PLAN, RIG, REGISTER, SNAPSHOT);

        assertEquals("0 errors, 0 warnings\n", told.out(), told::all);
        assertEquals(0, told.status());
    }

    @Test
    void aSlipInEachIsToldInItsOwnWords() throws IOException {
        bench.spoil(REGISTER, "    name: reach current over its limit", "    nam: reach current over its limit");
        assertOne(check(REGISTER), REGISTER, "fail-safe FS-01 has no key \"nam\"", "did you mean \"name\"?");
        copyAgain(REGISTER);
        bench.spoil(RIG, "lease: 500 ms", "leese: 500 ms");
        assertOne(check(RIG), RIG, "a rig's file has no key \"leese\"");
        copyAgain(RIG);
        bench.spoil(SNAPSHOT, "\"digest\" : \"0x", "\"digest\" : \"0y");
        assertOne(check(SNAPSHOT), SNAPSHOT, "digest", "\"identify --save\" makes the file anew");
    }

    private void copyAgain(String name) throws IOException {
        bench.write(name, Files.readString(Bench.project().resolve(name)));
    }

    /** The name says nothing: the key that only one kind has does. */
    @ParameterizedTest
    @CsvSource({
        SCRIPT + ", a fault script",
        PLAN + ", a test plan",
        RIG + ", a rig's file",
        REGISTER + ", a fail-safe register",
    })
    void aFileOfAnotherNameIsTakenForWhatItsKeysSay(String file, String kind) throws IOException {
        String other = Path.of(file).resolveSibling("other.yaml").toString();
        bench.write(other, bench.read(file) + "\nnonsense: 1\n");

        assertOne(check(other, "--rig", RIG), other, kind + " has no key \"nonsense\"");
    }

    @Test
    void aNameThatSaysAnotherKindIsToldOf() throws IOException {
        bench.write(Bench.PLANS + "first.fault.yaml", bench.read(PLAN));

        Told told = check(Bench.PLANS + "first.fault.yaml");

        assertOne(
                told, Bench.PLANS + "first.fault.yaml", "says a fault script", "of a test plan", "name it *.plan.yaml");
        Told run = Told.by("run", bench.file(Bench.PLANS + "first.fault.yaml").toString());
        assertTrue(run.err().contains("name it *.plan.yaml") && run.err().endsWith("Nothing was run.\n"), run::all);
        Told rig = Told.by("run", bench.file(RIG).toString());
        assertEquals(2, rig.status());
        assertTrue(rig.err().contains("rig.yaml is a rig's file; what can be run is a test plan"), rig::all);
    }

    @Test
    void aFileOfNoKindIsToldWithTheKindsThereAre() throws IOException {
        bench.write("shopping.yaml", "bread: 2\n");
        assertOne(
                check("shopping.yaml"),
                "shopping.yaml",
                "neither the name \"shopping.yaml\" nor a key tells",
                "a fault script is named *.fault.yaml and has the key \"fault-script\"",
                "a fail-safe register is named failsafes.yaml");
        bench.write("notes.yaml", "a: [b\n");
        assertOne(check("notes.yaml"), "notes.yaml", "what is opened here by \"[\"");
        bench.write("empty.yaml", "");
        assertOne(check("empty.yaml"), "empty.yaml", "the file is empty");
    }

    @Test
    void aRegisterWithoutItsRigAsksForOne() throws IOException {
        bench.write("failsafes.yaml", bench.read(REGISTER));
        Told told = check("failsafes.yaml");

        assertEquals(2, told.status());
        assertTrue(told.err().contains("say which rig it is for with --rig NAME"), told::all);
    }

    @Test
    void aRigThatIsNowhereKeepsItsPlaceInThePlan() throws IOException {
        bench.spoil(PLAN, "rig: seedling-shuttle", "rig: seedling-shutle");
        Told told = check(PLAN);

        assertOne(told, PLAN, "there is no rig \"seedling-shutle\"", "did you mean \"seedling-shuttle\"?");
        long line = bench.read(PLAN)
                        .substring(0, bench.read(PLAN).indexOf("rig: s"))
                        .lines()
                        .count()
                + 1;
        assertTrue(told.out().startsWith(bench.file(PLAN) + ":" + line + ":6: "), told::all);
        assertFalse(told.out().contains("fixtures/seedling-shutle/rig.yaml, "), "one place is named, not one a folder");
    }

    @Test
    void aRigThatIsNowhereIsToldWithThoseThereAre() {
        Told told = check(SCRIPT, "--rig", "nosuch");

        assertEquals(2, told.status());
        assertTrue(
                told.err()
                        .contains(
                                "there is no rig \"nosuch\"\n    There are: avr-reach, cortex-reach, host-reach, seedling"),
                told::all);
        assertTrue(told.err().lines().count() <= 2, told::all);
        Told path = check(SCRIPT, "--rig", "elsewhere/rig.yaml");
        assertTrue(path.err().contains("there is no rig.yaml at "), path::all);
    }

    @Test
    void aFolderInAPlanIsToldAsSuch() throws IOException {
        Files.createDirectory(bench.file(Bench.PLANS + "later"));
        bench.spoil(PLAN, "- reach-blocked-midway.fault.yaml", "- later");

        assertOne(check(PLAN), PLAN, "\"later\" is a folder, where a script is wanted");
    }
}
