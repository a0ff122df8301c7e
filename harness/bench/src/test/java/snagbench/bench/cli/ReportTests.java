package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.run.Journal;
import snagbench.bench.run.RunRecord;

/** Reports from journals that are not whole, or none. */
class ReportTests {
    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);
    private Path journal = empty;

    @BeforeEach
    void runAFew() throws IOException {
        bench = Bench.in(empty);
        Told ran = Told.by(
                "run",
                bench.file(bench.plan("reach-stopped-short-in-the-rack-zone", 4))
                        .toString(),
                "--out",
                bench.file("results").toString());
        assertEquals(0, ran.status(), ran::all);
        journal = bench.run().resolve(Journal.FILE_NAME);
    }

    private Told report() {
        return Told.by("report", journal.toString());
    }

    @Test
    void whateverTheLastLineWasCutAtTheLinesBeforeItAreReported() throws IOException {
        byte[] whole = Files.readAllBytes(journal);
        int lastLine = new String(whole, StandardCharsets.ISO_8859_1).lastIndexOf("\n{\"line\":\"result\"") + 1;
        int end = new String(whole, StandardCharsets.ISO_8859_1).indexOf('\n', lastLine);
        for (int cut = lastLine; cut <= end; cut += 37) {
            Files.write(journal, Arrays.copyOf(whole, cut));
            RunRecord run = RunRecord.read(journal);
            assertEquals(3, run.results().size(), "cut at byte " + cut);
            assertEquals(1, run.notRun().size());
        }

        Told told = report();

        assertEquals(3, told.status(), told::all);
        assertTrue(told.out().contains("cut short"), told::all);
        assertTrue(told.out().contains("not run: reach stopped short in the rack zone (4 of 4)"), told::all);
        assertTrue(told.out().contains("4 scripts: 3 pass, 1 not run"), told::all);
    }

    @Test
    void aLineCutWithinALetterIsCutShortToo() throws IOException {
        String text = Files.readString(journal);
        int lastLine = text.lastIndexOf("\n{\"line\":\"result\"") + 1;
        byte[] before = text.substring(0, lastLine).getBytes(StandardCharsets.UTF_8);
        byte[] half = "{\"line\":\"result\",\"script\":\"Schub um 90\u00b0".getBytes(StandardCharsets.UTF_8);
        byte[] cut = Arrays.copyOf(before, before.length + half.length - 1);
        System.arraycopy(half, 0, cut, before.length, half.length - 1);
        Files.write(journal, cut);

        Told told = report();

        assertEquals(3, told.status(), told::all);
        assertTrue(told.out().contains("4 scripts: 3 pass, 1 not run"), told::all);
    }

    @Test
    void aLineSpoiltInTheMiddleIsNamed() throws IOException {
        Files.writeString(
                journal, Files.readString(journal).replaceFirst("\n\\{\"line\":\"result\"", "\n{line:result"));

        Told told = report();

        assertEquals(2, told.status(), told::all);
        assertTrue(told.err().contains(journal + ":2: this line is not a journal's"), told::all);
        assertFalse(told.err().contains("\tat "), told::all);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "\n",
                "fault-script: reach blocked midway\n",
                "{\"line\":\"header\"}\n",
                "{\"line\":\"result\"}\n",
                "{\"line\":\"end\"}\n",
                "[]\n",
                "null\n",
                "{\"verdict\":\"PASS\"}\n",
                "\u00ff\u0000\u0001 bytes that are no text"
            })
    void whatIsNoJournalIsRefusedByName(String content) throws IOException {
        Files.write(journal, content.getBytes(StandardCharsets.ISO_8859_1));

        Told told = report();

        assertEquals(2, told.status(), told::all);
        assertTrue(told.err().contains(journal.toString()), told::all);
        assertTrue(told.err().contains("journal"), told::all);
        assertFalse(told.err().contains("\tat "), told::all);
    }

    @Test
    void aFolderWithoutAJournalSaysWhatToGive() {
        Told told = Told.by("report", empty.toString());

        assertEquals(2, told.status(), told::all);
        assertTrue(told.err().contains("there is no journal"), told::all);
        assertTrue(told.err().contains("give a run's folder"), told::all);
    }

    @Test
    void aReportIsMadeAgainToTheLetterWithTablesWhereWanted() throws IOException {
        Path page = bench.run().resolve("report.html");
        Path summary = bench.run().resolve("summary.md");
        String before = Files.readString(page);
        assertTrue(before.contains("reach stopped short in the rack zone (4 of 4)"));
        assertTrue(before.contains("J3, absolute encoder on the reach motor"), "wiring of a channel involved");
        String summaryBefore = Files.readString(summary);
        Files.delete(page);
        Files.delete(summary);

        Told told = Told.by("report", journal.toString(), "--tables");

        assertEquals(0, told.status(), told::all);
        assertEquals(summaryBefore, Files.readString(summary));
        assertEquals(before, Files.readString(page));
        try (var files = Files.list(bench.run().resolve("traces"))) {
            assertEquals(
                    Map.of("csv", 4L, "trace", 4L, "vcd", 4L),
                    files.collect(Collectors.groupingBy(
                            file -> file.toString().replaceAll(".*[.]", ""), Collectors.counting())));
        }
    }

    @Test
    void aJournalThatNamesFilesOutsideItsFolderReadsNoneOfThem() throws IOException {
        Path outside = bench.file("outside.trace");
        Path inside;
        try (var files = Files.list(bench.run().resolve("traces"))) {
            inside = files.sorted().findFirst().orElseThrow();
        }
        Files.move(inside, outside);
        String name = "traces/" + inside.getFileName();
        Files.writeString(journal, Files.readString(journal).replace(name, "../../outside.trace"));

        Told told = report();

        assertEquals(0, told.status(), told::all);
        String first = Files.readString(bench.run().resolve("report.html")).split("<article", -1)[1];
        assertFalse(first.contains("What was seen"));
    }
}
