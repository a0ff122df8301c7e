package snagbench.bench.evidence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import snagbench.bench.evidence.ClaimOutcome.Standing;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.Claim;

class RepeatsTests {
    private static final Circumstances VIRTUAL = new Circumstances(false, 0);
    private static final Circumstances REAL_RESTED = new Circumstances(true, 20_000_000);
    private static final Claim NINETY = new Claim(0.9, 0.9, 0);

    /** P pass, F fail, I inconclusive, E error, - not run; each with another seed and another time. */
    private static List<Attempt> attempts(String letters) {
        return IntStream.range(0, letters.length())
                .mapToObj(i -> new Attempt(
                        verdict(letters.charAt(i)),
                        OptionalLong.of(100_000 + 10_000L * (i * 7 % 11)),
                        letters.charAt(i) == 'P'
                                ? OptionalLong.of(900_000 + 10_000L * (i * 5 % 13))
                                : OptionalLong.empty(),
                        OptionalLong.of(50_000 + 1000L * i),
                        1 + i,
                        ""))
                .toList();
    }

    private static Verdict verdict(char letter) {
        return switch (letter) {
            case 'P' -> Verdict.PASS;
            case 'F' -> Verdict.FAIL;
            case 'I' -> Verdict.INCONCLUSIVE;
            case 'E' -> Verdict.ERROR;
            default -> Verdict.NONE;
        };
    }

    private static Repeats of(String letters, int planned, Claim claim) {
        return Repeats.of(attempts(letters), planned, Optional.of(claim), VIRTUAL);
    }

    @Test
    void twentyTwoOfTwentyTwoShowNinetyPercent() {
        Repeats repeats = of("P".repeat(22), 22, NINETY);
        assertEquals(Standing.MET, repeats.claim().orElseThrow().standing());
        assertEquals("22 of 22 passed: at least 90.0 % of all such runs would, at 90 % confidence", repeats.words());
        assertEquals(
                "claim met: 90 % reliability at 90 % confidence (22 of 22 passed)",
                repeats.claim().orElseThrow().words());
        assertEquals(List.of(), repeats.warnings());
        assertFalse(repeats.inconsistent());
    }

    @Test
    void oneRunFewerDoesNot() {
        Repeats repeats = of("P".repeat(21), 22, NINETY);
        assertEquals(Standing.NOT_MET, repeats.claim().orElseThrow().standing());
        assertEquals(
                "21 of 21 passed, 1 of 22 were not run: at least 89.6 % of all such runs would, at 90 % confidence",
                repeats.words());
        assertEquals(
                "claim not met: 90 % reliability at 90 % confidence (21 of 21 passed, and 22 runs were to show it)",
                repeats.claim().orElseThrow().words());
    }

    @Test
    void whatNoRunToComeCanMendIsOutOfReach() {
        Repeats repeats = of("PPPF" + "-".repeat(18), 22, NINETY);
        assertEquals(4, repeats.runs());
        assertEquals(Standing.OUT_OF_REACH, repeats.claim().orElseThrow().standing());
        assertTrue(repeats.inconsistent());
        assertEquals(
                "3 of 4 passed, 18 of 22 were not run: at least 32.0 % of all such runs would, at 90 % confidence;"
                        + " inconsistent: it both passes and fails",
                repeats.words());
        assertEquals(
                "claim cannot be met any more: 90 % reliability at 90 % confidence (3 of 4 passed, and all 22 had to)",
                repeats.claim().orElseThrow().words());
    }

    @Test
    void anInconclusiveRunIsNoSuccess() {
        for (char other : new char[] {'I', 'E', 'F'}) {
            Repeats repeats = of("P".repeat(21) + other, 22, NINETY);
            assertEquals(Standing.NOT_MET, repeats.claim().orElseThrow().standing(), "" + other);
            assertEquals(21, repeats.passes());
            assertEquals(other == 'F' ? 1 : 0, repeats.fails());
            assertEquals(other == 'F' ? 0 : 1, repeats.others());
            assertEquals(Bound.of(21, 22, 0.9), repeats.bound().orElseThrow());
            assertEquals(other == 'F', repeats.inconsistent());
        }
    }

    @Test
    void aFailureThatIsAllowedLeavesTheClaimMetAndTheScriptInconsistent() {
        Claim oneMayFail = new Claim(0.9, 0.9, 1);
        Repeats repeats = of("P".repeat(20) + "F" + "P".repeat(17), 38, oneMayFail);
        assertEquals(Standing.MET, repeats.claim().orElseThrow().standing());
        assertTrue(repeats.inconsistent());
        assertEquals(
                Standing.OUT_OF_REACH,
                of("P".repeat(20) + "FF", 38, oneMayFail).claim().orElseThrow().standing());
        // The number of runs was fixed at 38 beforehand: 22 passes in a row do not end it early.
        assertEquals(
                Standing.NOT_MET,
                of("P".repeat(22), 38, oneMayFail).claim().orElseThrow().standing());
    }

    @Test
    void whereTheWholeNumberWasRunAndTooFewPassedTheClaimIsPlainlyNotMet() {
        assertEquals(
                "claim not met: 90 % reliability at 90 % confidence (36 of 38 passed, and 37 of 38 had to)",
                of("FF" + "P".repeat(36), 38, new Claim(0.9, 0.9, 1))
                        .claim()
                        .orElseThrow()
                        .words());
    }

    @Test
    void nothingRunShowsNothing() {
        Repeats repeats = of("----", 4, NINETY);
        assertEquals(0, repeats.runs());
        assertEquals(Optional.empty(), repeats.bound());
        assertEquals("none of 4 was run", repeats.words());
        assertEquals(Standing.NOT_MET, repeats.claim().orElseThrow().standing());
    }

