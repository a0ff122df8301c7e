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

/** The register beside a run: who proves what, what nobody tried, and what the reserve can bear. */
class MatrixTests {
    @TempDir
    Path empty = Path.of("");

    private Bench bench = new Bench(empty);

    @BeforeEach
    void copyFiles() throws IOException {
        bench = Bench.in(empty);
    }

    private Told run() throws IOException {
        return Told.by(
                "run",
                bench.file(bench.plan("reach-stopped-short-in-the-rack-zone", 2))
                        .toString(),
                "--out",
                bench.file("results").toString());
    }

    private Told matrix() throws IOException {
        return Told.by("report", bench.run().toString(), "--matrix");
    }

    @Test
    void aPlanEndsWithAWarningAndStillPasses() throws IOException {
        Told told = run();

        assertEquals(0, told.status(), told::all);
        assertTrue(told.out().contains("warning: 12 fail-safes of which no script was run; "), told::all);
        assertTrue(told.out().contains(" combinations of step, channel and fault never tried"), told::all);
    }

    @Test
    void theMatrixTellsVerdictEvidenceAndWhatWasNotRun() throws IOException {
        run();

        Told told = matrix();

        assertEquals(0, told.status(), told::all);
        assertTrue(
                told.out()
                        .contains("  pass          told              "
                                + "reach-stopped-short-in-the-rack-zone.fault.yaml, worst of 2"),
                told::all);
        assertTrue(told.out().contains("  not run                         rack-empty.fault.yaml"), told::all);
        assertTrue(told.out().contains("  REACHING, base.position (FS-07): none tried at all"), told::all);
    }

    @Test
    void theReserveTellsWhatFits() throws IOException {
        run();

        Told told = matrix();

        assertTrue(told.out().contains("FS-03: 3.0 s (as the register says, against nominal runs)"), told::all);
        assertTrue(told.out().contains("One recovery: 9 of 9 fit"), told::all);
        assertTrue(told.out().contains("  FS-03 twice: 6.0 s, does not fit"), told::all);
        assertTrue(told.out().contains("FS-10: one pot (not in the table)"), told::all);
        String json = Files.readString(bench.run().resolve("results.json"));
        assertTrue(json.contains("\"traceability\""), json);
        assertTrue(json.contains("\"leastMicros\"") || json.contains("\"combinations\""), json);
    }

    @Test
    void aScriptThatTheRegisterDoesNotNameIsTold() throws IOException {
        bench.spoil(Bench.RIG + "failsafes.yaml", "      - reach-stopped-short-in-the-rack-zone\n", "");

        Told told = run();

        assertTrue(told.out().contains("1 script about which the register and it do not agree"), told::all);
        assertTrue(
                matrix().out()
                        .contains("reach-stopped-short-in-the-rack-zone.fault.yaml says it is evidence for FS-03, and"
                                + " the register does not name it there"),
                told::all);
    }

    @Test
    void aBrokenRegisterStopsAPlanBeforeAnythingMoves() throws IOException {
        bench.spoil(Bench.RIG + "failsafes.yaml", "      - rack-empty\n", "      - rack-emty\n");

        Told told = run();

        assertEquals(2, told.status(), told::all);
        assertTrue(told.all().contains("failsafes.yaml"), told::all);
        assertTrue(told.all().contains("did you mean \"rack-empty.fault.yaml\"?"), told::all);
        assertFalse(Files.exists(bench.file("results")), told::all);
    }
}
