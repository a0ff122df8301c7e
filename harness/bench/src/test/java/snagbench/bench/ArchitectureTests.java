package snagbench.bench;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaModifier.FINAL;
import static com.tngtech.archunit.core.domain.JavaModifier.STATIC;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The arrows of the house, and the promises that can be read off the classes. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ArchitectureTests {
    private static final String BENCH = "snagbench.bench.";

    /** Which stages a stage may know; none that is not named. */
    private static final Map<String, List<String>> MAY_KNOW = Map.ofEntries(
            Map.entry("script", List.of()),
            Map.entry("link", List.of()),
            Map.entry("serve", List.of()),
            Map.entry("session", List.of("link", "script", "trace")),
            Map.entry("trace", List.of("script")),
            Map.entry("judge", List.of("script", "trace")),
            Map.entry("evidence", List.of("script", "judge")),
            Map.entry("run", List.of("script", "link", "session", "trace", "judge", "evidence")),
            Map.entry("explain", List.of("script")),
            Map.entry("report", List.of("script", "trace", "judge", "evidence", "run", "explain")),
            Map.entry(
                    "cli",
                    List.of(
                            "script",
                            "link",
                            "serve",
                            "session",
                            "trace",
                            "judge",
                            "evidence",
                            "run",
                            "report",
                            "explain")));

    private JavaClasses all = new ClassFileImporter().importPackages("snagbench.nothing");

    @BeforeAll
    void readClasses() {
        all = new ClassFileImporter()
                .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
                .importPackages("snagbench");
    }

    /** No rule may pass because it looked at nothing. */
    @ParameterizedTest
    @CsvSource({
        "snagbench.wire, 25",
        "snagbench.probe, 20",
        "snagbench.virtualrig, 15",
        "snagbench.bench.script, 30",
        "snagbench.bench.link, 15",
        "snagbench.bench.serve, 10",
        "snagbench.bench.session, 8",
        "snagbench.bench.trace, 5",
        "snagbench.bench.judge, 6",
        "snagbench.bench.evidence, 10",
        "snagbench.bench.run, 10",
        "snagbench.bench.explain, 5",
        "snagbench.bench.report, 4",
        "snagbench.bench.cli, 10"
    })
    void everyRoomHasClassesToLookAt(String room, int atLeast) {
        long found = all.stream().filter(resideInAPackage(room + "..")).count();
        assertTrue(found >= atLeast, room + ": " + found + " classes, at least " + atLeast + " wanted");
    }

    static List<String> stages() {
        return MAY_KNOW.keySet().stream().sorted().toList();
    }

    @ParameterizedTest
    @MethodSource("stages")
    void aStageKnowsOnlyTheStagesItMay(String stage) {
        String[] forbidden = MAY_KNOW.keySet().stream()
                .filter(other -> !other.equals(stage)
                        && !MAY_KNOW.getOrDefault(stage, List.of()).contains(other))
                .map(other -> BENCH + other + "..")
                .toArray(String[]::new);
        if (forbidden.length > 0) {
            noClasses()
                    .that()
                    .resideInAPackage(BENCH + stage + "..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAnyPackage(forbidden)
                    .check(all);
        }
    }

    @Test
    void everyPackageOfTheBenchIsAStage() {
        String[] known =
                MAY_KNOW.keySet().stream().map(stage -> BENCH + stage + "..").toArray(String[]::new);
        classes()
                .that()
                .resideInAPackage("snagbench.bench..")
                .should()
                .resideInAnyPackage(known)
                .check(all);
    }

    @Test
    void packagesHaveNoCycles() {
        slices().matching("snagbench.(**)").should().beFreeOfCycles().check(all);
    }

    @Test
    void theWireStandsOnNothingButJava() {
        classes()
                .that()
                .resideInAPackage("snagbench.wire..")
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage("snagbench.wire..", "java..", "org.jspecify..")
                .check(all);
    }

    @Test
    void theProbeStandsOnTheWireAlone() {
        classes()
                .that()
                .resideInAPackage("snagbench.probe..")
                .should()
                .onlyDependOnClassesThat()
                .resideInAnyPackage("snagbench.probe..", "snagbench.wire..", "java..", "org.jspecify..")
                .check(all);
    }

    @Test
    void theVirtualRigKnowsNothingOfTheBench() {
        noClasses()
                .that()
                .resideInAPackage("snagbench.virtualrig..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("snagbench.bench..")
                .check(all);
    }

    @Test
    void theBenchReachesVirtualRigsByTheirInterfaceOnly() {
        noClasses()
                .that()
                .resideInAPackage("snagbench.bench..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("snagbench.virtualrig..")
                .check(all);
    }

    @Test
    void thePlantKnowsNeitherControlCodeNorProbe() {
        noClasses()
                .that()
                .resideInAPackage("snagbench.virtualrig.plant..")
                .should()
                .dependOnClassesThat(resideInAnyPackage("snagbench.probe..", "snagbench.wire..")
                        .or(resideInAnyPackage("snagbench.virtualrig.controller..", "snagbench.virtualrig.shuttle..")))
                .check(all);
    }

    @Test
    void oneClassTouchesTheSerialLibrary() {
        DescribedPredicate<JavaClass> device =
                DescribedPredicate.describe("SerialDevice and what is in it", one -> one.getName()
                        .matches("snagbench\\.bench\\.link\\.SerialDevice(\\$.*)?"));
        noClasses()
                .that(DescribedPredicate.not(device))
                .should()
                .dependOnClassesThat()
                .resideInAPackage("com.fazecast..")
                .check(all);
        boolean touched = all.stream()
                .filter(device)
                .flatMap(one -> one.getDirectDependenciesFromSelf().stream())
                .anyMatch(to -> to.getTargetClass().getPackageName().startsWith("com.fazecast"));
        assertTrue(touched, "the rule looks at the class that it is about");
    }

    @Test
    void oneClassWaitsByPolling() {
        DescribedPredicate<JavaClass> waiting = named("snagbench.bench.link.PortReturn");
        noClasses()
                .that(DescribedPredicate.not(waiting))
                .should()
                .dependOnClassesThat()
                .resideInAPackage("org.awaitility..")
                .check(all);
        boolean waits = all.stream()
                .filter(waiting)
                .flatMap(one -> one.getDirectDependenciesFromSelf().stream())
                .anyMatch(to -> to.getTargetClass().getPackageName().startsWith("org.awaitility"));
        assertTrue(waits, "the rule looks at the class that it is about");
    }

    @Test
    void systemCallsAreMadeWhereTheLineIs() {
        noClasses()
                .that()
                .resideOutsideOfPackages("snagbench.bench.link..", "snagbench.bench.serve..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("com.sun.jna..")
                .check(all);
    }

    @Test
    void nobodySleeps() {
        noClasses().should().callMethod(Thread.class, "sleep", long.class).check(all);
        noClasses()
                .should()
                .callMethod(Thread.class, "sleep", java.time.Duration.class)
                .check(all);
    }

    @Test
    void onlyTheCommandLineAsksTheSystemForTime() {
        noClasses()
                .that()
                .resideOutsideOfPackage("snagbench.bench.cli..")
                .should()
                .callMethod(System.class, "currentTimeMillis")
                .orShould()
                .callMethod(System.class, "nanoTime")
                .orShould()
                .callMethod(java.time.Instant.class, "now")
                .orShould()
                .callMethod(java.time.LocalDateTime.class, "now")
                .orShould()
                .callMethod(java.time.Clock.class, "systemUTC")
                .orShould()
                .callMethod(java.time.Clock.class, "systemDefaultZone")
                .check(all);
    }

    @Test
    void onlyTheCommandLineEndsTheProcess() {
        noClasses()
                .that()
                .resideOutsideOfPackage("snagbench.bench.cli..")
                .should()
                .callMethod(System.class, "exit", int.class)
                .orShould()
                .callMethod(Runtime.class, "halt", int.class)
                .check(all);
    }

    @Test
    void theJudgeDoesNoInputOrOutputAndReadsNoClock() {
        noClasses()
                .that()
                .resideInAPackage("snagbench.bench.judge..")
                .should()
                .dependOnClassesThat(resideInAnyPackage("java.io..", "java.time..", "java.nio.channels..", "java.net..")
                        .or(named("java.nio.file.Files"))
                        .or(resideInAnyPackage("tools.jackson..")))
                .check(all);
    }

    @Test
    void evidenceIsPure() {
        noClasses()
                .that()
                .resideInAPackage("snagbench.bench.evidence..")
                .should()
                .dependOnClassesThat(
                        resideInAnyPackage("java.io..", "java.time..", "java.nio..", "java.net..", "tools.jackson.."))
                .check(all);
    }

    @Test
    void theTraceIsMadeWithoutThreadsOrTime() {
        noClasses()
                .that()
                .resideInAnyPackage("snagbench.bench.trace..", "snagbench.bench.script..", "snagbench.wire..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.util.concurrent..", "java.time..")
                .check(all);
    }

    @Test
    void nothingStaticCanChange() {
        fields().that()
                .haveModifier(STATIC)
                .and()
                .areDeclaredInClassesThat()
                .resideInAPackage("snagbench..")
                .should()
                .haveModifier(FINAL)
                .check(all);
    }

    private static DescribedPredicate<JavaClass> named(String name) {
        return DescribedPredicate.describe(name, one -> one.getName().equals(name));
    }
}
