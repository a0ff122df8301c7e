package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Between;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Place;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stage;
import snagbench.bench.script.TestPlan;

/** What becomes of files without a fault. */
class GoodFilesTests {
    private static final RigDescription RIG = ShuttleDescription.virtual();

    @TempDir
    Path folder = Path.of("");

    static List<Path> committedScripts() {
        return GoodFiles.committed("test-plans", ".fault.yaml");
    }

    static List<Path> committedPlans() {
        return GoodFiles.committed("test-plans", ".plan.yaml");
    }

    static List<Path> committedRigs() {
        return GoodFiles.committed("fixtures", RigFiles.FILE_NAME);
    }

    private static <T> T good(Checked<T> checked) {
        assertEquals(List.of(), checked.problems());
        return checked.value().orElseThrow();
    }

    private static ChannelDescription channel(String name) {
        return RIG.channel(name).orElseThrow();
    }

    private static Condition.Compares compares(Place place, String channel, Relation relation, int raw) {
        return new Condition.Compares(place, channel(channel), Source.REAL, relation, raw);
    }

    @ParameterizedTest
    @MethodSource("committedRigs")
    void everyCommittedRigIsGood(Path file) {
        RigFile rig = good(RigFiles.readRig(file, Optional.empty()));

        assertTrue(Files.isRegularFile(rig.snapshot()));
    }

    @ParameterizedTest
    @MethodSource("committedPlans")
    void everyCommittedPlanIsGood(Path file) {
        TestPlan plan = good(PlanReader.read(file));

        good(RigFinder.find(plan.rig(), file, folder));
    }

    @ParameterizedTest
    @MethodSource("committedScripts")
    void everyCommittedScriptIsGoodForItsRig(Path file) {
        Path rigFile = GoodFiles.project().resolve("fixtures").resolve("seedling-shuttle/rig.yaml");
        RigFile rig = good(RigFiles.readRig(rigFile, Optional.empty()));
        RigDescription description = good(Snapshots.read(rig.snapshot()));

        good(ScriptReader.read(file, description, rig));
    }

