package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Condition;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.Problem;
import snagbench.bench.script.Source;
import snagbench.bench.session.Shuttle;

/** The shuttle's register, and the same with one slip. */
class RegisterReaderTests {
    private static final Path COMMITTED =
            Path.of(System.getProperty("snagbench.root")).resolve("fixtures/seedling-shuttle/failsafes.yaml");

    @TempDir
    Path folder = Path.of("");

    private static Checked<FailSafeRegister> read(Path file) {
        return RegisterReader.read(file, Shuttle.description(), Shuttle.file());
    }

    @Test
    void theShuttlesRegisterIsGoodAndHasAllThirteen() {
        Checked<FailSafeRegister> read = read(COMMITTED);

        assertEquals(List.of(), read.problems());
        FailSafeRegister register = read.value().orElseThrow();
        assertEquals(13, register.entries().size());
        FailSafeRegister.Entry stopped = register.entries().get(1);
        assertEquals("FS-02", stopped.failSafe().name());
        assertEquals(FailSafeRegister.Severity.III, stopped.severity());
        assertEquals(250_000, stopped.symptoms().when().get(0).stepLastedMicros());
        assertEquals(100_000, stopped.symptoms().when().get(0).heldMicros());
        assertEquals(3_000_000, stopped.recovery().withinMicros());
        assertEquals(10, stopped.scripts().size());
        assertTrue(stopped.scripts().stream().allMatch(Files::isRegularFile));
    }

    @Test
    void symptomsAreOnWhatIsToldAndHaveTheirOwnTimes() {
        FailSafeRegister register = read(COMMITTED).value().orElseThrow();

        List<FailSafeRegister.Symptom> contradictions =
                register.entries().get(11).symptoms().when();
        assertEquals(
                List.of(300_000L, 300_000L, 80_000L, 80_000L),
                contradictions.stream()
                        .map(FailSafeRegister.Symptom::heldMicros)
                        .toList());
        assertEquals(
                List.of(250_000L, 250_000L, 0L, 0L),
                contradictions.stream()
                        .map(FailSafeRegister.Symptom::stepLastedMicros)
                        .toList());
        assertEquals("FS-11", register.order().get(0).name());
        assertEquals(
                "how often the same was tried for this pot",
                register.entries().get(9).symptoms().beside());
        Condition.Compares first =
                (Condition.Compares) contradictions.get(2).condition().terms().get(0);
        assertEquals(Source.TOLD, first.source());
    }

    @ParameterizedTest
    @CsvSource({
        "cause, what makes it necessary",
        "effect, what would come of it",
        "response, what the machine does",
        "words, what is seen"
    })
    void aBlankTextIsNone(String key, String what) throws IOException {
        for (String blank : List.of("\"\"", "\" \"", "'\t'")) {
            String text = Files.readString(COMMITTED)
                    .replace(
                            "../../test-plans",
                            COMMITTED.resolve("../../../test-plans").normalize().toString());
            Matcher line = Pattern.compile("\n( +" + key + ": )[^\n]*").matcher(text);
            assertTrue(line.find(), key);
            String spoilt = text.substring(0, line.start()) + "\n" + line.group(1) + blank + text.substring(line.end());
            Path file = Files.writeString(folder.resolve(RegisterReader.FILE_NAME), spoilt);
            int at = (int) text.substring(0, line.end(1)).lines().count();

            Checked<FailSafeRegister> read = read(file);

            assertTrue(read.value().isEmpty(), spoilt);
            assertTrue(
                    read.problems().stream()
                            .anyMatch(problem -> problem.message().equals(what + " is blank")
                                    && problem.place().line() == at),
                    () -> at + ": " + read.problems());
        }
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "  FS-13:            |  FS-14:           | the rig has no fail-safe \"FS-14\"",
                "  FS-13:            |  FS-14:           | lacks fail-safes that the rig has: FS-13",
                "reach.current: above 4.5 A | reach.curent: above 4.5 A | the rig has no channel \"reach.curent\"",
                "      - arm-drags   |      - arm-dregs  | there is no script \"arm-dregs.fault.yaml\"",
                "    severity: II    |    severity: 2    | there is no severity \"2\"",
                "reach.current-limit |reach.current-limt | has no constant \"reach.current-limt\"",
                "within: 400 ms }    |during: 400 ms }   | a recovery is one state, and the time allowed",
                "[REACHING, DRAWING_BACK], w|[REACHING, DRAWING], w| DRAWING",
                "register: seedling-shuttle|register: shuttle| this is the register of \"shuttle\"",
                "above 4.5 A         |above at-injection | it is looked up in the trace",
                "    cause: the arm drags|    couse: the arm drags| no key \"couse\"",
                "order: [FS-11,|order: [FS-21,| the rig has no fail-safe \"FS-21\"",
                "order: [FS-11,|order: [FS-12,| FS-12 is in the order already",
                "test-plans/seedling-shuttle|test-plans/nowhere| there is no folder"
            })
    void tellsWhatIsWrongAndWhere(String was, String becomes, String message) throws IOException {
        String text = Files.readString(COMMITTED)
                .replace(
                        "../../test-plans",
                        COMMITTED.resolve("../../../test-plans").normalize().toString());
        int at = text.indexOf(was.stripTrailing());
        assertTrue(at >= 0, was);
        String spoilt = text.substring(0, at) + becomes + text.substring(at + was.length());
        Path file = Files.writeString(folder.resolve(RegisterReader.FILE_NAME), spoilt);

        Checked<FailSafeRegister> read = read(file);

        assertTrue(read.value().isEmpty());
        assertTrue(
                read.problems().stream()
                        .anyMatch(problem -> problem.message().contains(message)
                                && problem.severity() == Problem.Severity.ERROR
                                && problem.place().file().equals(file)
                                && problem.place().line() > 0),
                () -> read.problems().toString());
    }

    @Test
    void aRegisterLiesBesideTheRigsFile() {
        assertFalse(Files.notExists(RegisterReader.registerOf(COMMITTED.resolveSibling(RigFiles.FILE_NAME))));
    }
}
