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
                slip("{ repeat: 22 }", "§{}", "error: lacks \"repeat\" | repeat: 5"),
                slip(
                        "scripts:\n",
                        "scripts: §[]\n§between:\n",
                        "error: a list of scripts is empty",
                        "error: \"between\" is not in this version"),
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
                slip("reserve: 5 s", "reserve: 5 s\n§control-runs: { no-fault: true }", "error: not in this version"),
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