    @Test
    void aScriptBecomesItsModelInStepsAndMicroseconds() throws IOException {
        Path file = Files.writeString(folder.resolve("reach.fault.yaml"), GoodFiles.SCRIPT);
        FailSafeDescription failSafe = RIG.failSafe("FS-02").orElseThrow();

        FaultScript script = good(ScriptReader.read(file, RIG));

        Injection injection = new Injection(
                new Place(file, 13, 5),
                "blocked",
                new Condition(
                        new Place(file, 14, 11),
                        List.of(
                                compares(new Place(file, 14, 13), "step", Relation.IS, 2),
                                compares(new Place(file, 14, 29), "reach.position", Relation.AT_LEAST, 1800))),
                List.of(
                        new Injection.Forcing(new Place(file, 16, 7), channel("reach.position"), new Fault.Freeze()),
                        new Injection.Forcing(
                                new Place(file, 17, 7), channel("reach.current"), new Fault.StuckAt(420))),
                Optional.empty(),
                Optional.of(new Condition(
                        new Place(file, 18, 12), List.of(new Condition.Answers(new Place(file, 18, 14), failSafe)))),
                OptionalLong.of(900_000));
        Condition drawingBack = new Condition(
                new Place(file, 27, 14), List.of(compares(new Place(file, 27, 16), "step", Relation.IS, 4)));
        Condition enough = new Condition(
                new Place(file, 30, 13),
                List.of(compares(new Place(file, 30, 15), "battery.voltage", Relation.ABOVE, 700)));
        Condition givenUp = new Condition(
                new Place(file, 31, 12), List.of(compares(new Place(file, 31, 14), "step", Relation.IS, 7)));
        FaultScript expected = new FaultScript(
                new Place(file, 1, 1),
                "reach blocked midway",
                List.of(failSafe),
                "Something stands in the arm's way.",
                Set.of(FaultScript.Need.MOTION),
                List.of(
                        new Stage.Send(new Place(file, 8, 5), channel("start-run"), 1),
                        new Stage.WaitFor(
                                new Place(file, 9, 5),
                                new Condition(
                                        new Place(file, 9, 15),
                                        List.of(compares(new Place(file, 9, 17), "step", Relation.IS, 2))),
                                2_000_000)),
                List.of(injection),
                List.of(
                        new Expectation.AnsweredBy(
                                new Place(file, 22, 5),
                                "sees it",
                                failSafe,
                                new Expectation.Window(80_000, 250_000),
                                new Anchor.OfInjection(0, "blocked"),
                                true),
                        new Expectation.Becomes(
                                new Place(file, 26, 5),
                                "tries again",
                                drawingBack,
                                new Expectation.Window(0, 3_000_000),
                                new Anchor.OfExpectation(0, "sees it")),
                        new Expectation.Always(new Place(file, 30, 5), "always battery.voltage above 7.00 V", enough),
                        new Expectation.Never(new Place(file, 31, 5), "never step GIVEN_UP", givenUp)),
                Optional.of(new FaultScript.End(
                        new Place(file, 33, 6), 4_000_000, new Anchor.OfExpectation(0, "sees it"))));
        assertEquals(expected, script);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                // Where a figure lies between two values of the channel (steps of 0.1 mm), the comparison stays exact.
                "at least 18 cm; AT_LEAST; 1800",
                "at least 180.04 mm; AT_LEAST; 1801",
                "above 180.04 mm; ABOVE; 1800",
                "at most 180.04 mm; AT_MOST; 1800",
                "below 180.04 mm; BELOW; 1801",
                "at least -0.04 mm; AT_LEAST; 0",
                "above -0.04 mm; ABOVE; -1",
                "'>= 0.18 m'; AT_LEAST; 1800",
                "'>180 mm'; ABOVE; 1800",
                "'<= 180mm'; AT_MOST; 1800",
                "'< 180000 um'; BELOW; 1800",
                "'= 180 mm'; IS; 1800",
                "'== 180 mm'; IS; 1800",
                "'!= 180 mm'; IS_NOT; 1800",
                "is 180 mm; IS; 1800",
                "is not 180.0 mm; IS_NOT; 1800",
                "180 mm; IS; 1800",
                "at   least +180 mm; AT_LEAST; 1800",
            })
    void aComparisonIsReadInWordsAndSigns(String written, Relation relation, int raw) throws IOException {
        String text = GoodFiles.SCRIPT.replace("at least 180 mm", "\"" + written + "\"");
        Path file = Files.writeString(folder.resolve("reach.fault.yaml"), text);

        FaultScript script = good(ScriptReader.read(file, RIG));

        Condition.Term term =
                script.injections().get(0).trigger().when().terms().get(1);
        assertEquals(compares(new Place(file, 14, 29), "reach.position", relation, raw), term);
    }

    static List<Object[]> faults() {
        return List.of(
                new Object[] {"stuck-at 420 mA", new Fault.StuckAt(42)},
                new Object[] {"freeze", new Fault.Freeze()},
                new Object[] {"offset -1.5 A", new Fault.Offset(-150, 0)},
                new Object[] {"offset 6 A over 200 ms", new Fault.Offset(600, 200_000)},
                // 600 steps take 1200.0000006 us at the greatest rate.
                new Object[] {"offset 6 A over 1201 us", new Fault.Offset(600, 1201)},
                new Object[] {"offset 0.01 A over 2147483647 us", new Fault.Offset(1, 2147483647)},
                new Object[] {"spike 8 A", new Fault.Spike(800, OptionalLong.empty())},
                new Object[] {"spike -8 A for 30 ms", new Fault.Spike(-800, OptionalLong.of(30_000))});
    }

    @ParameterizedTest
    @MethodSource("faults")
    void aFaultIsReadInStepsOfItsChannel(String written, Fault fault) throws IOException {
        Path file = Files.writeString(
                folder.resolve("reach.fault.yaml"), GoodFiles.SCRIPT.replace("stuck-at 4.2 A", written));

        FaultScript script = good(ScriptReader.read(file, RIG));

        assertEquals(fault, script.injections().get(0).forcings().get(1).fault());
    }

    @Test
    void whatMayBeLeftOutMayBeLeftOut() throws IOException {
        Path file = Files.writeString(folder.resolve("short.fault.yaml"), """
                fault-script: short
                inject:
                  - when: { reach.position: at least 10 mm }
                    channels: { obstacle.position: stuck-at 220 mm, inhibit FS-01: stuck-at 1 }
                expect:
                  - answered-by: FS-02
                    within: 250 ms
                  - must-not-fire: FS-03
                """);

        FaultScript script = good(ScriptReader.read(file, RIG));

        assertEquals("injection 1", script.injections().get(0).name());
        assertEquals(
                List.of("FS-02 answers", "FS-03 must not fire"),
                script.expectations().stream().map(Expectation::name).toList());
        assertEquals(
                new Anchor.OfInjection(0, "injection 1"),
                ((Expectation.Timed) script.expectations().get(0)).after());
        assertEquals(Optional.empty(), script.end());
        assertEquals(List.of(), script.begin());
    }

    @Test
    void expectationsWithoutNamesGetNamesThatDiffer() throws IOException {
        String twice = "  - never: { step: GIVEN_UP }\n";
        Path file =
                Files.writeString(folder.resolve("reach.fault.yaml"), GoodFiles.SCRIPT.replace(twice, twice + twice));

        FaultScript script = good(ScriptReader.read(file, RIG));

        List<String> names =
                script.expectations().stream().map(Expectation::name).toList();
        assertEquals(List.of("never step GIVEN_UP", "never step GIVEN_UP (2)"), names.subList(3, 5));
    }

    @Test
    void aPlanBecomesItsModel() throws IOException {
        Files.createFile(folder.resolve("blocked.fault.yaml"));
        Files.createFile(folder.resolve("grip.fault.yaml"));
        Path file = Files.writeString(folder.resolve("first.plan.yaml"), GoodFiles.PLAN);

        TestPlan plan = good(PlanReader.read(file));

        TestPlan expected = new TestPlan(
                new Place(file, 1, 1),
                "first light",
                "seedling-shuttle",
                Optional.of("standard"),
                30_000_000,
                5_000_000,
                Between.nothing(),
                List.of(
                        new TestPlan.PlannedScript(
                                new Place(file, 7, 5),
                                folder.resolve("blocked.fault.yaml"),
                                OptionalInt.empty(),
                                Optional.empty()),
                        new TestPlan.PlannedScript(
                                new Place(file, 8, 5),
                                folder.resolve("grip.fault.yaml"),
                                OptionalInt.of(22),
                                Optional.empty())));
        assertEquals(expected, plan);
    }
}
