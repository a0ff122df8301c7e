package snagbench.bench.evidence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Claim;

/** How often a script runs. The numbers of runs are those of the success-run formula, see {@link SampleSizeTests}. */
class RepeatPlanTests {
    private static final Optional<Claim> NINETY = Optional.of(new Claim(0.9, 0.9, 0));

    private static RepeatPlan plan(OptionalInt repeat, Optional<Claim> claim, int scripts) {
        return RepeatPlan.of(repeat, claim, scripts);
    }

    private static RepeatPlan agreed(int each, int total) {
        return new RepeatPlan(each, total, Optional.empty());
    }

    @Test
    void withoutAClaimItRunsAsOftenAsSaidOrOnce() {
        assertEquals(agreed(1, 3), plan(OptionalInt.empty(), Optional.empty(), 3));
        assertEquals(agreed(4, 12), plan(OptionalInt.of(4), Optional.empty(), 3));
    }

    @ParameterizedTest
    @CsvSource({"1, 22, 22", "2, 11, 22", "3, 8, 24", "22, 1, 22", "30, 1, 30"})
    void withAClaimAllScriptsOfAFileShareWhatIsNeeded(int scripts, int each, int total) {
        assertEquals(agreed(each, total), plan(OptionalInt.empty(), NINETY, scripts));
    }

    @Test
    void moreRunsThanTheClaimNeedsAreMade() {
        assertEquals(agreed(22, 22), plan(OptionalInt.of(22), NINETY, 1));
        assertEquals(agreed(8, 24), plan(OptionalInt.of(8), NINETY, 3));
        assertEquals(agreed(100, 100), plan(OptionalInt.of(100), NINETY, 1));
    }

    @Test
    void fewerAreRefusedAndAPlanOfOneRunRemains() {
        RepeatPlan refused = plan(OptionalInt.of(21), NINETY, 1);
        assertEquals(1, refused.each());
        assertEquals(1, refused.total());
        assertEquals(
                "a claim of 90 % reliability at 90 % confidence takes 22 runs without a failure, and 21 are planned",
                refused.objection().orElseThrow().message());
        assertEquals(
                "leave \"repeat\" out, and it runs as often as that takes; or claim less",
                refused.objection().orElseThrow().cure());
    }

    @ParameterizedTest
    @CsvSource({
        "1, 7, 'takes 38 runs with 1 failure allowed, and 7 of each of its 3 are planned'",
        "2, 10, 'takes 52 runs with 2 failures allowed, and 10 of each of its 3 are planned'"
    })
    void whatIsAllowedAndHowManyAreOfAFileIsSaid(int failures, int repeat, String words) {
        RepeatPlan refused = plan(OptionalInt.of(repeat), Optional.of(new Claim(0.9, 0.9, failures)), 3);
        assertEquals(
                "a claim of 90 % reliability at 90 % confidence " + words,
                refused.objection().orElseThrow().message());
    }

    /** 0.9997 at 95 % takes 9985 runs, 0.99971 takes 10329: ln(0.05) / ln(R), rounded up. */
    @Test
    void aPlanMakesTenThousandRunsOfAScriptAtMost() {
        assertEquals(agreed(9985, 9985), plan(OptionalInt.empty(), Optional.of(new Claim(0.9997, 0.95, 0)), 1));
        RepeatPlan refused = plan(OptionalInt.empty(), Optional.of(new Claim(0.99971, 0.95, 0)), 1);
        assertEquals(
                "a claim of 99.971 % reliability at 95 % confidence takes 10329 runs without a failure,"
                        + " and a plan makes 10000 of a script at most",
                refused.objection().orElseThrow().message());
        assertEquals(
                "claim less; repeats cannot show that much",
                refused.objection().orElseThrow().cure());
    }

    @Test
    void asManyAreMadeWithoutAClaimAndNoMore() {
        assertEquals(agreed(10_000, 10_000), plan(OptionalInt.of(10_000), Optional.empty(), 1));
        assertEquals(agreed(10, 10_000), plan(OptionalInt.of(10), Optional.empty(), 1000));
        RepeatPlan refused = plan(OptionalInt.of(11), Optional.empty(), 1000);
        assertEquals(1, refused.each());
        assertEquals(
                "11 runs of each of the 1000 scripts that the file stands for are 11000, and a plan makes 10000 of a file"
                        + " at most",
                refused.objection().orElseThrow().message());
        assertEquals(
                "write less for \"repeat\", or vary fewer values",
                refused.objection().orElseThrow().cure());
    }

    @ParameterizedTest
    @CsvSource({"10000, 1000, 10000000", "11, 1000, 11000"})
    void noMoreAreMadeForAClaimEither(int repeat, int scripts, int runs) {
        RepeatPlan refused = plan(OptionalInt.of(repeat), NINETY, scripts);
        assertTrue(
                refused.objection().orElseThrow().message().contains(" are " + runs + ", and a plan makes 10000"),
                refused::toString);
    }

    /** R = 0.5^(1/10000) at 50 % takes just 10000 runs without a failure. */
    @Test
    void tenThousandItselfIsStillMade() {
        double reliability = Math.nextDown(Math.pow(0.5, 1.0 / 10_000));
        assertEquals(agreed(10_000, 10_000), plan(OptionalInt.empty(), Optional.of(new Claim(reliability, 0.5, 0)), 1));
    }

    @Test
    void whatNoNumberOfRunsShowsIsRefusedWithoutANumber() {
        RepeatPlan refused = plan(OptionalInt.empty(), Optional.of(new Claim(0.9999999999, 0.99, 0)), 1);
        assertEquals(
                "a claim of 99.99999999 % reliability at 99 % confidence takes more than 1000000 runs without a failure,"
                        + " and a plan makes 10000 of a script at most",
                refused.objection().orElseThrow().message());
    }
}
