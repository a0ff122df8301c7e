package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Problem;
import snagbench.bench.script.write.ScriptWriter;
import snagbench.bench.session.Shuttle;

/** A twin is the same script, but for what its injections do and what ends them. */
class TwinTests {
    private static final String SCRIPT = """
            fault-script: too short
            failsafe: FS-01
            begin:
              - send: start-run
              - wait-for: { step: REACHING }
                within: 2 s
            inject:
              - name: first
                when: { step: REACHING, reach.position: at least 50 mm }
                channels: { battery.voltage: stuck-at 11.5 V }
                lasts: 1 s
              - name: spike
                when: { step: REACHING, reach.position: at least 120 mm }
                channels: { reach.current: stuck-at 8 A }
                lasts: 30 ms
                twin: %s
            expect:
              - must-not-fire: FS-01
            end: 2 s after spike
            """;

    @TempDir
    Path folder = Path.of("");

    private Checked<FaultScript> read(String text) throws IOException {
        Path file = Files.writeString(folder.resolve("a.fault.yaml"), text);
        return ScriptReader.read(file, Shuttle.description(), Shuttle.file());
    }

    private FaultScript good(String text) throws IOException {
        Checked<FaultScript> read = read(text);
        assertTrue(read.value().isPresent(), () -> read.problems().toString());
        return read.value().get();
    }

    @Test
    void changesWhatItSaysAndNothingElse() throws IOException {
        FaultScript script = good(SCRIPT.formatted("{ lasts: 120 ms }"));

        assertEquals(2, script.twin().size());
        assertEquals(script.injections().get(0), script.twin().get(0));
        Injection spike = script.injections().get(1);
        Injection twin = script.twin().get(1);
        assertEquals(30_000, spike.lastsMicros().orElseThrow());
        assertEquals(120_000, twin.lastsMicros().orElseThrow());
        assertEquals(spike.forcings(), twin.forcings());
        assertEquals(spike.trigger(), twin.trigger());
    }

    @Test
    void comesBackAsItWasWhenItIsWritten() throws IOException {
        FaultScript script = good(SCRIPT.formatted("{ channels: { reach.current: stuck-at 9 A }, lasts: 120 ms }"));
        FaultScript again = good(ScriptWriter.yaml(script));

        List<Injection.Forcing> was = script.twin().get(1).forcings();
        List<Injection.Forcing> is = again.twin().get(1).forcings();
        assertEquals(was.get(0).fault(), is.get(0).fault());
        assertEquals(was.get(0).channel(), is.get(0).channel());
        assertEquals(script.twin().get(1).lastsMicros(), again.twin().get(1).lastsMicros());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{ when: { step: EASING } } | a twin has no key \"when\"",
                "{ lasts: 0.12 V }          | in the twin: ",
                "{}                         | the twin is the same",
                "lasts                      | what is otherwise in the twin",
                "{ channels: { reach.curent: stuck-at 9 A } } | reach.curent"
            })
    void slipsAreToldWhereTheyAre(String twin, String told) throws IOException {
        List<Problem> problems = read(SCRIPT.formatted(twin)).problems();

        assertTrue(
                problems.stream()
                        .anyMatch(one -> one.severity() == Problem.Severity.ERROR
                                && (one.message() + " " + one.cure()).contains(told.strip())
                                && one.place().line() == 16),
                problems::toString);
    }
}
