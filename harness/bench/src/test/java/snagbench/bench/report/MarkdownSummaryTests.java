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
