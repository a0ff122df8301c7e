package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.report.MarkdownSummary;
import snagbench.bench.report.ResultsJson;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.report.sheet.CheckSheet;
import snagbench.bench.report.sheet.Readiness;
import snagbench.bench.report.sheet.RunSheet;
import snagbench.bench.report.sheet.Sources;
import snagbench.bench.run.RunRecord;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A real journal, damaged: whatever is in it, it is read or refused with a message, and takes no other run down with it. */
class DamagedJournalTests {
    private static final JsonMapper JSON = JsonMapper.shared();

    /** In place of whatever stands there; the first is for left out. */
    private static final List<String> INSTEAD = List.of(
            "",
            "null",
            "\"\\u0000\"",
            "\"\"",
            "\"x\"",
            "-1",
            "0",
            "2147483647",
            "9223372036854775807",
            "true",
            "{}",
            "[]",
            "[null]");

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);
    private Path run = empty;

    @BeforeEach
    void runOne() throws IOException {
        bench = Bench.in(empty);
        Told ran = Told.by(
                "run",
                bench.file(bench.plan("reach-stopped-short-in-the-rack-zone", 2))
                        .toString(),
                "--out",
                results());
        assertEquals(0, ran.status(), ran::all);
        run = bench.run();
    }

    private String results() {
        return bench.file("results").toString();
    }

    @Test
    void whateverStandsInAJournalItIsReadOrRefused() throws IOException {
        List<String> lines = Files.readAllLines(run.resolve("journal.jsonl"));
        assertEquals(4, lines.size(), "header, two results, end");
        RegisterSheet register = RegisterSheet.read(run).orElseThrow();
        Path folder = Files.createDirectory(empty.resolve("damaged"));
        int read = 0;
        int refused = 0;
        for (int line : new int[] {0, 1, 3}) {
            for (String damaged : damaged(lines.get(line))) {
                List<String> all = new ArrayList<>(lines);
                all.set(line, damaged);
                Path journal = Files.write(folder.resolve("journal.jsonl"), all);
                try {
                    show(RunRecord.read(journal), register, folder);
                    read++;
                } catch (IOException e) {
                    String message = String.valueOf(e.getMessage());
                    assertTrue(
                            message.contains("journal.jsonl:" + (line + 1) + ": this line is not a journal's: ")
                                    || message.endsWith("no header; this is not a journal"),
                            message);
                    refused++;
                } catch (RuntimeException e) {
                    throw new AssertionError(damaged, e);
                }
            }
        }
        assertTrue(read > 200 && refused > 500, read + " read, " + refused + " refused");
    }

    /** All that is made of a journal. */
    private static void show(RunRecord whole, RegisterSheet register, Path folder) throws IOException {
        RunRecord record = whole.concluded();
        record.notRun();
        RunSheet.html(
                record,
                new Sources(
                        result -> Optional.empty(),
                        result -> Optional.empty(),
                        Map.of(),
                        Optional.of(register),
                        Optional.empty()));
        MarkdownSummary.text(record);
        ResultsJson.write(record, folder);
        CheckSheet.html(
                Readiness.of(record.header().rig(), register, List.of(record), Optional.empty()),
                Instant.parse("2026-03-09T22:15:00Z"));
    }

    /** The line with each of its members in turn left out, or something else in its place. */
    private static List<String> damaged(String line) {
        List<String> all = new ArrayList<>();
        JsonNode tree = JSON.readTree(line);
        damage(tree, tree, all);
        return all;
    }

    private static void damage(JsonNode tree, JsonNode part, List<String> all) {
        if (part instanceof ObjectNode object) {
            for (String name : List.copyOf(object.propertyNames())) {
                JsonNode was = object.get(name);
                damage(tree, was, all);
                for (String text : INSTEAD) {
                    if (text.isEmpty()) {
                        object.remove(name);
                    } else {
                        object.set(name, JSON.readTree(text));
                    }
                    all.add(tree.toString());
                    object.set(name, was);
                }
            }
        } else if (part instanceof ArrayNode array) {
            for (int i = 0; i < array.size(); i++) {
                JsonNode was = array.get(i);
                damage(tree, was, all);
                for (String text : INSTEAD) {
                    array.set(i, text.isEmpty() ? JSON.nullNode() : JSON.readTree(text));
                    all.add(tree.toString());
                }
                array.set(i, was);
            }
        }
    }

    @Test
    void whatLacksSomethingIsNamedAndTheOtherRunsStillCount() throws IOException {
        String journal = Files.readString(run.resolve("journal.jsonl"));
        spoilt(journal, "\"started\":\"[^\"]*\",", "", "\"started\"");
        spoilt(journal, "\"judgement\":\\{", "\"judgement\":null,\"was\":{", "\"judgement\"");
        spoilt(journal, "\"script\":\"[^\"]*\"", "\"script\":null", "\"script\"");
        spoilt(journal, "\"plan\":\"[^\"]*\"", "\"plan\":null", "\"plan\"");
        spoilt(journal, "\"evidence\":\"[^\"]*\"", "\"evidence\":null", "\"evidence\"");
        spoilt(journal, "\"text\":\"[^\"]*\"", "\"text\":null", "\"judgement.findings[0].facts[0].text\"");
        spoilt(journal, "\"trace\":\"[^\"]*\"", "\"trace\":\"\\\\u0000\"", "\"trace\" is no name of a file");
        spoilt(journal, "\"rig\":\"[^\"]*\"", "\"rig\":\"\\\\u0000\"", "\"rig\" is no name of a file");
        spoilt(journal, "\"place\":\\{\"file\":\"[^\"]*\"", "\"place\":{\"file\":\"\\\\u0000\"", "no name of a file");
    }

    private void spoilt(String journal, String what, String becomes, String named) throws IOException {
        String damaged = journal.replaceFirst(what, becomes);
        assertFalse(damaged.equals(journal), what);
        Files.createDirectories(bench.file("results/spoilt"));
        bench.write("results/spoilt/journal.jsonl", damaged);

        Told report = Told.by("report", bench.file("results/spoilt").toString());
        Told sheet = Told.by("check-sheet", results(), "--build", "1.0");

        assertEquals(2, report.status(), report::all);
        assertTrue(report.err().contains(named), report::all);
        assertFalse(report.err().contains("\tat "), report::all);
        assertEquals(3, sheet.status(), sheet::all);
        assertTrue(sheet.err().contains("warning: left out: ") && sheet.err().contains(named), sheet::all);
        assertTrue(sheet.out().contains("1 of 13 fail-safes proven on build 1.0; runs looked at: 1"), sheet::all);
    }

    @Test
    void aRegisterThatIsNoneIsNoneAndOneThatLacksSomethingIsRefused() throws IOException {
        Path register = run.resolve("register.json");
        String whole = Files.readString(register);

        Files.writeString(register, "null");
        Told none = Told.by("report", run.toString(), "--matrix");
        assertEquals(2, none.status(), none::all);
        assertTrue(none.err().contains("there is no register.json in "), none::all);
        assertEquals(0, Told.by("report", run.toString()).status());

        Files.writeString(register, whole.replaceFirst("\"title\" : \"[^\"]*\"", "\"title\" : null"));
        Told lacking = Told.by("report", run.toString(), "--matrix");
        assertEquals(2, lacking.status(), lacking::all);
        assertTrue(lacking.err().contains("it lacks \"failSafes[0].title\""), lacking::all);

        Files.writeString(register, whole);
        Files.writeString(run.resolve("decision-table.json"), "null");
        assertEquals(0, Told.by("report", run.toString()).status());
    }
}
