package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every command that a page of the docs shows in a console block, in the order of the page: each does what it should. */
class DocumentedCommandsTests {
    private static final Pattern BLOCK = Pattern.compile("(?ms)^ *```console\\n(.*?)^ *```$");
    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");

    @TempDir
    Path empty = Path.of("");

    static List<String> pages() throws IOException {
        try (Stream<Path> pages = Files.list(Bench.project().resolve("docs"))) {
            return pages.map(page -> page.getFileName().toString())
                    .filter(name -> name.endsWith(".md"))
                    .filter(name -> !commands(name).isEmpty())
                    .sorted()
                    .toList();
        }
    }

    private static List<String> commands(String page) {
        List<String> found = new ArrayList<>();
        String text;
        try {
            text = Files.readString(Bench.project().resolve("docs").resolve(page));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
        Matcher matcher = BLOCK.matcher(text);
        while (matcher.find()) {
            matcher.group(1)
                    .lines()
                    .map(String::strip)
                    .filter(line -> !line.isEmpty())
                    .forEach(found::add);
        }
        return found;
    }

    private static String[] words(String command) {
        List<String> words = new ArrayList<>();
        Matcher matcher = WORD.matcher(command);
        while (matcher.find()) {
            words.add(matcher.group(1) == null ? matcher.group(2) : matcher.group(1));
        }
        assertEquals("harness/snagbench", words.get(0), command);
        return words.subList(1, words.size()).toArray(String[]::new);
    }

    @Test
    void theFirstStepsAreShownAsCommands() throws IOException {
        assertTrue(pages().contains("writing-fault-scripts.md"));
        assertTrue(commands("writing-fault-scripts.md").size() >= 8);
    }

    @ParameterizedTest
    @MethodSource("pages")
    void everyCommandOfAPageDoesWhatItShould(String page) throws IOException {
        Bench bench = Bench.in(empty);
        for (String command : commands(page)) {
            Told ended = Told.in(bench.folder(), words(command));
            assertEquals(0, ended.status(), () -> command + "\n" + ended.all());
        }
    }
}
