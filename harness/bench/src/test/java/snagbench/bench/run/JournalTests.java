package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.judge.Fact;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.InjectionFacts;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.ValueMargin;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.Place;
import snagbench.wire.EntryEnd;

/** What is appended to a journal is there at once, a line each, and comes back as it was. */
class JournalTests {
    private static final Place PLACE = new Place(Path.of("plans", "Stöße \"schnell\".fault.yaml"), 3, 5);

    @TempDir
    Path folder = Path.of("");

    private static RunHeader header(String... planned) {
        return new RunHeader(
                Instant.parse("2026-03-01T22:15:00Z"),
                "0.1",
                "17",
                "nightly",
                "nightly.plan.yaml",
                "shuttle",
                "1.0",
                false,
                "0x00c0ffee",
                7,
                List.of(planned));
    }

    private static ScriptResult result(int index, Verdict verdict) {
        Finding finding = new Finding(
                "sees it",
                PLACE,
                verdict,
                List.of(new Fact("expected", "FS-02 answers\nwithin 250 ms"), new Fact("but was", "ü\u2028\u0001")),
                OptionalLong.of(31),
                OptionalLong.empty(),
                OptionalLong.of(-62_000),
                Optional.of(new ValueMargin("battery.voltage", -58, 1, -2, "V")),
                OptionalLong.of(250_000));
        InjectionFacts injection = new InjectionFacts(
                "blocked",
                OptionalLong.of(4),
                OptionalLong.of(20_000),
                OptionalLong.empty(),
                OptionalLong.empty(),
                Optional.of(EntryEnd.WHILE),
                true,
                3);
        Judgement judgement = new Judgement(
                verdict,
                List.of(finding),
                OptionalLong.of(1),
                OptionalLong.empty(),
                OptionalLong.of(-62_000),
                List.of(injection),
                List.of("a reason"));
        return new ScriptResult(
                index,
                "reach \"blocked\"",
                PLACE,
                2,
                3,
                -5,
                List.of("FS-02"),
                ScriptResult.Evidence.TOLD_AND_PHYSICAL,
                judgement,
                3_000_000_000L,
                new ScriptResult.LoopTimes(5100, 5200),
                9,
                Optional.of("0.trace"),
                Optional.empty());
    }

    private Path file() {
        return folder.resolve(Journal.FILE_NAME);
    }

    @Test
    void eachLineIsOnDiskBeforeTheNextAndComesBackAsItWas() throws IOException {
        RunHeader header = header("one", "two", "three");
        try (Journal journal = Journal.create(folder, header)) {
            assertEquals(new RunRecord(header, List.of(), Optional.empty()), RunRecord.read(file()));
            journal.append(result(0, Verdict.FAIL));
            assertEquals(
                    List.of(result(0, Verdict.FAIL)), RunRecord.read(file()).results());
            journal.append(result(1, Verdict.NONE));
            assertEquals(3, Files.readAllLines(file()).size(), "whatever is in a line, it is one line");
            assertEquals(List.of("three"), RunRecord.read(file()).notRun());
            journal.append(new RunEnd(RunEnd.Cause.CANCELLED, "stopped by the user"));
        }

        RunRecord run = RunRecord.read(file());
        assertEquals(header, run.header());
        assertEquals(List.of(result(0, Verdict.FAIL), result(1, Verdict.NONE)), run.results());
        assertEquals(Optional.of(new RunEnd(RunEnd.Cause.CANCELLED, "stopped by the user")), run.end());
    }

    @Test
    void aJournalThatIsThereIsNotWrittenOver() throws IOException {
        Journal.create(folder, header("one")).close();
        String before = Files.readString(file());

        assertThrows(FileAlreadyExistsException.class, () -> Journal.create(folder, header("other")));
        assertEquals(before, Files.readString(file()));
    }

    @Test
    void aJournalFromBeforeThereWereLimitsIsRead() throws IOException {
        try (Journal journal = Journal.create(folder, header("one"))) {
            journal.append(result(0, Verdict.FAIL));
        }
        String now = Files.readString(file());
        String before = now.replace(",\"limitMicros\":250000", "");
        assertEquals(now.length() - 21, before.length());
        Files.writeString(file(), before);

        Finding finding =
                RunRecord.read(file()).results().get(0).judgement().findings().get(0);

        assertEquals(OptionalLong.empty(), finding.limitMicros());
        assertEquals(OptionalLong.of(-62_000), finding.marginMicros());
    }

    @Test
    void aFieldOfANewerHarnessIsSkipped() throws IOException {
        Journal.create(folder, header("one")).close();
        Files.writeString(
                file(), Files.readString(file()).replace("\"plan\":", "\"weather\":{\"rain\":true},\"plan\":"));

        assertEquals(header("one"), RunRecord.read(file()).header());
    }

    @ParameterizedTest
    @CsvSource({
        "First light!, 2026-03-01T22-15-07-first-light",
        "' .. / ', 2026-03-01T22-15-07-run",
        "Überlast, 2026-03-01T22-15-07-berlast"
    })
    void aRunsFolderBearsTimeAndNameAndNothingThatAFileSystemMinds(String name, String expected) throws IOException {
        LocalDateTime at = LocalDateTime.parse("2026-03-01T22:15:07");
        Path results = folder.resolve("new/results");

        assertEquals(
                results.resolve(expected), RunFolder.create(results, at, name).path());
        Path second = RunFolder.create(results, at, name).path();
        assertEquals(results.resolve(expected + "-2"), second);
        assertTrue(Files.isDirectory(second));
    }

    @Test
    void aVeryLongNameIsCut() throws IOException {
        Path made = RunFolder.create(folder, LocalDateTime.parse("2026-03-01T22:15:07"), "word ".repeat(100))
                .path();

        assertTrue(String.valueOf(made.getFileName()).length() <= 60, made::toString);
        assertFalse(made.toString().endsWith("-"), made::toString);
    }
}
