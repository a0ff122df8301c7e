package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;

/** Every example of the docs is good: whole scripts as they stand, pieces in a script around them. */
class DocumentedScriptsTests {
    private static final Path ROOT = Path.of(System.getProperty("snagbench.root"));
    private static final Pattern BLOCK = Pattern.compile("(?ms)^```yaml ([a-z-]+)\n(.*?)^```$");
    private static final String HEAD = """
            fault-script: an example
            begin:
              - send: start-run
              - wait-for: { step: REACHING }
                within: 2 s
            """;
    private static final String JAM = """
            inject:
              - name: jam
                when: { step: REACHING, reach.position: at least 150 mm }
                disturb: { obstacle.position: 220 mm }
            """;
    private static final String SEES = """
            expect:
              - name: sees it
                answered-by: FS-02
                within: 2 s
            """;

    @TempDir
    Path folder = Path.of("");

    /** A block of a page. */
    record Example(String page, int line, String kind, String text) {
        @Override
        public String toString() {
            return page + ":" + line + " " + kind;
        }
    }

    static List<Example> examples() throws IOException {
        List<Example> found = new ArrayList<>();
        try (Stream<Path> pages = Files.list(ROOT.resolve("docs"))) {
            for (Path page : pages.filter(file -> file.toString().endsWith(".md"))
                    .sorted()
                    .toList()) {
                String text = Files.readString(page, StandardCharsets.UTF_8);
                Matcher matcher = BLOCK.matcher(text);
                while (matcher.find()) {
                    int line = (int) text.substring(0, matcher.start()).lines().count() + 1;
                    found.add(new Example(page.getFileName().toString(), line, matcher.group(1), matcher.group(2)));
                }
            }
        }
        return found;
    }

    @ParameterizedTest
    @MethodSource("examples")
    void isGood(Example example) throws IOException {
        if (example.kind().equals("rig")) {
            assertTrue(rigYaml().contains(example.text()), "the committed rig.yaml has it");
        }
        assertEquals(List.of(), check(whole(example)), example::toString);
    }

    /** A script of which the example is a part. */
    static String whole(Example example) {
        return switch (example.kind()) {
            case "fault-script" -> example.text();
            case "inject" -> HEAD + "inject:\n" + indented(example.text()) + SEES;
            case "expect" -> HEAD + JAM + SEES + indented(example.text()) + "end: 9 s after jam\n";
            case "rig" -> HEAD + JAM + SEES;
            default -> throw new AssertionError("what is this example? " + example);
        };
    }

    private static String indented(String text) {
        return text.lines().map(line -> "  " + line + "\n").reduce("", String::concat);
    }

    private static String rigYaml() throws IOException {
        Path file = ROOT.resolve("fixtures/seedling-shuttle").resolve(RigFiles.FILE_NAME);
        return Files.readString(file, StandardCharsets.UTF_8);
    }

    /** Reads against the committed rig. */
    private List<String> check(String script) throws IOException {
        Path rigFile = ROOT.resolve("fixtures/seedling-shuttle").resolve(RigFiles.FILE_NAME);
        RigDescription rig =
                Snapshots.read(RigFiles.snapshotOf(rigFile)).value().orElseThrow();
        Checked<RigFile> content = RigFiles.readRig(rigFile, Optional.of(rig));
        List<String> problems = new ArrayList<>();
        content.problems().forEach(problem -> problems.add(problem.toString()));
        Path file = Files.writeString(folder.resolve("an-example.fault.yaml"), script);
        Checked<List<FaultScript>> read =
                ScriptReader.readAll(file, rig, content.value().orElseThrow());
        read.problems().forEach(problem -> problems.add(problem.toString()));
        return problems;
    }

    @Test
    void thereAreExamplesOfAllThatAUserWrites() throws IOException {
        List<Example> examples = examples();
        for (String kind : List.of("fault-script", "inject", "expect", "rig")) {
            assertTrue(examples.stream().anyMatch(one -> one.kind().equals(kind)), kind);
        }
        String all = examples.stream().map(Example::text).reduce("", String::concat);
        List<String> words = new ArrayList<>(Faults.KNOWN);
        words.addAll(Triggers.KEYS);
        words.addAll(Doings.KEYS);
        words.addAll(Endings.KEYS);
        words.addAll(Expectations.KINDS);
        words.removeAll(List.of("delay", "count", "at-most-times", "inhibit", "release"));
        for (String word : words) {
            assertTrue(all.contains(word), "an example of \"" + word + "\"");
        }
        String page = Files.readString(ROOT.resolve("docs/writing-fault-scripts.md"), StandardCharsets.UTF_8);
        for (String word : List.of("delay: ", "count: ", "at-most-times: ", "inhibit: ", "release: ")) {
            assertTrue(page.contains("`" + word), "the page has \"" + word + "\"");
        }
    }
}
