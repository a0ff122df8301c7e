package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
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
    void theBuildIsSaidOrAskedForAndNeverBoth() {
        Told told = Told.by("check-sheet", results(), "--build", "1.0", "--port", "/dev/no-such-port");
        Told asked = Told.by("check-sheet", results(), "--port", "/dev/no-such-port");

        assertEquals(2, told.status(), told::all);
        assertTrue(told.err().contains("--build and --port both say which build is on the machine"), told::all);
        assertFalse(Files.exists(bench.file("results/check-sheet.html")));
        assertEquals(4, asked.status(), asked::all);
        assertTrue(asked.err().contains("/dev/no-such-port"), asked::all);
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

    /** A build that has lost the fail-safe: a script in which it is to keep quiet passes there, and proves nothing. */
    @Test
    void whatKeepsQuietBecauseItIsNotThereIsNotProven() throws IOException {
        without("reach-stands-too-short-to-count");
        Told quiet = checked();
        assertEquals(3, quiet.status(), quiet::all);
        assertTrue(
                quiet.out().contains("warning: run, but nothing that was run asked it to answer: FS-02"), quiet::all);
        assertTrue(page().contains("? not asked"));
        Path run = runOf("reach-stands-too-short-to-count");
        assertTrue(Files.readString(run.resolve("report.html")).contains("it only had to keep quiet"));
        Told matrix = Told.by("report", run.toString(), "--matrix");
        assertTrue(
                matrix.out().contains("reach-stands-too-short-to-count.fault.yaml, it only had to keep quiet"),
                matrix::all);

        without("reach-blocked-midway");
        without("reach-stands-too-short-to-count");
        Told failed = checked();
        assertEquals(1, failed.status(), failed::all);
        assertTrue(failed.out().contains("0 of 13 fail-safes proven on build 1.0 no FS-02"), failed::all);
        assertTrue(failed.out().contains("warning: failed when last run: FS-02"), failed::all);
    }

    private void without(String script) throws IOException {
        String name = bench.plan(script, 1);
        bench.spoil(name, "rig: seedling-shuttle\n", "rig: seedling-shuttle\nbuild: without-FS-02\n");
        Told.by("run", bench.file(name).toString(), "--out", results());
    }

    private Told checked() {
        return Told.by("check-sheet", results(), "--build", "1.0 no FS-02");
    }

    private Path runOf(String script) throws IOException {
        try (Stream<Path> runs = Files.list(bench.file("results"))) {
            for (Path run : runs.filter(Files::isDirectory).toList()) {
                if (Files.readString(run.resolve("journal.jsonl")).contains(script)) {
                    return run;
                }
            }
        }
        throw new AssertionError("no run of " + script);
    }
}
