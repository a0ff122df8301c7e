package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Problem;

/** Where a rig's file is looked for, and what is told when it is nowhere. */
class RigFinderTests {
    @TempDir
    Path top = Path.of("");

    private Path plan = Path.of("");

    @BeforeEach
    void writeAPlan() throws IOException {
        plan = Files.createDirectories(top.resolve("project/test-plans/shuttle"))
                .resolve("first.plan.yaml");
        Files.writeString(plan, "test-plan: x\nrig: shuttle\n");
    }

    private Path rig(String folder) throws IOException {
        return Files.createFile(Files.createDirectories(top.resolve(folder)).resolve(RigFiles.FILE_NAME));
    }

    @Test
    void isFoundInAFolderAboveThePlan() throws IOException {
        Path rig = rig("project/fixtures/shuttle");

        assertEquals(
                Optional.of(rig),
                RigFinder.find("shuttle", plan, top.resolve("elsewhere")).value());
    }

    @Test
    void theNearestToThePlanIsTaken() throws IOException {
        rig("fixtures/shuttle");
        rig("elsewhere/fixtures/shuttle");
        Path nearest = rig("project/test-plans/fixtures/shuttle");

        assertEquals(
                Optional.of(nearest),
                RigFinder.find("shuttle", plan, top.resolve("elsewhere")).value());
    }

    @Test
    void isFoundAboveTheCurrentFolderOtherwise() throws IOException {
        Path rig = rig("elsewhere/fixtures/shuttle");
        Path current = Files.createDirectories(top.resolve("elsewhere/deep/down"));

        assertEquals(Optional.of(rig), RigFinder.find("shuttle", plan, current).value());
    }

    @Test
    void isShownAsTheUserWouldWriteIt() throws IOException {
        rig("project/fixtures/shuttle");

        assertEquals(
                Optional.of(Path.of("fixtures", "shuttle", "rig.yaml")),
                RigFinder.find("shuttle", Path.of("test-plans/shuttle/first.plan.yaml"), top.resolve("project"))
                        .value());
    }

    @Test
    void aNameThatNoFolderCanHaveIsNowhere() {
        assertEquals(
                Optional.empty(),
                RigFinder.find("\u0000", plan, top.resolve("elsewhere")).value());
    }

    @Test
    void aRigThatIsNowhereIsToldAtThePlansLineWithTheNearestThereIs() throws IOException {
        rig("project/fixtures/shuttel");
        rig("project/fixtures/crane");

        Checked<Path> checked = RigFinder.find("shuttle", plan, top);

        assertEquals(Optional.empty(), checked.value());
        Problem problem = checked.problems().get(0);
        assertEquals(plan + ":2:6", problem.place().toString());
        assertEquals("there is no rig \"shuttle\"", problem.message());
        assertTrue(problem.cure().startsWith("did you mean \"shuttel\"?"), problem.cure());
        assertTrue(
                problem.cure()
                        .contains("There are: crane, shuttel. Looked for fixtures/shuttle/rig.yaml in "
                                + plan.getParent()),
                problem.cure());
    }

    @Test
    void whatElseIsWrongWithThePlanIsNotTold() throws IOException {
        Files.write(plan, new byte[] {'x', ':', ' ', (byte) 0xe9, '\n'});

        Checked<Path> checked = RigFinder.find("shuttle", plan, top);

        assertEquals(
                List.of("there is no rig \"shuttle\""),
                checked.problems().stream().map(Problem::message).toList());
    }

    @Test
    void aFolderWithoutItsFileIsNoRig() throws IOException {
        Files.createDirectories(top.resolve("project/fixtures/shuttle"));

        assertTrue(RigFinder.find("shuttle", plan, top).hasErrors());
    }
}
