package snagbench.bench.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import snagbench.bench.report.sheet.SheetRuns;

/** A run for a chat or the page of a CI job. */
class MarkdownSummaryTests {
    @Test
    void saysWhatDidNotPassFirstAndThenAllInATable() {
        String text = MarkdownSummary.text(SheetRuns.run("arm blocked"));

        assertTrue(text.startsWith("### arm blocked: 1 error, 2 fail, 1 inconclusive of 10\n"), text);
        assertTrue(
                text.contains(
                        "First: **arm blocked \\(1 of 2\\)**: fail, arm blocked\\: arm blocked \\(asked for\\: arm"
                                + " blocked\\)."),
                text);
        assertTrue(
                text.contains(
                        "| 4 | **fail** | arm blocked \\(1 of 2\\) | arm blocked | 100.0 ms | 150.0 ms | -50.0 ms |"),
                text);
        assertTrue(text.contains("worst of 3"), text);
        assertTrue(text.endsWith("\nNot run: 2.\n"), text);
    }

    @Test
    void saysWhatRepeatsShowAndWhatCameOfTheClaim() {
        String met = MarkdownSummary.text(SheetRuns.repeated("arm blocked", 22, 0));

        assertTrue(
                met.contains("\n"
                        + "| arm blocked | 22 of 22 | at least 90.0 % would pass, at 90 % confidence | met: 90 % at 90 %"
                        + " confidence | median 110.5 ms; worst 121.0 ms; at least 90 % take no longer than 121.0 ms, at"
                        + " 90.1 % confidence | median 160.5 ms; "),
                met);
        assertTrue(met.contains("\n- warning: arm blocked: a real rig ran again with no rest\\: motors"), met);

        String not = MarkdownSummary.text(SheetRuns.repeated("arm blocked", 10, 4));
        assertTrue(not.contains("\n| arm blocked | 6 of 10, **inconsistent** | at least 35.4 % would pass"), not);
        assertTrue(not.contains("| **not met**: 90 % at 90 % confidence |"), not);
    }

    @Test
    void whateverNamesOfRepeatedScriptsAreTheTablesHaveTheSameRows() {
        List<String> plain =
                MarkdownSummary.text(SheetRuns.repeated("plain", 12, 1)).lines().toList();
        for (String hostile : SheetRuns.HOSTILE) {
            List<String> lines = MarkdownSummary.text(SheetRuns.repeated(hostile, 12, 1))
                    .lines()
                    .toList();
            assertEquals(plain.size(), lines.size(), hostile);
            for (int i = 0; i < lines.size(); i++) {
                assertEquals(bars(plain.get(i)), bars(lines.get(i)), lines.get(i));
                String unescaped = lines.get(i).replaceAll("\\\\.", "");
                assertTrue(unescaped.chars().noneMatch(letter -> "<>`[]@_&".indexOf(letter) >= 0), lines.get(i));
            }
        }
    }

    @Test
    void whateverNamesAreTheTableHasTheSameRowsAndNoSignOfTheirsMeansAnything() {
        List<String> plain =
                MarkdownSummary.text(SheetRuns.run("plain")).lines().toList();
        for (String hostile : SheetRuns.HOSTILE) {
            List<String> lines =
                    MarkdownSummary.text(SheetRuns.run(hostile)).lines().toList();
            assertEquals(plain.size(), lines.size(), hostile);
            for (int i = 0; i < lines.size(); i++) {
                assertEquals(bars(plain.get(i)), bars(lines.get(i)), lines.get(i));
                String unescaped = lines.get(i).replaceAll("\\\\.", "");
                assertTrue(unescaped.chars().noneMatch(letter -> "<>`[]@_&".indexOf(letter) >= 0), lines.get(i));
            }
        }
    }

    private static long bars(String line) {
        return line.replaceAll("\\\\.", "")
                .chars()
                .filter(letter -> letter == '|')
                .count();
    }
}
