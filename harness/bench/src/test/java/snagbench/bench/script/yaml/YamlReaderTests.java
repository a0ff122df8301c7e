package snagbench.bench.script.yaml;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** YAML with positions: what is read, what is not taken, and the bounds. */
class YamlReaderTests {
    private static YamlDocument read(String text) {
        return YamlReader.read(text.getBytes(StandardCharsets.UTF_8));
    }

    private static YamlProblem onlyProblem(YamlDocument document) {
        assertEquals(1, document.problems().size(), () -> document.problems().toString());
        return document.problems().get(0);
    }

    private static YamlMapping.Entry first(YamlDocument document) {
        assertEquals(List.of(), document.problems());
        return assertInstanceOf(YamlMapping.class, document.root().orElseThrow())
                .entries()
                .get(0);
    }

    @ParameterizedTest
    @ValueSource(strings = {"no", "on", "yes", "010", "1e3", "0x10", "1_000", "12:30", "2024-01-01", ".inf", "true"})
    void nothingIsTakenForAnythingButItsText(String text) {
        YamlScalar value =
                assertInstanceOf(YamlScalar.class, first(read("key: " + text)).value());

        assertEquals(text, value.text());
        assertEquals(false, value.isNothing());
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "~", "null", "# only a remark"})
    void whatIsLeftOutIsNothing(String text) {
        YamlScalar value =
                assertInstanceOf(YamlScalar.class, first(read("key: " + text)).value());

        assertTrue(value.isNothing());
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n", "\r"})
    void placesAreTheSameWhateverEndsALine(String end) {
        YamlDocument document = read("a: 1" + end + "b:" + end + "  - {🌱: µ, d: 2}" + end);

        YamlMapping root = assertInstanceOf(YamlMapping.class, document.root().orElseThrow());
        YamlList list = assertInstanceOf(YamlList.class, root.entries().get(1).value());
        YamlMapping inner = assertInstanceOf(YamlMapping.class, list.items().get(0));
        assertEquals(new Position(2, 1), root.entries().get(1).at());
        assertEquals(new Position(3, 3), list.at());
        assertEquals(new Position(3, 5), inner.at());
        // Columns count characters, not the units of some encoding.
        assertEquals(new Position(3, 12), inner.entries().get(1).at());
        assertEquals(List.of("a: 1", "b:", "  - {🌱: µ, d: 2}"), document.lines());
    }

    @Test
    void aByteOrderMarkIsNoPartOfTheText() {
        assertEquals("key", first(read("\uFEFFkey: 1")).key());
        assertEquals(new Position(1, 1), first(read("\uFEFFkey: 1")).at());
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "\n\n", "# only a remark\n", "---\n", "---\n...\n", "~"})
    void anEmptyFileHasNoRootAndNoProblem(String text) {
        assertEquals(Optional.empty(), read(text).root());
        assertEquals(List.of(), read(text).problems());
    }

    @Test
    void aCharacterBeyondTheBasicPlaneMayStandAnywhere() {
        // Around the size of the parser's usual buffer, and at the very end.
        for (int before = 1000; before < 1050; before++) {
            for (String after : List.of("", "\n", "y".repeat(1024), "y".repeat(1023) + "🌱")) {
                YamlDocument document = read("# " + "x".repeat(before) + "🌱" + after + "\nkey: 🌱" + after);

                assertEquals("key", first(document).key(), "after " + before);
            }
        }
    }

    static List<Object[]> notText() {
        return List.of(
                new Object[] {bytes("a: 1\nb: \u00FC", "ISO-8859-1"), new Position(2, 4), "the byte 0xFC is no UTF-8"},
                new Object[] {bytes("a: 1", "UTF-16"), new Position(1, 1), "the file is in UTF-16"},
                new Object[] {bytes("\uFEFFa: 1", "UTF-16LE"), new Position(1, 1), "the file is in UTF-16"},
                // An overlong form of "/", and a character that is cut off by the file's end.
                new Object[] {new byte[] {'a', (byte) 0xC0, (byte) 0xAF}, new Position(1, 2), "the byte 0xC0"},
                new Object[] {new byte[] {'a', ':', ' ', (byte) 0xE2, (byte) 0x82}, new Position(1, 4), "the byte 0xE2"
                },
                new Object[] {bytes("a: 1\nb: \0", "UTF-8"), new Position(2, 4), "the character U+0000"},
                new Object[] {bytes("a: \u001B[31m", "UTF-8"), new Position(1, 4), "the character U+001B"});
    }

    private static byte[] bytes(String text, String charset) {
        return text.getBytes(java.nio.charset.Charset.forName(charset));
    }

    @ParameterizedTest
    @MethodSource("notText")
    void bytesThatAreNoTextAreToldWithTheirPlace(byte[] bytes, Position at, String message) {
        YamlProblem problem = onlyProblem(YamlReader.read(bytes));

        assertEquals(at, problem.at());
        assertTrue(problem.message().startsWith(message), problem.message());
    }

    @Test
    void aFileOfAMebibyteIsReadAndALongerOneIsNot() {
        String text = "key: " + "x".repeat(YamlReader.MOST_BYTES - 5);

        assertEquals("key", first(read(text)).key());
        assertEquals("longer than 1 MiB", onlyProblem(read(text + "x")).message());
    }

    @Test
    void depthIsBounded() {
        int most = YamlReader.MOST_DEPTH;
        assertTrue(
                read("[".repeat(most - 1) + "x" + "]".repeat(most - 1)).root().isPresent());

        YamlProblem problem = onlyProblem(read("[".repeat(most) + "x" + "]".repeat(most)));
        assertEquals(new Position(1, most + 1), problem.at());
        assertTrue(problem.message().contains("deeper than " + most), problem.message());

        // As deep as fits: neither the parser's stack nor ours may overflow.
        for (String opening : List.of("[", "{a: ", "- ", "? ", "[{a: ")) {
            String bomb = opening.repeat(YamlReader.MOST_BYTES / opening.length());
            assertTrue(onlyProblem(read(bomb)).message().contains("deeper than"), opening);
        }
    }

    @Test
    void aliasesAreNotFollowed() {
        StringBuilder bomb = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x]\n");
        for (int i = 1; i < 30; i++) {
            bomb.append("a" + i + ": &a" + i + " [" + ("*a" + (i - 1) + ", ").repeat(8) + "*a" + (i - 1) + "]\n");
        }

        YamlDocument document = read(bomb.toString());

        // 30 anchors, and 29 times 9 aliases.
        assertEquals(30 + 29 * 9, document.problems().size());
        assertEquals(new Position(1, 5), document.problems().get(0).at());
    }

    @Test
    void aKeyThatStandsTwiceIsToldAtBothPlaces() {
        List<YamlProblem> problems = read("a: 1\nb: 2\na: 3\n").problems();

        assertEquals(
                List.of(new Position(1, 1), new Position(3, 1)),
                problems.stream().map(YamlProblem::at).toList());
    }

    static List<Object[]> traps() {
        return List.of(
                new Object[] {"a:\n\tb: 1\n", 2, 1, "a tab in the indentation"},
                new Object[] {"a:\n  b: 1\n \tc: 2\n", 3, 2, "a tab in the indentation"},
                new Object[] {"a: > 5 V\n", 1, 4, "an unquoted \">\" begins a folded text"},
                new Object[] {"a: >= 5 V\n", 1, 4, "an unquoted \">\" begins a folded text"},
                new Object[] {"a: | text\n", 1, 4, "an unquoted \"|\" begins a text of several lines"},
                new Object[] {"a: {b: > 5 V}\n", 1, 8, "an unquoted \">\" cannot begin a value"},
                new Object[] {"a: @b\n", 1, 4, "an unquoted text cannot begin with \"@\""},
                new Object[] {"a: `b`\n", 1, 4, "an unquoted text cannot begin with \"`\""},
                new Object[] {"a: \"b\nc: d\n", 1, 4, "this quote is opened and not closed"},
                new Object[] {"a: 'b\n", 1, 4, "this quote is opened and not closed"},
                new Object[] {"a: \"b\\q\"\n", 1, 7, "in double quotes a backslash begins an escape"},
                new Object[] {"a: [b, c\nd: e\n", 1, 4, "what is opened here by \"[\" goes wrong"},
                new Object[] {"a: {b: c\nd: e\n", 1, 4, "what is opened here by \"{\" goes wrong"},
                new Object[] {"a: b: c\n", 1, 5, "a colon that YAML does not expect"},
                new Object[] {"a: - b\n", 1, 4, "a list cannot begin here"},
                new Object[] {"a: b\nc\nd: e\n", 2, 1, "neither a key with its colon"},
                new Object[] {"a: b\n  c: d\n", 2, 4, "a colon that YAML does not expect"},
                new Object[] {"a:\n  b: c\n d: e\n", 3, 2, "this does not go on with what began"},
                new Object[] {"a: 'b'c'\n", 1, 7, "this does not go on with what began"},
                new Object[] {"%YAML 3.0\n---\na: b\n", 1, 1, "this YAML cannot be read"});
    }

    @ParameterizedTest
    @MethodSource("traps")
    void aTrapIsToldInPlainWords(String text, int line, int column, String message) {
        YamlProblem problem = onlyProblem(read(text));

        assertEquals(new Position(line, column), problem.at());
        assertTrue(problem.message().startsWith(message), problem.message());
        assertTrue(!problem.cure().isBlank(), "what would do");
    }

    @Test
    void whatIsShownOfAFileMovesNoCursor() {
        assertEquals("\"a b c d\"", Shown.quoted("a\u001Bb\nc\u202Ed"));
        assertEquals("\"" + "🌱".repeat(60) + "...\"", Shown.quoted("🌱".repeat(61)));
        assertEquals("\"" + "x".repeat(60) + "\"", Shown.quoted("x".repeat(60)));
        assertEquals("a b", Shown.clean("a\uD800b"));
    }
}
