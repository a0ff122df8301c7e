package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.report.register.AnswerCheck;
import snagbench.bench.report.register.AnswerChecker;
import snagbench.bench.report.register.DecisionTable;
import snagbench.bench.report.register.DecisionTableMaker;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.read.RegisterReader;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.session.Shuttle;
import snagbench.bench.trace.TraceFile;

/**
 * The shuttle's register says just what its control code does: when a fail-safe answered, its symptom had been there for its time;
 * and when a symptom had been there for its time, it answered.
 */
class RegisterAgainstTracesTests {
    private static final RigFile RIG = Shuttle.file();
    private static final RigDescription DESCRIPTION = Shuttle.description();

    @TempDir
    Path folder = Path.of("");

    private static Path committed() {
        return Shuttle.root().resolve("fixtures/seedling-shuttle/failsafes.yaml");
    }

    private static FailSafeRegister read(Path file) {
        return RegisterReader.read(file, DESCRIPTION, RIG).value().orElseThrow();
    }

    private AnswerCheck lay(FailSafeRegister register, List<FaultScript> scripts, int seed) throws Exception {
        DecisionTable table = DecisionTableMaker.of(register, DESCRIPTION.step().orElseThrow());
        AnswerChecker checker = new AnswerChecker(register, RIG, DESCRIPTION, table);
        Runs runs = Runs.on("standard").of(seed, scripts.toArray(FaultScript[]::new));
        for (ScriptResult result : runs.run().results()) {
            Path file = Files.write(folder.resolve("one.trace"), runs.trace(result));
            checker.look(
                    result.script() + ", seed " + seed, TraceFile.read(file).trace(), false);
        }
        return checker.result();
    }

    private static Set<String> answering(AnswerCheck check) {
        Set<String> names = new TreeSet<>();
        check.failSafes().stream()
                .filter(one -> one.withSymptom() > 0)
                .map(AnswerCheck.Counts::failSafe)
                .forEach(names::add);
        return names;
    }

    private static List<FaultScript> scripts(String... names) {
        List<FaultScript> scripts = new ArrayList<>();
        for (String name : names) {
            scripts.add(Shuttle.script(name));
        }
        return scripts;
    }

    @Test
    void symptomsAndAnswersAgreeInAScriptOfEachOfTheArmsFailSafes() throws Exception {
        AnswerCheck check = lay(
                read(committed()),
                scripts(
                        "reach-current-too-high",
                        "reach-blocked-midway",
                        "reach-stopped-short-in-the-rack-zone",
                        "throat-clear-on-the-way-home",
                        "caught-behind-the-carriage",
                        "pot-meets-the-rim",
                        "throat-still-broken",
                        "encoder-frozen",
                        "reach-motor-dead"),
                1);

        assertEquals(List.of(), check.findings());
        assertEquals(Set.of("FS-01", "FS-02", "FS-03", "FS-04", "FS-05", "FS-06", "FS-09", "FS-12"), answering(check));
    }

    @Test
    @Tag("long")
    void symptomsAndAnswersAgreeInEveryScriptOnSeveralSeeds() throws Exception {
        FailSafeRegister register = read(committed());
        List<FaultScript> all = new ArrayList<>();
        Set<Path> files = new TreeSet<>();
        register.entries().forEach(entry -> files.addAll(entry.scripts()));
        for (Path file : files) {
            all.addAll(ScriptReader.readAll(file, DESCRIPTION, RIG).value().orElseThrow());
        }
        for (int seed = 1; seed <= 3; seed++) {
            AnswerCheck check = lay(register, all, seed);

            assertEquals(List.of(), check.findings(), "seed " + seed);
            assertEquals(12, answering(check).size(), "seed " + seed + ": " + check.failSafes());
        }
    }

    private AnswerCheck spoilt(String was, String becomes, String... scripts) throws Exception {
        String text = Files.readString(committed())
                .replace(
                        "../../test-plans", Shuttle.root().resolve("test-plans").toString());
        assertTrue(text.contains(was), was);
        Path file = Files.writeString(folder.resolve("failsafes.yaml"), text.replace(was, becomes));
        return lay(read(file), scripts(scripts), 1);
    }

