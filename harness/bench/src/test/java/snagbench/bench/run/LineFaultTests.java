package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.LineFaultCampaign.Outcome;
import snagbench.bench.run.LineFaultCampaign.Tally;

/**
 * A bad line makes no verdict, and nothing hangs: bytes are struck both ways between the real rig and the harness, and a
 * pass or fail must be the one of the line without faults.
 */
class LineFaultTests {
    private static final double ALIKE_POINTS = 8;

    @Test
    void aBadLineMakesNoVerdict() throws Exception {
        check(new LineFaultCampaign(20).run(0, 256));
    }

    /** Writes the table of the page to target/line-faults.md, and fails where the page is no longer right. */
    @Test
    @Tag("long")
    void aBadLineMakesNoVerdictInTenThousandRuns() throws Exception {
        Tally tally = new LineFaultCampaign(500).run(0, 10_000);
        List<String> table = LineFaultTable.of(tally);
        Path root = Path.of(System.getProperty("snagbench.root"));
        Files.write(root.resolve("harness/bench/target/line-faults.md"), table);
        check(tally);
        Path page = root.resolve("docs/lines-that-lose-bytes.md");
        List<String> told = Files.readAllLines(page, StandardCharsets.UTF_8).stream()
                .filter(line -> line.startsWith("|"))
                .toList();
        assertTrue(
                LineFaultTable.areAlike(told, table, ALIKE_POINTS),
                () -> page + " is to say:\n" + String.join("\n", table));
    }

    private static void check(Tally tally) {
        assertEquals(List.of(), tally.wrong());
        int runs = 0;
        int unknown = 0;
        for (double rate : LineFaultCampaign.RATES) {
            runs += tally.runs(rate);
            unknown += tally.count(rate, Outcome.INCONCLUSIVE);
        }
        for (Verdict settled : List.of(Verdict.PASS, Verdict.FAIL)) {
            int those = tally.whole(settled);
            assertTrue(those > runs / 4, those + " of " + runs + " scripts " + settled + " without line faults");
        }
        assertEquals(tally.runs(0), tally.count(0, Outcome.SAME), "a line that is only late and slow loses nothing");
        assertTrue(unknown > runs / 50, unknown + " of " + runs + " runs are inconclusive");
        assertTrue(tally.struck() > runs, tally.struck() + " bytes were struck in " + runs + " runs");
    }
}
