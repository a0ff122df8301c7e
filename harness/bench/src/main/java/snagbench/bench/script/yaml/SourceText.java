package snagbench.bench.script.yaml;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.snakeyaml.engine.v2.scanner.StreamReader;

/**
 * The characters of a file, cut into lines as YAML cuts them.
 *
 * @param text without byte order mark
 * @param lines without their ends
 * @param problem if the bytes are no text at all
 */
record SourceText(String text, List<String> lines, Optional<YamlProblem> problem) {
    private static final int BYTE_ORDER_MARK = 0xFEFF;

    static SourceText of(byte[] bytes) {
        CharBuffer decoded = CharBuffer.allocate(bytes.length);
        ByteBuffer in = ByteBuffer.wrap(bytes);
        CoderResult result = StandardCharsets.UTF_8
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT)
                .decode(in, decoded, true);
        String good = withoutMark(decoded.flip().toString());
        if (result.isError()) {
            List<String> lines = linesOf(withoutMark(new String(bytes, StandardCharsets.UTF_8)));
            return new SourceText("", lines, Optional.of(notUtf8(bytes, in.position(), endOf(good))));
        }
        return new SourceText(good, linesOf(good), unprintable(good));
    }

    private static YamlProblem notUtf8(byte[] bytes, int offset, Position at) {
        int mark = bytes.length >= 2 ? (bytes[0] & 0xFF) << 8 | (bytes[1] & 0xFF) : 0;
        boolean sixteen = mark == 0xFFFE || mark == 0xFEFF;
        String found = sixteen
                ? "the file is in UTF-16"
                : String.format("the byte 0x%02X is no UTF-8", bytes[Math.min(offset, bytes.length - 1)] & 0xFF);
        return new YamlProblem(at, found, "save the file as UTF-8");
    }

    private static Optional<YamlProblem> unprintable(String text) {
        for (int i = 0; i < text.length(); i += Character.charCount(text.codePointAt(i))) {
            int found = text.codePointAt(i);
            if (!StreamReader.isPrintable(found)) {
                return Optional.of(new YamlProblem(
                        endOf(text.substring(0, i)),
                        String.format("the character U+%04X cannot be shown and cannot stand in YAML", found),
                        "take it out"));
            }
        }
        return Optional.empty();
    }

    private static String withoutMark(String text) {
        return !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK ? text.substring(1) : text;
    }

    private static Position endOf(String text) {
        List<String> lines = new ArrayList<>(List.of(text.split("\r\n|\r|\n", -1)));
        String last = lines.get(lines.size() - 1);
        return new Position(lines.size(), last.codePointCount(0, last.length()) + 1);
    }

    private static List<String> linesOf(String text) {
        List<String> lines = new ArrayList<>(List.of(text.split("\r\n|\r|\n", -1)));
        if (lines.size() > 1 && lines.get(lines.size() - 1).isEmpty()) {
            lines.remove(lines.size() - 1);
        }
        return lines;
    }

    /** The line, or nothing where there is none. */
    String line(int number) {
        return number >= 1 && number <= lines.size() ? lines.get(number - 1) : "";
    }

    /** The nearest place that lies in the file. */
    Position inside(Position at) {
        return at.inside(lines);
    }
}