    @Test
    void aLimitThatIsNotTheControlCodesIsFound() throws Exception {
        List<AnswerCheck.Finding> findings = spoilt(
                        "reach.current: above 4.5 A", "reach.current: above 9 A", "reach-current-too-high")
                .findings();

        assertEquals(1, findings.size(), findings::toString);
        assertEquals(AnswerCheck.Kind.WITHOUT_SYMPTOM, findings.get(0).kind());
        assertEquals("FS-01", findings.get(0).failSafe());
    }

    @Test
    void aSymptomThatNobodyAnswersIsFound() throws Exception {
        List<AnswerCheck.Finding> findings = spoilt(
                        "          gripper.command.real: closed     # only then it was with a pot\n",
                        "",
                        "reach-blocked-midway")
                .findings();

        assertEquals(1, findings.size(), findings::toString);
        assertEquals(AnswerCheck.Kind.WITHOUT_ANSWER, findings.get(0).kind());
        assertEquals("FS-04", findings.get(0).failSafe());
        assertTrue(
                findings.get(0).readings().stream().anyMatch(one -> one.words().equals("DRAWING_BACK")),
                findings::toString);
    }

    @Test
    void aTimeThatIsNotTheControlCodesIsFound() throws Exception {
        List<AnswerCheck.Finding> findings =
                spoilt("held: 300 ms", "held: 100 ms", "encoder-frozen").findings();

        assertEquals(1, findings.size(), findings::toString);
        assertEquals(AnswerCheck.Kind.WITHOUT_ANSWER, findings.get(0).kind());
        assertEquals("FS-12", findings.get(0).failSafe());
    }

    /** As if FS-05, which comes behind FS-01, and FS-07, which comes before it, looked for the same and sooner. */
    @Test
    void whoAnsweredWhereSeveralHadASymptomIsTold() throws Exception {
        String alike = "        - { step: REACHING, reach.current: above 4.5 A, held: 40 ms, step-lasted: 0 ms }\n";
        String later = "        - { step: DRAWING_BACK, reach.position: at least 330 mm,";
        String before = "        - step: COMING_BACK\n";

        AnswerCheck inTurn = spoilt(later, alike + later, "reach-current-too-high");
        AnswerCheck outOfTurn = spoilt(before, alike + before, "reach-current-too-high");

        assertEquals(List.of(), inTurn.findings());
        assertEquals(List.of(new AnswerCheck.Together("FS-01", List.of("FS-05"), 1)), inTurn.together());
        assertEquals(1, outOfTurn.findings().size(), () -> outOfTurn.findings().toString());
        assertEquals(AnswerCheck.Kind.OUT_OF_ORDER, outOfTurn.findings().get(0).kind());
        assertEquals(Optional.of("FS-07"), outOfTurn.findings().get(0).other());
    }

    @Test
    void aFailSafeThatIsLeftOutIsNotAskedForItsAnswer() throws Exception {
        FaultScript script = Shuttle.script("reach-blocked-midway");
        FaultScript without = new FaultScript(
                script.place(),
                script.name(),
                script.failSafes(),
                script.why(),
                script.needs(),
                script.begin(),
                script.injections(),
                script.expectations(),
                script.end(),
                List.of(script.failSafes().get(0)),
                script.derived(),
                script.variant());

        AnswerCheck check = lay(read(committed()), List.of(without), 1);

        assertEquals(List.of(), check.findings());
        assertEquals(
                0, check.failSafes().get(1).symptoms(), () -> check.failSafes().toString());
    }

    /** What is read of the shuttle's register is stated in its page; more would have to be looked at. */
    @Test
    void theShuttlesOverlapsAreAllDecidedByItsOrder() throws IOException {
        DecisionTable table =
                DecisionTableMaker.of(read(committed()), DESCRIPTION.step().orElseThrow());

        assertEquals(List.of(), table.undecided());
        assertEquals(List.of("FS-13: its symptoms are words alone"), table.leftOut());
        assertEquals(
                Optional.empty(),
                table.holes(DecisionTable.Kind.BETWEEN).stream()
                        .filter(hole -> !hole.channel().equals("reach.position"))
                        .findFirst());
    }
}
