package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.Journal;
import snagbench.bench.run.RunRecord;

/** A virtual rig of the user's own, plugged in on the class path, whose code is wrong: it is named, and the run ends. */
class UsersRigProcessTests {
    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);
    private Path service = empty;

    @BeforeEach
    void plugIn() throws IOException {
        bench = Bench.in(empty);
        bench.spoil(Bench.RIG + "rig.yaml", "virtual: seedling-shuttle", "virtual: users-rig");
        service = UsersRigs.serviceIn(empty);
    }

    private BenchProcess.Ended run(UsersRigs.Mistake mistake) throws Exception {
        String plan = bench.plan("reach-stopped-short-in-the-rack-zone", 3);
        bench.spoil(plan, "rig: seedling-shuttle", "rig: seedling-shuttle\nbuild: " + mistake);
        try (BenchProcess process = BenchProcess.start(empty, List.of(service), "run", plan)) {
            return process.ended();
        }
    }

    @ParameterizedTest
    @CsvSource({"THROWS, the belt slipped", "BABBLES, did not answer", "STANDS_STILL, came back at"})
    void aRigThatFailsWhileAPlanRunsIsNamedAndWhatWasFinishedStays(UsersRigs.Mistake mistake, String why)
            throws Exception {
        BenchProcess.Ended ended = run(mistake);

        assertEquals(4, ended.status(), ended::all);
        assertTrue(ended.out().contains("virtual rig users-rig"), ended::all);
        assertTrue(ended.out().contains(why), ended::all);
        assertTrue(ended.out().contains("not run: "), ended::all);
        assertFalse(ended.all().contains("\tat "), ended::all);
        RunRecord run = RunRecord.read(bench.run().resolve(Journal.FILE_NAME));
        assertEquals(Verdict.PASS, run.results().get(0).judgement().verdict());
        assertEquals(why, find(run.end().orElseThrow().reason(), why));
    }

    private static String find(String text, String part) {
        return text.contains(part) ? part : text;
    }

    @Test
    void aRigThatCannotBeMadeIsNamed() throws Exception {
        BenchProcess.Ended ended = run(UsersRigs.Mistake.CANNOT_BE_MADE);

        assertEquals(4, ended.status(), ended::all);
        assertTrue(ended.err().contains("virtual rig users-rig could not be made"), ended::all);
        assertTrue(ended.err().contains("the belt is missing"), ended::all);
        assertTrue(ended.err().endsWith("Nothing was run.\n"), ended::all);
        assertFalse(ended.all().contains("\tat "), ended::all);
    }

    @Test
    @Tag("long")
    void aRigThatDoesNotComeBackIsNamedAndTheProcessEnds() throws Exception {
        BenchProcess.Ended ended = run(UsersRigs.Mistake.HANGS);

        assertEquals(4, ended.status(), ended::all);
        assertTrue(ended.err().contains("virtual rig users-rig has not come back"), ended::all);
        RunRecord run = RunRecord.read(bench.run().resolve(Journal.FILE_NAME));
        assertEquals(Verdict.PASS, run.results().get(0).judgement().verdict(), "what was finished stays");
        assertTrue(run.end().isEmpty());
        assertEquals(3, Told.by("report", bench.run().toString()).status());
    }
}
