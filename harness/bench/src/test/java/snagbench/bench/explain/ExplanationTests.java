package snagbench.bench.explain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.script.write.RandomScripts;
import snagbench.bench.session.Shuttle;

/** What a script is said to mean. */
class ExplanationTests {
    private static final RigDescription RIG = Shuttle.description();

    @TempDir
    Path folder = Path.of("");

    private static String text(FaultScript script) {
        return String.join("\n", Explanation.withPicture(script, RIG)) + "\n";
    }

    private FaultScript read(String yaml) throws IOException {
        Path file = Files.writeString(folder.resolve("a.fault.yaml"), yaml);
        return ScriptReader.read(file, RIG, Shuttle.file()).value().orElseThrow();
    }

    @Test
    void aSpikeEndsByItself() throws IOException {
        String text = text(read("""
                fault-script: current spike that is too short
                failsafe: FS-01
                begin:
                  - send: start-run
                  - wait-for: { step: REACHING }
                    within: 2 s
                inject:
                  - name: spike
                    when: { step: REACHING, reach.position: at least 120 mm }
                    channels: { reach.current: spike 8 A for 30 ms }
                    twin:
                      channels: { reach.current: spike 8 A for 200 ms }
                expect:
                  - must-not-fire: FS-01
                end: 1 s after spike
                """));

        assertTrue(text.contains("reach.current reads 8 A more than is real for 30 ms. This is"), text);
        assertTrue(
                text.contains("In its twin, in which the fail-safe must answer: ")
                        && text.contains("reach.current reads 8 A more than is real for 200 ms. This is"),
                text);
        assertTrue(text.contains("\nspike  ##") && text.contains("#  30 ms\n"), text);
        assertTrue(!text.contains("to the script's end") && !text.contains("to the end"), text);
    }

    @Test
    void aJamIsToldAsAPersonWouldTellIt() throws IOException {
        String expected = """
                "reach blocked midway", evidence for FS-02.
                First start-run is sent, then it is waited until the step is REACHING, 2 s at most.
                When the step is REACHING and reach.position is at least 180 mm, reach.position freezes at its last reading and reach.current reads 4.2 A, until FS-02 answers, for 900 ms at most.
                What must follow:
                - FS-02 must answer between 80 ms and 250 ms after the fault strikes, and no other before it ("sees it").
                - It must come about that the step is DRAWING_BACK, within 300 ms after the fault strikes ("draws back").
                - It must come about that the step is REACHING, within 3 s after "sees it" ("tries again").
                - From the beginning on it must hold that battery.voltage is above 7 V.
                - From the beginning on it must never be that the step is GIVEN_UP.
                The script ends 1 s after "tries again".

                Time from "injection 1" on:
                             0 ms        1 s         2 s         3 s         4 s         5 s
                             +-----------+-----------+-----------+-----------+-----------+
                injection 1  ###########  until FS-02 answers, 900 ms at most
                sees it      [==]
                draws back   [==]
                tries again  [..====================================]  after sees it
                end                      .......................................|
                """;
        assertEquals(expected, text(Shuttle.script("reach-blocked-midway")));
    }

    @Test
    void everyFaultAndTriggerHasItsWords() throws IOException {
        String text = text(read("""
                fault-script: many
                inhibit: FS-03
                begin:
                  - send: start-run
                inject:
                  - name: worn
                    when: { step: REACHING, reach.position.real: at least 60 mm }
                    for: 60 ms
                    delay: 20 ms
                    count: 3
                    channels:
                      reach.current: [scale 120 %, noise 50 mA]
                      reach.position: drift 4 mm per s
                      front.distance: { intermittent: dropout, on: 30 ms, off: 70 ms }
                      gripper.beam: delay 12 ticks
                      base.position: { replay: { 0: 0 mm, 20: 4 mm, 40: 9 mm } }
                    lasts: 600 ms
                  - name: weak
                    after: worn
                    channels: { reach.command: scale 20 %, lift.position: offset -2 mm over 100 ms }
                    lasts: 1 s
                  - name: shoved
                    when: { reach.position.real: moves more than 2 mm in 10 ticks }
                    every-time: true
                    disturb: { base.push: 60 mm }
                    lasts: 50 ms
                expect:
                  - name: home
                    settles: { reach.position.real: 0 mm +- 3 mm }
                    for: 200 ms
                    within: 6 s
                  - stays: { lift.current: below 2 A }
                    for: 300 ms
                  - never: { any-of: [ { step: GIVEN_UP }, { step: PARKING } ] }
                    from: worn
                    to: home
                  - peak: { lift.current: at most 12 A }
                  - times: { step: REACHING }
                    count: 1 .. 4
                  - order: [worn, home]
                  - must-not-fire: FS-12
                  - always: { base.heading: at least at-injection(worn) - 5 deg }
                    within: 1 s
                """));
        for (String words : List.of(
                "From arming on the control code leaves out FS-03.",
                "and has done so for 60 ms for the 3rd time, and 20 ms later",
                "reach.current reads 120 % of what is real",
                "is noisy, with a standard deviation of 0.05 A",
                "reach.position drifts by 4 mm per second",
                "has no reading, which the control code gets as",
                "(30 ms so, 70 ms not, by turns)",
                "gripper.beam reads what was real 12 ticks ago",
                "base.position follows a curve of 3 points over 40 ticks",
                "As soon as \"worn\" has come about, the drive reach.command is weakened: 20 % of it",
                "lift.position reads 2 mm less than is real, climbing there in 100 ms",
                "Every time that reach.position moves more than 2 mm in 10 ticks, base.push is really set to 60 mm",
                "within 6 s after \"worn\" strikes, and stay so for 200 ms",
                "For 300 ms on end",
                "either the step is GIVEN_UP or the step is PARKING",
                "the peak of lift.current must be at most 12 A",
                "1 to 4 times",
                "In this order: \"worn\" strikes and \"home\"",
                "FS-12 must not answer",
                "its value when \"worn\" strikes less 5 deg")) {
            assertTrue(text.contains(words), () -> words + "\nnot in\n" + text);
        }
    }

    @Test
    void whateverAScriptSaysIsToldAndDrawn() {
        for (long seed = 1; seed <= 300; seed++) {
            FaultScript script = RandomScripts.of(seed, RIG, Shuttle.file());
            String text = text(script);
            String which = "seed " + seed + "\n" + text;
            for (Injection injection : script.injections()) {
                assertTrue(text.contains(injection.name()), which);
                for (Injection.Forcing forcing : injection.forcings()) {
                    ChannelDescription channel = forcing.channel();
                    assertTrue(text.contains(channel.name()), () -> channel.name() + " in " + which);
                }
            }
            for (Expectation expectation : script.expectations()) {
                if (expectation instanceof Expectation.Timed timed) {
                    assertTrue(text.contains("(\"" + timed.name() + "\")"), which);
                }
            }
            assertFalse(text.contains("Optional") || text.contains("[snag"), which);
            assertTrue(text.lines().noneMatch(line -> line.endsWith(" ")), which);
            assertEquals(text, text(script), which);
        }
    }
}
