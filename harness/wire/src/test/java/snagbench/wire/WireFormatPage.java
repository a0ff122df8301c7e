package snagbench.wire;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/**
 * What {@code firmware-notes/wire-format.md} says, as far as a machine can read it: tables and examples, each under the
 * heading above it.
 */
final class WireFormatPage {
    private final List<Table> tables = new ArrayList<>();
    private final List<Example> examples = new ArrayList<>();

    /** Rows of cells below the head, as they stand on the page. */
    record Table(String heading, List<String> head, List<List<String>> rows) {}

    /** Values in the order in which they travel, and the bytes of the whole frame. */
    record Example(String heading, int line, Map<String, List<Object>> values, String hex) {
        byte[] frame() {
            return Hex.bytes(hex);
        }

        @Override
        public String toString() {
            return heading + " (line " + line + ")";
        }
    }

    static WireFormatPage read() {
        Path page = Path.of(System.getProperty("snagbench.root", "../.."), "firmware-notes", "wire-format.md");
        try {
            return new WireFormatPage(Files.readAllLines(page));
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }

    private WireFormatPage(List<String> lines) {
        String heading = "";
        for (int i = 0; i < lines.size(); i++) {
            String line = lines.get(i);
            if (line.startsWith("#")) {
                heading = line.replaceFirst("^#+ ", "");
            } else if (line.startsWith("|")) {
                List<List<String>> rows = new ArrayList<>();
                List<String> head = cells(line);
                // The line below the head draws only the line between.
                for (i += 2; i < lines.size() && lines.get(i).startsWith("|"); i++) {
                    rows.add(cells(lines.get(i)));
                }
                i--;
                tables.add(new Table(heading, head, rows));
            } else if (line.equals("```example")) {
                int first = i + 1;
                Map<String, List<Object>> values = new LinkedHashMap<>();
                String hex = "";
                for (i++; !lines.get(i).equals("```"); i++) {
                    String[] parts = lines.get(i).split(" = ?", 2);
                    if (parts[0].equals("hex")) {
                        hex = parts[1];
                    } else if (values.put(parts[0], values(parts[1])) != null) {
                        throw new AssertionError("line " + (i + 1) + ": " + parts[0] + " twice");
                    }
                }
                examples.add(new Example(heading, first, values, hex));
            }
        }
    }

    private static List<String> cells(String line) {
        List<String> cells = new ArrayList<>();
        for (String cell : line.substring(1, line.lastIndexOf('|')).split("\\|", -1)) {
            cells.add(cell.trim());
        }
        return cells;
    }

    private static List<Object> values(String text) {
        List<Object> values = new ArrayList<>();
        if (text.startsWith("\"")) {
            values.add(text.substring(1, text.length() - 1));
        } else if (!text.isBlank()) {
            for (String value : text.split(",", -1)) {
                values.add(number(value.trim()));
            }
        }
        return values;
    }

    private static long number(String text) {
        if (text.startsWith("0x")) {
            return Long.parseLong(text.substring(2), 16);
        }
        return text.startsWith("0b") ? Long.parseLong(text.substring(2), 2) : Long.parseLong(text);
    }

    List<Example> examples() {
        return List.copyOf(examples);
    }

    /** The tables whose head begins with a column. */
    List<Table> tables(String firstColumn) {
        return tables.stream()
                .filter(table -> table.head().get(0).equals(firstColumn))
                .toList();
    }

    /** The only table under a heading with that first column. */
    Table table(String heading, String firstColumn) {
        Predicate<Table> wanted = table -> table.heading().equals(heading);
        List<Table> found = tables(firstColumn).stream().filter(wanted).toList();
        if (found.size() != 1) {
            throw new AssertionError(found.size() + " tables of " + firstColumn + " under \"" + heading + "\"");
        }
        return found.get(0);
    }
}
