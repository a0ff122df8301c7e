package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.script.read.Variant.slip;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Problem;
import snagbench.bench.script.TestPlan;

/** A good plan with one slip: what is told, where, and what would do. */
class BrokenPlanTests {
    @TempDir
    Path folder = Path.of("");

    @BeforeEach
    void putScriptsBesideIt() throws IOException {
        Files.createFile(folder.resolve("blocked.fault.yaml"));
        Files.createFile(folder.resolve("grip.fault.yaml"));
        Files.createDirectory(folder.resolve("later.fault.yaml"));
    }

    @ParameterizedTest
    @MethodSource("slips")
    void tellsWhereWhatAndWhatWouldDo(Variant variant) throws IOException {
        variant.check(GoodFiles.PLAN, folder.resolve("first.plan.yaml"), PlanReader::read);
    }

    static List<Variant> slips() {
        return List.of(
                slip("blocked.f", "§bloked.f", "error: no script \"bloked.fault.yaml\" | \"blocked.fault.yaml\"?"),
                slip(
                        "grip.fault.yaml:",
                        "§grp.fault.yaml:",
                        "error: no script \"grp.fault.yaml\" | \"grip.fault.yaml\"?"),
                slip(
                        "blocked.fault.yaml",
                        "§blocked.falt.yaml",
                        "error: no script \"blocked.falt.yaml\" | did you mean \"blocked.fault.yaml\"?"),
                slip(
                        "blocked.fault.yaml",
                        "§later.fault.yaml",
                        "error: \"later.fault.yaml\" is a folder | name each script"),
                slip("blocked.fault.yaml", "§elsewhere/blocked.fault.yaml", "error: no script | there is no folder"),
                slip(
                        "blocked.fault.yaml",
                        "\"§blocked\\0.fault.yaml\"",
                        "error: is no file name | a file in the plan's folder"),
                slip(
                        "blocked.fault.yaml\n  - grip",
                        "grip.fault.yaml\n  - §grip",
                        "warning: in the plan already, in line 7 | { repeat: 2 }"),
                slip("repeat: 22", "repeat: §0", "error: \"0\" is not a number of repeats from 1 to 10000"),
                slip("repeat: 22", "repeat: §99999999999", "error: not a number of repeats | whole number"),
                slip("repeat: 22", "repeat: §many", "error: \"many\" is not a number of repeats"),
                slip("repeat: 22", "§repeats: 22", "error: no key \"repeats\" | did you mean \"repeat\"?"),
                slip(
                        "{ repeat: 22 }",
                        "§22",
                        "error: \"22\" stands where how a script is run is wanted | { repeat: 5 }"),
                slip("reserve: 5 s", "reserve: 5 s\nbetween: §{}", "error: \"between\" says nothing | rest: 20 s"),
                slip("repeat: 22", "repeat: §10001", "error: \"10001\" is not a number of repeats from 1 to 10000"),
                slip("{ repeat: 22 }", "§{}", "error: lacks \"repeat\" or \"claim\" | repeat: 5"),
                slip(
                        "scripts:\n",
                        "scripts: §[]\n§nothing:\n",
                        "error: a list of scripts is empty",
                        "error: no key \"nothing\""),
                slip("{ repeat: 22 }", "{ claim: { reliability: 90 %, confidence: 90 % } }"),
                slip("{ repeat: 22 }", "{ claim: { reliability: 99.5%, confidence: 50 %, allow-failures: 2 } }"),
                slip("{ repeat: 22 }", "{ claim: §90 % }", "error: stands where a claim is wanted | reliability: 90 %"),
                slip(
                        "{ repeat: 22 }",
                        "{ claim: §{ reliability: 90 % } }",
                        "error: a claim lacks \"confidence\" | add \"confidence: 90 %\""),
                slip(
                        "{ repeat: 22 }",
                        "{ claim: { reliability: §0 %, confidence: §100 % } }",
                        "error: a reliability of \"0 %\" | No number of runs shows that all, or any, would pass",
                        "error: a confidence of \"100 %\" | No number of runs makes sure"),
                slip(
                        "{ repeat: 22 }",
                        "{ claim: { reliability: §100.0 %, confidence: 90 % } }",
                        "error: between 0 % and 100 % | 90 % takes 22 runs"),
                slip(
                        "{ repeat: 22 }",
                        "{ claim: { reliability: §0.9, confidence: 90 % } }",
                        "error: \"0.9\" is no share in per cent | write it as \"90 %\""),
                slip(
                        "{ repeat: 22 }",
                        "{ claim: { reliability: 90 %, §confidence: 49 % } }",
                        "error: a confidence below 50 % | 90 % is common"),
                slip(
                        "{ repeat: 22 }",
                        "{ claim: { reliability: 90 %, confidence: 90 %, allow-failures: §-1 } }",
                        "error: \"-1\" is not a number of failures from 0 to 100"),
                slip(
                        "{ repeat: 22 }",
                        "{ claim: { reliability: 90 %, confidence: 90 %, §failures: 1 } }",
                        "error: a claim has no key \"failures\" | \"allow-failures\""),
                slip("reserve: 5 s", "reserve: 5 s\nclaim: { reliability: 80 %, confidence: 90 % }"),
                slip(
                        "blocked.fault.yaml\n  - grip.fault.yaml: { repeat: 22 }",
                        "grip.fault.yaml: { claim: { reliability: 90 %, confidence: 90 % } }\n  - §grip.fault.yaml",
                        "error: in the plan already, in line 7, and what is claimed of it is counted once | take one"),
                slip("reserve: 5 s", "reserve: 5 s\nbetween: { rest: 20 s }"),
                slip(
                        "reserve: 5 s",
                        "reserve: 5 s\nbetween: { rest: 20 s, start-only-if: { battery.voltage: at least 12.2 V }, give-up-after: 5 min }"),
                slip("reserve: 5 s", "reserve: 5 s\nbetween: §20 s", "error: what holds between two runs is wanted"),
                slip(
                        "reserve: 5 s",
                        "reserve: 5 s\nbetween: { §pause: 20 s, rest: §-1 s }",
                        "error: no key \"pause\"",
                        "error: a time below 0"),
                slip(
                        "reserve: 5 s",
                        "reserve: 5 s\nbetween: { rest: 20 s, §give-up-after: 1 min }",
                        "error: how long \"start-only-if\" is waited for | add \"start-only-if"),
                slip("rig: seedling-shuttle", "rig: §../elsewhere", "error: is no rig's name | its folder"),
                slip(
                        "test-plan: first light\nrig: seedling-shuttle\n",
                        "§test-plan: first light\n",
                        "error: lacks \"rig\" | rig: NAME"),
                slip("run-time: 30 s", "run-time: §30", "error: has no unit | \"30 ms\""),
                slip("run-time: 30 s", "run-time: §25 h", "error: \"h\" is no unit of time"),
                slip("run-time: 30 s", "run-time: §1441 min", "error: is too long | 24 h"),
                slip("reserve: 5 s", "§reserve: 31 s", "error: longer than the run itself | a part of the run time"),
                slip("reserve: 5 s", "reserve: §-5 s", "error: a time below 0"),
                slip("reserve: 5 s", "reserve: 0 s"),
                slip("reserve: 5 s", "reserve: 5 s\ncontrol-runs: { no-fault: true }"),
                slip("build: standard", "build: §[standard]", "error: a list stands where the name of a build"));
    }

    @Test
    void aPlanThatIsNotThereIsNamedWithTheNearestThatIs() throws IOException {
        Files.createFile(folder.resolve("first-light.plan.yaml"));

        Checked<TestPlan> checked = PlanReader.read(folder.resolve("first-ligth.plan.yaml"));

        Problem problem = checked.problems().get(0);
        assertEquals("there is no file \"" + folder.resolve("first-ligth.plan.yaml") + "\"", problem.message());
        assertEquals("did you mean \"first-light.plan.yaml\"?", problem.cure());
    }

    @Test
    void endingsThatAllFilesHaveMakeNoNameNear() throws IOException {
        Files.createFile(folder.resolve("deep.plan.yaml"));

        Checked<TestPlan> checked = PlanReader.read(folder.resolve("nowhere.plan.yaml"));

        assertEquals("", checked.problems().get(0).cure());
    }

    @Test
    void aFolderInPlaceOfAPlanIsToldAsOne() {
        Checked<TestPlan> checked = PlanReader.read(folder);

        Problem problem = checked.problems().get(0);
        assertEquals("\"" + folder + "\" is a folder, where a file is wanted", problem.message());
        assertEquals("", problem.cure());
    }
}