    @Test
    void timesAreToldApart() {
        Repeats repeats = of("P".repeat(22), 22, NINETY);
        TimeSummary recovery = repeats.recovery().orElseThrow();
        assertEquals(1_020_000, recovery.worstMicros());
        assertEquals(1_020_000, recovery.bound().orElseThrow().micros());
        assertEquals(22, recovery.bound().orElseThrow().rank());
        assertEquals(200_000, repeats.detection().orElseThrow().worstMicros());
    }

    @Test
    void aRunWithoutRecoveryIsNoFastOne() {
        Repeats repeats = of("P".repeat(21) + "F", 22, NINETY);
        assertEquals(Optional.empty(), repeats.recovery().orElseThrow().bound());
        assertEquals(21, repeats.recovery().orElseThrow().seen());
    }

    private static Attempt passing(int seed, long recoveryMicros) {
        return new Attempt(
                Verdict.PASS,
                OptionalLong.of(100_000),
                OptionalLong.of(recoveryMicros),
                OptionalLong.of(50_000),
                seed,
                "");
    }

    private static List<String> warnings(List<Attempt> attempts, Circumstances circumstances) {
        return Repeats.of(attempts, attempts.size(), Optional.empty(), circumstances)
                .warnings();
    }

    @Test
    void theSameSeedMakesRepeatsOneRun() {
        List<Attempt> same = List.of(passing(7, 900_000), passing(7, 900_000));
        assertEquals(
                List.of("nothing was varied: all repeats had the same seed, so they are one run, seen 2 times"),
                warnings(same, VIRTUAL));
    }

    @Test
    void seedsThatChangeNothingAreNoticed() {
        List<Attempt> alike = List.of(passing(1, 900_000), passing(2, 900_000), passing(3, 900_000));
        List<String> warnings = warnings(alike, VIRTUAL);
        assertEquals(1, warnings.size());
        assertTrue(warnings.get(0).startsWith("all 3 repeats went alike to the microsecond"), warnings.get(0));
        assertEquals(
                List.of(), warnings(List.of(passing(1, 900_000), passing(2, 900_000), passing(3, 910_000)), VIRTUAL));
    }

    @Test
    void aRealRigWantsMomentsAndRest() {
        List<Attempt> two = List.of(passing(1, 900_000), passing(2, 910_000));
        List<String> warnings = warnings(two, new Circumstances(true, 0));
        assertEquals(2, warnings.size());
        assertTrue(warnings.get(0).startsWith("nothing was varied: seeds vary virtual rigs only"), warnings.get(0));
        assertTrue(warnings.get(1).startsWith("a real rig ran again with no rest"), warnings.get(1));

        List<Attempt> varied = List.of(
                new Attempt(
                        Verdict.PASS, OptionalLong.empty(), OptionalLong.empty(), OptionalLong.of(1), 1, "at 20 mm"),
                new Attempt(
                        Verdict.PASS, OptionalLong.empty(), OptionalLong.empty(), OptionalLong.of(2), 2, "at 40 mm"));
        assertEquals(List.of(), warnings(varied, REAL_RESTED));
    }

    @Test
    void aDriftOfTimesIsNoticedOnAPassingScript() {
        List<Attempt> slower = IntStream.range(0, 14)
                .mapToObj(i -> passing(i, 900_000 + 10_000L * i))
                .toList();
        List<String> warnings = warnings(slower, VIRTUAL);
        assertEquals(1, warnings.size());
        assertEquals(
                "recovery takes longer in the later repeats (by chance less than 1 in 1000), so they are not independent",
                warnings.get(0));
    }

    @Test
    void whereMomentsAreVariedInOrderADriftIsTheirs() {
        List<Attempt> varied = IntStream.range(0, 14)
                .mapToObj(i -> new Attempt(
                        Verdict.PASS,
                        OptionalLong.of(100_000),
                        OptionalLong.of(900_000 + 10_000L * i),
                        OptionalLong.of(50_000),
                        1,
                        "at " + 20 * i + " mm"))
                .toList();
        assertEquals(List.of(), warnings(varied, VIRTUAL));
    }

    @Test
    void failuresAtTheEndAreSaidToHangOnTheOrder() {
        List<String> warnings = of("P".repeat(8) + "F".repeat(8), 16, NINETY).warnings();
        assertEquals(
                "the result hangs on the order: what did not pass stands rather at the end (by chance less than 1 in 1000), so"
                        + " the repeats are not independent",
                warnings.get(0));
    }

    /** 2 of the 455 ways to place 3 among 15 are so extreme. */
    @Test
    void howRareAnOrderIsIsTold() {
        List<String> warnings = of("P".repeat(12) + "FFF", 15, NINETY).warnings();
        assertTrue(warnings.get(0).contains("(by chance 1 in 228)"), warnings.get(0));
    }

    @Test
    void aSingleRunIsNoRepeat() {
        assertEquals(List.of(), warnings(List.of(passing(1, 1)), new Circumstances(true, 0)));
    }

    @Test
    void aBoundIsNeverShownBetterThanItIs() {
        assertEquals("89.9 %", Percent.atLeast(0.89999999));
        assertEquals("90.0 %", Percent.atLeast(0.9));
        assertEquals("99.9 %", Percent.of(0.999));
        assertEquals("90 %", Percent.of(0.9));
        assertEquals("99.9999 %", Percent.of(0.999999));
    }
}
