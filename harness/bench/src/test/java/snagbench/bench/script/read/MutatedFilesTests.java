package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.Function;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Problem;
import snagbench.bench.script.RigDescription;

/** The project's own files, spoilt at random: nothing throws, and every problem lies inside its file and tells something. */
class MutatedFilesTests {
    private static final int SEEDS = 300;
    private static final int[] STRANGE = {
        ':', '-', '#', '{', '}', '[', ']', '"', '\'', '>', '|', '&', '*', '!', '%', '@', '`', ',', '?', '\t', '\n',
        '\r', ' ', '\\', '0', '9', '.', 0x7F, 0x85, 0xA0, 0x2028, 0x202E, 0xFEFF, 0x1F331, 0
    };

    private final RigDescription rig = Snapshots.read(committed("fixtures", RigFiles.SNAPSHOT_NAME))
            .value()
            .orElseThrow();

    @TempDir
    Path folder = Path.of("");

    private static Path committed(String under, String ending) {
        return GoodFiles.committed(under, ending).get(0);
    }

    @BeforeEach
    void putScriptsBesideThePlan() throws IOException {
        for (Path script : GoodFiles.committed("test-plans", ".fault.yaml")) {
            Files.copy(script, folder.resolve(script.getFileName()));
        }
    }

    @Test
    void spoiltScriptsAreToldOf() throws IOException {
        spoil(GoodFiles.committed("test-plans", ".fault.yaml"), file -> ScriptReader.read(file, rig), 0.5);
    }

    @Test
    void spoiltPlansAreToldOf() throws IOException {
        spoil(GoodFiles.committed("test-plans", ".plan.yaml"), PlanReader::read, 0.5);
    }

    @Test
    void spoiltRigFilesAreToldOf() throws IOException {
        spoil(
                GoodFiles.committed("fixtures", RigFiles.FILE_NAME),
                file -> RigFiles.readRig(file, Optional.of(rig)),
                0.3);
    }

    @Test
    void spoiltStoredDescriptionsAreToldOf() throws IOException {
        spoil(GoodFiles.committed("fixtures", RigFiles.SNAPSHOT_NAME), Snapshots::read, 0.5);
    }

    /** Spoils one of the files for each seed; at least so many of the results must have errors, or the test spoils little. */
    private void spoil(List<Path> good, Function<Path, Checked<?>> reader, double least) throws IOException {
        assertFalse(good.isEmpty());
        int refused = 0;
        for (long seed = 1; seed <= SEEDS; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Path from = good.get(random.nextInt(good.size()));
            String text = Files.readString(from, StandardCharsets.UTF_8);
            int slips = random.nextInt(1, 4);
            for (int i = 0; i < slips; i++) {
                text = random.nextBoolean() ? spoilLines(text, random) : spoilCharacters(text, random);
            }
            byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
            if (seed % 20 == 0 && bytes.length > 0) {
                bytes[random.nextInt(bytes.length)] = (byte) random.nextInt();
            }
            Path file = Files.write(folder.resolve("spoilt.yaml"), bytes);
            String which = "seed " + seed + " of " + from.getFileName() + ", spoilt:\n" + text;

            Checked<?> checked = assertDoesNotThrow(() -> reader.apply(file), which);

            assertEquals(checked.hasErrors(), checked.value().isEmpty(), which);
            List<String> lines = List.of(new String(bytes, StandardCharsets.UTF_8).split("\r\n|\r|\n", -1));
            checked.problems().forEach(problem -> assertLocated(problem, file, lines, which));
            refused += checked.hasErrors() ? 1 : 0;
        }
        assertTrue(refused >= least * SEEDS, refused + " of " + SEEDS + " refused");
    }

    private static void assertLocated(Problem problem, Path file, List<String> lines, String which) {
        int line = problem.place().line();
        assertTrue(line >= 1 && line <= lines.size(), () -> problem + " lies outside, " + which);
        String text = lines.get(line - 1);
        assertAll(
                () -> assertEquals(file, problem.place().file(), which),
                () -> assertTrue(
                        problem.place().column() >= 1
                                && problem.place().column() <= text.codePointCount(0, text.length()) + 1,
                        () -> problem + " lies outside, " + which),
                () -> assertFalse(problem.message().isBlank(), which),
                () -> assertTrue(
                        text.codePoints().noneMatch(MutatedFilesTests::isVisible)
                                || !problem.sourceLine().isBlank(),
                        () -> problem + " does not show its line, " + which),
                () -> assertTrue(
                        (problem.message() + problem.cure() + problem.sourceLine())
                                .codePoints()
                                .noneMatch(Character::isISOControl),
                        () -> problem + " holds control characters, " + which));
    }

    private static String spoilLines(String text, SplittableRandom random) {
        List<String> lines = new ArrayList<>(List.of(text.split("\n", -1)));
        int at = random.nextInt(lines.size());
        String line = lines.get(at);
        switch (random.nextInt(6)) {
            case 0 -> lines.remove(at);
            case 1 -> lines.add(at, line);
            case 2 -> lines.set(at, " ".repeat(random.nextInt(1, 4)) + line);
            case 3 -> lines.set(at, line.strip());
            case 4 -> lines.set(at, line.substring(0, random.nextInt(line.length() + 1)));
            default -> lines.set(at, lines.set(random.nextInt(lines.size()), line));
        }
        return String.join("\n", lines);
    }

    private static String spoilCharacters(String text, SplittableRandom random) {
        StringBuilder out = new StringBuilder(text);
        int at = random.nextInt(text.length() + 1);
        int end = Math.min(text.length(), at + random.nextInt(1, 5));
        String strange = Character.toString(STRANGE[random.nextInt(STRANGE.length)]);
        switch (random.nextInt(5)) {
            case 0 -> out.delete(at, end);
            case 1 -> out.insert(at, text.substring(at, end));
            case 2 -> out.replace(at, end, strange);
            case 3 -> out.insert(at, strange);
            default -> out.insert(at, strange.repeat(random.nextInt(1, 200)));
        }
        return out.toString();
    }

    private static boolean isVisible(int letter) {
        return !Character.isWhitespace(letter)
                && !Character.isSpaceChar(letter)
                && !Character.isISOControl(letter)
                && Character.getType(letter) != Character.FORMAT;
    }
}
