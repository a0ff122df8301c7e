package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Problem;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.Shuttle;

/** One file that stands for many scripts. */
class VariedScriptsTests {
    private static final RigDescription RIG = Shuttle.description();
    private static final RigFile RIG_FILE = Shuttle.file();

    @TempDir
    Path folder = Path.of("");

    private Checked<List<FaultScript>> read(String vary, String when, String fault) throws IOException {
        Path file = folder.resolve("varied.fault.yaml");
        Files.writeString(file, """
                fault-script: blocked
                vary: %s
                inject:
                  - name: blocked
                    when: { step: REACHING, reach.position: %s }
                    channels: { reach.current: %s }
                expect:
                  - answered-by: FS-01
                    within: 1 s
                """.formatted(vary, when, fault));
        return ScriptReader.readAll(file, RIG, RIG_FILE);
    }

    private static List<String> shown(Checked<List<FaultScript>> read) {
        return read.value().orElseThrow().stream()
                .map(script -> script.variant().orElseThrow().show())
                .toList();
    }

    @Test
    void textsAreVariedToo() throws IOException {
        Checked<List<FaultScript>> read =
                read("{ how: [freeze, stuck-at 4.2 A, offset 1 A] }", "at least 40 mm", "$how");

        assertEquals(List.of("how freeze", "how stuck-at 4.2 A", "how offset 1 A"), shown(read));
        List<Class<?>> kinds = new ArrayList<>();
        read.value()
                .orElseThrow()
                .forEach(script -> kinds.add(
                        script.injections().get(0).forcings().get(0).fault().getClass()));
        assertEquals(List.of(Fault.Freeze.class, Fault.StuckAt.class, Fault.Offset.class), kinds);

        Checked<List<FaultScript>> wrong = read("{ how: [freeze, freze] }", "at least 40 mm", "$how");
        assertTrue(wrong.hasErrors());
        String told = wrong.problems().get(0).toString();
        assertTrue(told.contains("with how freze: there is no fault") && told.contains("did you mean"), told);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "20 mm .. 400 mm in 3; at 20 mm, at 210 mm, at 400 mm",
                "20 mm .. 400 mm in 4; at 20 mm, at 147 mm, at 273 mm, at 400 mm",
                "20.0 mm .. 400 mm in 4; at 20.0 mm, at 146.7 mm, at 273.3 mm, at 400.0 mm",
                "20 mm .. 110 mm by 40 mm; at 20 mm, at 60 mm, at 100 mm",
                "[5 mm, 1.5 cm]; at 5 mm, at 1.5 cm",
                "30 mm; at 30 mm",
            })
    void valuesAreSpreadEvenlyOrStepByStep(String values, String variants) throws IOException {
        Checked<List<FaultScript>> read = read("{ at: " + values + " }", "at least $at", "stuck-at 5 A");

        assertEquals(List.of(), read.problems());
        assertEquals(List.of(variants.split(", ")), shown(read));
    }

    @Test
    void theValuesStandInTheScripts() throws IOException {
        Checked<List<FaultScript>> read = read("{ at: [5 mm, 1.5 cm] }", "at least $at", "stuck-at 5 A");

        List<Integer> raw = read.value().orElseThrow().stream()
                .map(script ->
                        script.injections().get(0).trigger().when().terms().get(1))
                .map(term -> ((Condition.Compares) term).raw())
                .toList();
        assertEquals(List.of(50, 150), raw);
    }

    @Test
    void severalParametersGiveAllCombinations() throws IOException {
        Checked<List<FaultScript>> read =
                read("{ at: [5 mm, 9 mm], current: [4 A, 5 A, 6 A] }", "at least $at", "stuck-at $current");

        assertEquals(
                List.of(
                        "at 5 mm, current 4 A",
                        "at 5 mm, current 5 A",
                        "at 5 mm, current 6 A",
                        "at 9 mm, current 4 A",
                        "at 9 mm, current 5 A",
                        "at 9 mm, current 6 A"),
                shown(read));
    }

    @Test
    void whatIsWrongWithSomeOfThemNamesTheFirst() throws IOException {
        Checked<List<FaultScript>> read =
                read("{ current: 4.000 A .. 4.009 A in 10 }", "at least 5 mm", "stuck-at $current");

        assertEquals(Optional.empty(), read.value());
        assertEquals(1, read.problems().size());
        Problem problem = read.problems().get(0);
        assertEquals(6, problem.place().line());
        assertTrue(
                problem.message().startsWith("with current 4.001 A (and 8 more): 4.001 A lies between two values"),
                problem::message);
    }

    @Test
    void whatIsWrongWithAllOfThemIsToldOnceAsItIs() throws IOException {
        Checked<List<FaultScript>> read = read("{ at: [5 mm, 9 mm] }", "at least $at", "stuk-at 5 A");

        assertEquals(1, read.problems().size());
        assertEquals("there is no fault \"stuk-at\"", read.problems().get(0).message());
    }

    @Test
    void aNameThatNothingVariesIsTold() throws IOException {
        Checked<List<FaultScript>> read = read("{ at: [5 mm, 9 mm] }", "at least $att", "stuck-at 5 A");

        Problem problem = read.problems().stream()
                .filter(one -> one.message().contains("nothing is varied"))
                .findFirst()
                .orElseThrow();
        assertEquals(5, problem.place().line());
        assertTrue(problem.cure().contains("did you mean \"at\"?"), problem::cure);
    }
}
