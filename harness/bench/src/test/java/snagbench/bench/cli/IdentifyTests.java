package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.DescriptionItems;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.read.Snapshots;

/** A rig tells what it is; that is stored; and a rig that is not the stored one is not run. */
class IdentifyTests {
    private static final String SNAPSHOT = Bench.RIG + "rig.snapshot.json";

    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    @Test
    void theCommittedSnapshotIsWhatTheRigTells() throws Exception {
        String committed = bench.read(SNAPSHOT);
        Files.delete(bench.file(SNAPSHOT));

        BenchProcess.Ended ended = BenchProcess.run(empty, "identify", "--rig", "seedling-shuttle", "--save");

        assertEquals(0, ended.status(), ended::all);
        assertEquals(committed, bench.read(SNAPSHOT));
        assertTrue(ended.out().contains(SNAPSHOT), ended::all);
        assertTrue(ended.out().contains("reach.position"), ended::all);
        assertTrue(ended.out().contains("FS-01, FS-02, FS-03"), ended::all);
        assertFalse(bench.hasResults());
    }

    @Test
    void identifyingChangesNothingAndSaysThatTheStoredOneIsTheSame() throws Exception {
        String committed = bench.read(SNAPSHOT);

        BenchProcess.Ended ended = BenchProcess.run(empty, "identify", "--rig", "seedling-shuttle");

        assertEquals(0, ended.status(), ended::all);
        assertTrue(ended.out().lines().anyMatch(line -> line.matches("stored +the same")), ended::all);
        assertEquals(committed, bench.read(SNAPSHOT));
    }

    /** As if the control code had been built anew with another range, after the description was stored. */
    private void storeAnotherRange() throws IOException {
        RigDescription stored = Snapshots.read(bench.file(SNAPSHOT)).value().orElseThrow();
        List<ChannelDescription> channels = stored.channels().stream()
                .map(one -> one.name().equals("reach.current") ? withHighest(one, 2900) : one)
                .toList();
        assertNotEquals(stored.channels(), channels);
        RigDescription other = new RigDescription(0, channels, stored.failSafes(), stored.limits());
        Snapshots.write(
                bench.file(SNAPSHOT),
                new RigDescription(DescriptionItems.digestOf(other), channels, other.failSafes(), other.limits()));
    }

    private static ChannelDescription withHighest(ChannelDescription was, int highest) {
        return new ChannelDescription(
                was.index(),
                was.name(),
                was.kind(),
                was.unit(),
                was.stepMultiplier(),
                was.stepExponent(),
                was.lowest(),
                highest,
                was.absent(),
                was.flags(),
                was.valueNames());
    }

    @Test
    void aRigThatChangedIsRefusedWithTheChannelThatDiffers() throws Exception {
        storeAnotherRange();

        BenchProcess.Ended ended = BenchProcess.run(empty, "run", Bench.PLANS + "first-light.plan.yaml");

        assertEquals(4, ended.status(), ended::all);
        assertTrue(ended.err().contains("channel \"reach.current\""), ended::all);
        assertTrue(ended.err().contains("29.00 A"), ended::all);
        assertTrue(ended.err().contains("30.00 A"), ended::all);
        assertFalse(ended.err().contains("\"reach.position\""), ended::all);
        assertTrue(ended.err().contains("identify --save"), ended::all);
        assertTrue(ended.err().endsWith("Nothing was run.\n"), ended::all);
        assertEquals(List.of(bench.file("results")), all(bench.file("results")), "no folder of a run that was none");
    }

    private static List<Path> all(Path folder) throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            return files.toList();
        }
    }

    @Test
    void identifyTellsOfADifferenceAndSavingMendsIt() throws Exception {
        String committed = bench.read(SNAPSHOT);
        storeAnotherRange();

        BenchProcess.Ended differs = BenchProcess.run(empty, "identify", "--rig", "seedling-shuttle");
        assertEquals(4, differs.status(), differs::all);
        assertTrue(differs.out().contains("channel \"reach.current\""), differs::all);

        BenchProcess.Ended saved = BenchProcess.run(empty, "identify", "--rig", Bench.RIG, "--save");
        assertEquals(0, saved.status(), saved::all);
        assertEquals(committed, bench.read(SNAPSHOT));
    }

    @Test
    void withoutARigOrWithOneThatIsNotThereNothingIsAsked() {
        Told none = Told.by("identify");
        assertEquals(2, none.status(), none::all);
        assertTrue(none.err().contains("--rig"), none::all);

        Told unknown = Told.by(
                "identify", "--rig", bench.file("fixtures/seedling-shutle").toString());
        assertEquals(2, unknown.status(), unknown::all);
    }
}
