package snagbench.bench.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.script.Place;

/** Results of a file that varies something are shown as one row with the worst case, and as a picture. */
class FamilyTests {
    private static final Place PLACE = new Place(Path.of("v.fault.yaml"), 1, 1);

    private static ScriptResult result(
            int number, int of, String setting, Verdict verdict, OptionalLong margin, Place place) {
        Judgement judgement = new Judgement(
                verdict,
                List.of(),
                OptionalLong.of(100_000L * number),
                OptionalLong.empty(),
                margin,
                List.of(),
                List.of());
        return new ScriptResult(
                number - 1,
                "blocked somewhere",
                place,
                1,
                1,
                7,
                List.of("FS-02"),
                ScriptResult.Evidence.TOLD,
                judgement,
                1_000_000,
                new ScriptResult.LoopTimes(5100, 5200),
                0,
                Optional.empty(),
                of == 0 ? Optional.empty() : Optional.of(new ScriptResult.Variation(setting, number, of)));
    }

    private static List<ScriptResult> family(long... margins) {
        List<ScriptResult> members = new ArrayList<>();
        for (int i = 0; i < margins.length; i++) {
            members.add(result(
                    i + 1,
                    margins.length,
                    "at " + 20 * (i + 1) + " mm",
                    margins[i] < 0 ? Verdict.FAIL : Verdict.PASS,
                    OptionalLong.of(margins[i]),
                    PLACE));
        }
        return members;
    }

    @Test
    void aFileThatVariesSomethingIsOneRowWithItsWorstCaseAndAPictureOverTheRange() {
        assertEquals(
                """
                fail             400.0 ms            -     -50.0 ms              -   blocked somewhere, FS-02, told, worst of 4: 2 pass, 2 fail
                  at 20 mm  pass            +100.0 ms               |==========================
                  at 40 mm  pass              +0.1 ms               |=
                  at 60 mm  fail             -25.0 ms        <<<<<<<|
                  at 80 mm  fail             -50.0 ms  <<<<<<<<<<<<<|
                """, String.join("\n", ResultText.rows(new Family(family(100_000, 100, -25_000, -50_000)))) + "\n");
    }

    @Test
    void whatNeverCameAboutHasNoBarWhateverOthersHadToSpare() {
        List<ScriptResult> members = new ArrayList<>(family(100_000));
        members.add(result(2, 2, "at 40 mm", Verdict.FAIL, OptionalLong.of(14_000), PLACE));

        List<String> lines = ResultText.rows(new Family(members));

        assertTrue(lines.get(0).startsWith("fail "), lines.get(0));
        assertEquals("  at 40 mm  fail                    -  |", lines.get(2));
    }

    @Test
    void theWorstIsThatOfTheWorstVerdictWithTheLeastMargin() {
        assertEquals(3, new Family(family(100, 5, -1, -7, -3)).worst().index());
        assertEquals(1, new Family(family(100, 5, 70)).worst().index());
    }

    @Test
    void otherThanTheWorstAreNamedIfTheyDidNotPass() {
        List<String> details = ResultText.details(new Family(family(100, -5, -70)));

        assertTrue(
                details.get(0).startsWith("fail: blocked somewhere, at 60 mm (v.fault.yaml:1:1"), details.toString());
        assertEquals("  that is the worst case; not passed either: at 40 mm (fail)", details.get(details.size() - 1));
        assertEquals(List.of(), ResultText.details(new Family(family(100, 5, 70))));
    }

    @Test
    void onlyWhatIsOfOneFileAndOnePlaceInThePlanBelongsTogether() {
        List<ScriptResult> all = new ArrayList<>();
        all.add(result(1, 0, "", Verdict.PASS, OptionalLong.empty(), PLACE));
        all.add(result(2, 0, "", Verdict.PASS, OptionalLong.empty(), PLACE));
        all.addAll(family(1, 2, 3));
        all.addAll(family(4, 5));
        all.add(result(3, 3, "at 1 mm", Verdict.PASS, OptionalLong.empty(), new Place(Path.of("w.fault.yaml"), 1, 1)));

        List<Family> families = Family.of(all);

        assertEquals(
                List.of(1, 1, 3, 2, 1),
                families.stream().map(one -> one.members().size()).toList());
        assertFalse(families.get(0).varies());
        assertTrue(families.get(4).varies());
        assertEquals(List.of(ResultText.row(all.get(0))), ResultText.rows(families.get(0)));
    }
}
