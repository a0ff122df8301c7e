package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The sheet for before an event, made of real runs. */
class CheckSheetTests {
    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void runOne() throws IOException {
        bench = Bench.in(empty);
        Told ran = Told.by(
                "run",
                bench.file(bench.plan("reach-stopped-short-in-the-rack-zone", 1))
                        .toString(),
                "--out",
                results());
        assertEquals(0, ran.status(), ran::all);
    }

    private String results() {
        return bench.file("results").toString();
    }

    private String page() throws IOException {
        return Files.readString(bench.file("results/check-sheet.html"));
    }

    @Test
    void eachFailSafeOfTheRegisterIsOnItWithItsProofAndItsPlugs() throws IOException {
        Told told = Told.by("check-sheet", results(), "--build", "1.0");

        assertEquals(3, told.status(), told::all);
        assertTrue(told.out().contains("1 of 13 fail-safes proven on build 1.0; runs looked at: 1"), told::all);
        assertTrue(told.out().contains("warning: never run: FS-01, FS-02, FS-04"), told::all);
        assertTrue(told.out().contains("warning: proven on a virtual rig only, where nothing moves: FS-03"), told::all);
        String page = page();
        assertEquals(14, page.split("<tr", -1).length - 1, "the head and 13 fail-safes");
        assertTrue(page.contains("J5, light beam across the fingers, normally lit"));
        assertTrue(page.contains("told only: no real sag, heat or force; grip-not-there-yet"), page);
    }

    @Test
    void anotherBuildOnTheMachineIsWarnedOf() throws IOException {
        Told told = Told.by("check-sheet", results(), "--build", "1.1");

        assertEquals(3, told.status(), told::all);
        assertTrue(told.out().contains("0 of 13 fail-safes proven on build 1.1"), told::all);
        assertTrue(
                told.out().contains("warning: proven only on another build than the one on the machine, 1.1: FS-03"),
                told::all);
        assertTrue(page().contains("! other build"));
    }

    @Test
    void withoutTheRigsFilesTheRegisterIsTakenAsItWasInTheRun() throws IOException {
        Path journal = bench.run().resolve("journal.jsonl");
        Files.writeString(
                journal,
                Files.readString(journal).replace("\"rig\":\"seedling-shuttle\"", "\"rig\":\"shuttle-of-last-year\""));

        Told told = Told.by("check-sheet", results());

        assertEquals(3, told.status(), told::all);
        assertTrue(told.err().contains("taken as it was in"), told::all);
        assertTrue(told.out().contains("warning: nobody has said which build is on the machine"), told::all);
        assertTrue(page().contains("J5, light beam across the fingers, normally lit"));
    }

    @Test
    void aSpoiltJournalIsLeftOutWithAWarningAndNoFolderIsAnError() throws IOException {
        Files.createDirectories(bench.file("results/spoilt"));
        bench.write("results/spoilt/journal.jsonl", "nothing\n");

        Told told = Told.by("check-sheet", results(), "--build", "1.0");
        Told none = Told.by("check-sheet", bench.file("nowhere").toString());

        assertTrue(told.err().contains("warning: left out: "), told::all);
        assertTrue(told.out().contains("1 of 13 fail-safes proven"), told::all);
        assertEquals(2, none.status(), none::all);
        assertTrue(none.err().contains("there is no folder"), none::all);
        assertFalse(none.err().contains("\tat "), none::all);
    }
}
