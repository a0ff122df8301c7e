package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Problem;

/**
 * A good file with one part replaced, and all that must be told of it. In the new part, each mark {@code §} stands where
 * a problem must be located; it is not written to the file.
 *
 * @param was part of the good file, which is there once
 * @param becomes what stands in its place, with marks
 * @param told for each mark: "error: " or "warning: ", a part of the message, " | ", a part of the cure
 */
record Variant(String was, String becomes, List<String> told) {
    private static final char MARK = '§';

    static Variant slip(String was, String becomes, String... told) {
        return new Variant(was, becomes, List.of(told));
    }

    /** Name in lists of tests. */
    @Override
    public String toString() {
        return becomes.isBlank() ? "without " + was.strip() : becomes.strip();
    }

    /** Writes the file, reads it, and compares all problems with the expected ones. */
    void check(String good, Path file, Function<Path, ? extends Checked<?>> reader) throws IOException {
        assertEquals(2, good.split(java.util.regex.Pattern.quote(was), -1).length, "once in the file: " + was);
        String marked = good.replace(was, becomes);
        Files.writeString(file, marked.replace(String.valueOf(MARK), ""), StandardCharsets.UTF_8);

        Checked<?> checked = reader.apply(file);

        List<String> places = places(marked);
        List<Problem> problems = checked.problems();
        assertEquals(told.size(), problems.size(), () -> "number of problems: " + problems);
        assertEquals(places.size(), told.size(), "a mark for each problem");
        boolean anyError = told.stream().anyMatch(line -> line.startsWith("error: "));
        assertAll(
                () -> assertEquals(anyError, checked.hasErrors(), () -> "errors: " + problems),
                () -> assertEquals(anyError, checked.value().isEmpty(), "a value if there is no error"));
        for (int i = 0; i < problems.size(); i++) {
            compare(told.get(i), places.get(i), problems.get(i));
        }
    }

    private static void compare(String told, String place, Problem problem) {
        String severity = problem.severity() == Problem.Severity.ERROR ? "error: " : "warning: ";
        String[] parts = told.split(" \\| ", 2);
        String message = parts[0].substring(parts[0].indexOf(": ") + 2);
        assertAll(
                () -> assertEquals(
                        place, problem.place().line() + ":" + problem.place().column(), () -> "place: " + problem),
                () -> assertTrue(told.startsWith(severity), () -> "severity: " + problem),
                () -> assertTrue(problem.message().contains(message), () -> "message: " + problem),
                () -> assertTrue(parts.length == 1 || problem.cure().contains(parts[1]), () -> "cure: " + problem));
    }

    private static List<String> places(String marked) {
        List<String> places = new ArrayList<>();
        int line = 1;
        int column = 1;
        for (int point : marked.codePoints().toArray()) {
            if (point == MARK) {
                places.add(line + ":" + column);
            } else if (point == '\n') {
                line++;
                column = 1;
            } else {
                column++;
            }
        }
        return places;
    }
}
