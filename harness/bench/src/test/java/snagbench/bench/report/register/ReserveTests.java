package snagbench.bench.report.register;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import snagbench.bench.judge.Verdict;

/** What fits in the reserve, and whose word each cost is. */
class ReserveTests {
    private static List<String> words(List<Reserve.Combination> combinations) {
        return combinations.stream()
                .map(one -> one.words() + ": " + one.micros() / 1000 + (one.fits() ? ", fits" : ", does not fit"))
                .toList();
    }

    @Test
    void oneTwoAndThreeRecoveriesAreAddedUpAndHeldAgainstTheReserve() {
        RegisterSheet sheet =
                Results.sheet(5000, Results.costing("FS-01", 500, 1000, ""), Results.costing("FS-02", 1000, 2500, ""));

        Reserve reserve = Reserve.of(sheet, List.of());

        assertEquals(List.of("FS-01 once: 1000, fits", "FS-02 once: 2500, fits"), words(reserve.of(1)));
        assertEquals(
                List.of("FS-01 twice: 2000, fits", "FS-01 once and FS-02 once: 3500, fits", "FS-02 twice: 5000, fits"),
                words(reserve.of(2)));
        assertEquals(
                List.of(
                        "FS-01 three times: 3000, fits",
                        "FS-01 twice and FS-02 once: 4500, fits",
                        "FS-01 once and FS-02 twice: 6000, does not fit",
                        "FS-02 three times: 7500, does not fit"),
                words(reserve.of(3)));
        assertEquals(2, reserve.fitting(3));
    }

    @Test
    void whatWasMeasuredGoesBeforeTheRegistersWordWhichIsToldBesideIt() {
        RegisterSheet sheet = Results.sheet(5000, Results.costing("FS-01", 500, 1000, ""))
                .with(List.of(
                        Results.measured("FS-01", 700),
                        Results.measured("FS-01", 1300),
                        Results.measured("FS-02", 9000)));

        Reserve.Cost cost = Reserve.of(sheet, List.of()).costs().get(0);

        assertEquals(Reserve.Basis.MEASURED, cost.basis());
        assertEquals(1_300_000, cost.micros());
        assertEquals(700_000, cost.leastMicros());
        assertEquals(2, cost.runs());
        assertEquals(1_000_000, cost.register().orElseThrow().mostMicros());
        assertTrue(
                RegisterText.reserve(Reserve.of(sheet, List.of()))
                        .contains("  FS-01: 1.3 s (measured in 2 runs against nominal runs, 0.70 s .. 1.30 s;"
                                + " the register says 0.50 s .. 1.00 s)"),
                () -> RegisterText.reserve(Reserve.of(sheet, List.of())).toString());
    }

    /** A recovery that gains time is none that may be counted on. */
    @Test
    void aRunThatWasQuickerThanTheNominalOneCostsNothing() {
        RegisterSheet sheet =
                Results.sheet(5000, Results.costing("FS-01", 0, 100, "")).with(List.of(Results.measured("FS-01", -40)));

        assertEquals(0, Reserve.of(sheet, List.of()).costs().get(0).micros());
    }

    @Test
    void withoutARegistersWordTheLongestRecoverySeenGoesAndSaysSo() {
        RegisterSheet sheet = Results.sheet(5000, Results.failSafe("FS-01"));

        Reserve reserve = Reserve.of(
                sheet,
                List.of(
                        Results.result("a", Verdict.PASS, 400_000, "FS-01"),
                        Results.result("b", Verdict.PASS, 900_000, "FS-01"),
                        Results.result("c", Verdict.FAIL, 2_000_000, "FS-01"),
                        Results.result("d", Verdict.PASS, 3_000_000, "FS-01", "FS-02")));

        assertEquals(Reserve.Basis.RECOVERY_SEEN, reserve.costs().get(0).basis());
        assertEquals(900_000, reserve.costs().get(0).micros());
    }

    @Test
    void whatCostsNoTimeIsNotInTheTableWhateverWasMeasured() {
        RegisterSheet sheet = Results.sheet(5000, Results.costingWords("FS-01", "one pot"), Results.failSafe("FS-02"))
                .with(List.of(Results.measured("FS-01", 700)));

        Reserve reserve = Reserve.of(sheet, List.of());

        assertEquals(List.of(), reserve.costs());
        assertEquals(List.of("FS-01: one pot", "FS-02: not known"), reserve.notTimes());
        assertEquals(List.of(), reserve.combinations());
    }

    @Test
    void theLeastThatIsTooMuchFitsWithAnyRecoveryLess() {
        for (int seed = 0; seed < 100; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            List<RegisterSheet.FailSafe> failSafes = new ArrayList<>();
            for (int i = 1; i <= 1 + random.nextInt(5); i++) {
                failSafes.add(Results.costing("FS-0" + i, 0, random.nextInt(4000), ""));
            }
            RegisterSheet sheet = Results.sheet(5000, failSafes.toArray(RegisterSheet.FailSafe[]::new));
            Reserve reserve = Reserve.of(sheet, List.of());
            String told = "seed " + seed;
            int many = failSafes.size();
            assertEquals(many, reserve.of(1).size(), told);
            assertEquals(many * (many + 1) / 2, reserve.of(2).size(), told);
            assertEquals(many * (many + 1) * (many + 2) / 6, reserve.of(3).size(), told);
            for (Reserve.Combination one : reserve.combinations()) {
                long sum = one.failSafes().stream()
                        .mapToLong(name -> failSafes
                                .get(Integer.parseInt(name.substring(3)) - 1)
                                .reserve()
                                .orElseThrow()
                                .mostMicros())
                        .sum();
                assertEquals(sum, one.micros(), told);
                assertEquals(sum <= 5_000_000, one.fits(), told);
                boolean isLeast = !one.fits()
                        && one.failSafes().stream().allMatch(name -> {
                            List<String> less = new ArrayList<>(one.failSafes());
                            less.remove(name);
                            return less.isEmpty()
                                    || reserve.combinations().stream()
                                            .anyMatch(other -> other.failSafes().equals(less) && other.fits());
                        });
                assertEquals(isLeast, reserve.leastTooMuch().contains(one), () -> told + ", " + one);
            }
        }
    }
}
