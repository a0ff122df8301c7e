package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.wire.EntryKind;
import snagbench.wire.LeftOut;

/** What a rig cannot hold, cannot do or must not be asked for is told before anything moves. */
class RigLimitsTests {
    /** What the script forces, and until when. */
    private static final String ENDING = """
                  reach.position: freeze
                  reach.current: stuck-at 4.2 A
                until: { failsafe: FS-02 }
                lasts: 900 ms
            """;

    @TempDir
    Path folder = Path.of("");

    private Path script(String text) throws IOException {
        return Files.writeString(folder.resolve("reach.fault.yaml"), text);
    }

    private static String told(Checked<FaultScript> checked) {
        return checked.problems().isEmpty()
                ? "nothing"
                : checked.problems().get(0).place().line() + ": "
                        + checked.problems().get(0).message();
    }

    /** The script has two stages and two forcings, and four comparisons: one in wait-for, two in when, one in until. */
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "4; 4; nothing",
                "3; 4; 17: the rig's probe has 3 slots, and this script wants 4",
                "2; 4; 16: the rig's probe has 2 slots, and this script wants 4",
                "1; 4; 9: the rig's probe has 1 slots, and this script wants 4",
                "0; 4; 8: the rig's probe has 0 slots, and this script wants 4",
                "4; 3; 13: the rig's probe has room for 3 comparisons, and this script wants 4",
            })
    void aProgramThatIsTooLargeIsTold(int slots, int terms, String told) throws IOException {
        RigDescription rig = ShuttleDescription.with(ShuttleDescription.roomFor(slots, terms, 8));

        assertEquals(told, told(ScriptReader.read(script(GoodFiles.SCRIPT), rig)));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "FREEZE; 16: the rig's probe cannot do \"freeze\"",
                "WAIT; 9: the rig's probe cannot do \"wait-for\"",
                "STUCK_AT; 8: the rig's probe cannot do \"send\"",
                "OFFSET; 17: the rig's probe cannot do \"offset\"",
                "SPIKE; nothing",
            })
    void aFaultThatTheProbeCannotDoIsTold(EntryKind kind, String told) throws IOException {
        int kinds = ShuttleDescription.ROOMY.kinds() & ~(1 << kind.code());
        RigDescription rig = ShuttleDescription.with(new ProbeCapacity(false, 0, 32, 128, 256, 8, 256, kinds, 1000));

        assertEquals(
                told, told(ScriptReader.read(script(GoodFiles.SCRIPT.replace("stuck-at 4.2 A", "offset 1 A")), rig)));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "TIMINGS; lasts: 900 ms; lasts: 900 ms; nothing",
                "TIMINGS; lasts: 900 ms; for: 30 ms; 13: the rig's probe cannot do \"for\"",
                "RHYTHM; lasts: 900 ms; for: 30 ms; nothing",
                "TIMINGS; freeze; { intermittent: freeze, on: 20 ms, off: 30 ms }; 16: the rig's probe cannot do"
                        + " \"intermittent\"",
                "RHYTHM; freeze; { intermittent: freeze, on: 20 ms, off: 30 ms }; 16: the rig's probe cannot do"
                        + " \"intermittent\"",
                "WINDOWS; freeze; { intermittent: freeze, on: 20 ms, off: 30 ms }; nothing",
            })
    void whatTheGreetingSaysIsLeftOutIsTold(LeftOut leftOut, String from, String to, String told) throws IOException {
        int kinds = ShuttleDescription.ROOMY.kinds() | 1 << leftOut.bit();
        RigDescription rig = ShuttleDescription.with(new ProbeCapacity(false, 0, 32, 128, 256, 8, 256, kinds, 1000));

        assertEquals(told, told(ScriptReader.read(script(GoodFiles.SCRIPT.replace(from, to)), rig)));
    }

    @ParameterizedTest
    @MethodSource("lastingFaults")
    void aLastingFaultOnAClosedLoopWantsAGuardOnARealRig(Variant variant) throws IOException {
        variant.check(
                GoodFiles.SCRIPT,
                folder.resolve("reach.fault.yaml"),
                file -> ScriptReader.read(file, ShuttleDescription.real()));
    }

    static List<Variant> lastingFaults() {
        String lasting = "error: a lasting fault on reach.position, over which a control loop is closed | a guard";
        return List.of(
                Variant.slip("lasts: 900 ms", "lasts: 900 ms"),
                Variant.slip(ENDING, ENDING),
                Variant.slip(ENDING, """
                              §reach.position: freeze
                            until: { failsafe: FS-02 }
                        """, lasting),
                Variant.slip(ENDING, "      reach.position: spike 10 mm\n"),
                Variant.slip(ENDING, "      reach.current: stuck-at 4.2 A\n"));
    }

    @ParameterizedTest
    @CsvSource({"reach.position, 0", "reach.current, 1"})
    void onlyAGuardOnThatChannelWillDo(String guarded, int errors) throws IOException {
        Path rigFile = Files.createDirectories(folder.resolve("shuttle")).resolve("rig.yaml");
        String range = guarded.equals("reach.current") ? "0 A .. 20 A" : "-4 mm .. 405 mm";
        Files.writeString(
                rigFile,
                "rig: shuttle\nvirtual: x\nguards:\n  - name: g\n    travel: { " + guarded + ": " + range + " }\n");
        RigDescription real = ShuttleDescription.real();
        RigFile rig = RigFiles.readRig(rigFile, Optional.of(real)).value().orElseThrow();
        Path script = script(GoodFiles.SCRIPT.replace("    lasts: 900 ms\n", ""));

        assertEquals(errors, ScriptReader.read(script, real, rig).problems().size());
    }

    @ParameterizedTest
    @CsvSource({"4999 us, 1", "5 ms, 0"})
    void aTimeShorterThanTheLoopIsWarnedOf(String time, int warnings) throws IOException {
        Path script = script(GoodFiles.SCRIPT.replace("80 ms .. 250 ms", time));

        Checked<FaultScript> checked = ScriptReader.read(script, ShuttleDescription.real());

        assertEquals(warnings, checked.problems().size());
        assertEquals(
                warnings == 1 ? "24: a deadline of 4999 us is shorter than the rig's loop time of 5000 us" : "nothing",
                told(checked));
        assertEquals(
                Optional.of(true),
                checked.value().map(read -> read.expectations().size() == 4));
    }

    @Test
    void aLoopThatRunsFreeHasNoTimeToCompareWith() throws IOException {
        Path script = script(GoodFiles.SCRIPT.replace("80 ms .. 250 ms", "1 us"));

        assertEquals("nothing", told(ScriptReader.read(script, ShuttleDescription.virtual())));
    }

    @Test
    void aScriptWithoutAnyDeadlineWantsAnEnd() throws IOException {
        String quiet = """
                fault-script: quiet
                inject:
                  - name: spike
                    when: { step: REACHING }
                    channels: { reach.current: spike 1 A }
                expect:
                  - must-not-fire: FS-01
                """;

        Checked<FaultScript> without = ScriptReader.read(script(quiet), ShuttleDescription.virtual());
        Checked<FaultScript> with =
                ScriptReader.read(script(quiet + "end: 1 s after spike\n"), ShuttleDescription.virtual());

        assertEquals("6: nothing here has a deadline, so that the script's end is not known", told(without));
        assertEquals("add \"end: 1 s after spike\"", without.problems().get(0).cure());
        assertEquals("nothing", told(with));
    }
}
