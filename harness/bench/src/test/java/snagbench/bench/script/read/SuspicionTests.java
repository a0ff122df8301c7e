package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Problem;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;

/** Warnings of what is legal and most likely not meant, and their silence on good scripts. */
class SuspicionTests {
    private static final Path FIXTURE = GoodFiles.project().resolve("fixtures/seedling-shuttle");
    private static final String HEAD = """
            fault-script: a suspicious one
            begin:
              - send: start-run
              - wait-for: { step: REACHING }
                within: 2 s
            """;
    private static final String EXPECT = """
            expect:
              - name: sees it
                answered-by: FS-02
                within: 2 s
            """;

    private final RigDescription rig =
            Snapshots.read(FIXTURE.resolve(RigFiles.SNAPSHOT_NAME)).value().orElseThrow();

    @TempDir
    Path folder = Path.of("");

    @BeforeEach
    void putTheRegisterBesideTheRig() throws IOException {
        Files.copy(FIXTURE.resolve(Symptoms.FILE_NAME), folder.resolve(Symptoms.FILE_NAME));
    }

    private RigFile rigFile(String... replacements) throws IOException {
        String yaml = Files.readString(FIXTURE.resolve(RigFiles.FILE_NAME));
        for (int i = 0; i < replacements.length; i += 2) {
            assertTrue(yaml.contains(replacements[i]), replacements[i]);
            yaml = yaml.replace(replacements[i], replacements[i + 1]);
        }
        Path file = Files.writeString(folder.resolve(RigFiles.FILE_NAME), yaml);
        return RigFiles.readRig(file, Optional.of(rig)).value().orElseThrow();
    }

    private List<String> warnings(String script, String... replacements) throws IOException {
        Path file = Files.writeString(folder.resolve("a.fault.yaml"), script);
        Checked<List<FaultScript>> read = ScriptReader.readAll(file, rig, rigFile(replacements));
        assertTrue(read.value().isPresent(), () -> "no warnings but errors: " + read.problems());
        return read.problems().stream()
                .map(problem -> problem.place().line() + ": " + problem.message())
                .toList();
    }

    private void assertOne(String line, String words, String script, String... replacements) throws IOException {
        List<String> found = warnings(script, replacements);
        assertEquals(1, found.size(), () -> "one warning: " + found);
        assertTrue(found.get(0).startsWith(line + ": ") && found.get(0).contains(words), found.get(0));
    }

    static List<Path> goodScripts() {
        return GoodFiles.committed("test-plans", ".fault.yaml");
    }

    @ParameterizedTest
    @MethodSource("goodScripts")
    void nothingIsSaidOfAGoodScript(Path script) throws IOException {
        Checked<List<FaultScript>> read = ScriptReader.readAll(script, rig, rigFile());
        assertEquals(List.<Problem>of(), read.problems());
    }

    @Test
    void aTriggerWithoutAnyValueLeftCanNeverHold() throws IOException {
        assertOne("7", "no value of reach.position fits", HEAD + """
                inject:
                  - when: { step: REACHING, reach.position: [above 200 mm, rises to 100 mm, below 150 mm] }
                    channels: { reach.current: stuck-at 4.2 A }
                    lasts: 1 s
                """ + EXPECT);
    }

    @Test
    void aCounterNeverFallsBelowWhatCameBefore() throws IOException {
        assertOne("13", "failsafe.count is at least 2", HEAD + """
                inject:
                  - name: first
                    when: { failsafe.count: at least 2 }
                    channels: { reach.current: stuck-at 4.2 A }
                    lasts: 1 s
                  - name: second
                    after: first
                    when: { step: REACHING, failsafe.count: at most 1 }
                    channels: { reach.current: stuck-at 4.2 A }
                    lasts: 1 s
                """ + EXPECT);
    }

    @Test
    void whatIsToldToTheEndDoesNotChangeAnyMore() throws IOException {
        String script = HEAD + """
                inject:
                  - name: stands
                    when: { step: REACHING, reach.position.real: at least 40 mm }
                    channels: { reach.position: stuck-at 45 mm, reach.current: stuck-at 4.2 A }
                  - name: later
                    after: stands
                    when: { reach.position.told: above 60 mm }
                    channels: { gripper.beam: stuck-at clear }
                    lasts: 1 s
                """ + EXPECT;
        assertOne("12", "\"stands\", which comes before and has no end", script);
        assertEquals(List.of(), warnings(script.replace("4.2 A }\n", "4.2 A }\n    lasts: 1 s\n")));
        assertOne("12", "can never hold", script.replace("above 60 mm", "rises to 44 mm"));
        assertEquals(List.of(), warnings(script.replace("above 60 mm", "above 40 mm")));
        assertEquals(List.of(), warnings(script.replace("reach.position.told", "reach.position.real")));
    }

    @Test
    void whatHangsOnAFailSafeThatIsLeftOutNeverComes() throws IOException {
        List<String> found = warnings("inhibit: FS-02\n" + HEAD + """
                inject:
                  - name: blocked
                    when: { step: REACHING, reach.position: at least 40 mm }
                    channels: { reach.current: stuck-at 4.2 A }
                    until: { failsafe: FS-02 }
                    lasts: 1 s
                  - name: again
                    after: sees it
                    channels: { gripper.beam: stuck-at clear }
                    lasts: 1 s
                """ + EXPECT);
        assertEquals(2, found.size(), found::toString);
        assertTrue(found.get(0).contains("\"until\" can never hold: FS-02 is left out"), found::toString);
        assertTrue(found.get(1).contains("this can never strike"), found::toString);
    }

    @Test
    void aFaultAfterWhichNothingIsExpectedProvesNothing() throws IOException {
        String script = HEAD + """
                inject:
                  - when: { step: REACHING, reach.position: at least 40 mm }
                    channels: { reach.current: stuck-at 4.2 A }
                    lasts: 1 s
                expect:
                  - name: starts
                    becomes: { step: DRAWING_BACK }
                    within: 2 s
                    after: begin
                  - stays: { battery.voltage: above 7 V }
                    for: 100 ms
                    after: starts
                """;
        assertOne("10", "nothing is expected after the injection", script);
        assertEquals(List.of(), warnings(script + "  - never: { step: GIVEN_UP }\n"));
        assertEquals(List.of(), warnings(script.replace("    after: begin\n", "")));
    }

    @Test
    void aDeadlineInsideADeclaredFilterIsTooShort() throws IOException {
        String script = HEAD + """
                inject:
                  - name: cut
                    when: { step: REACHING, reach.position: at least 40 mm }
                    disturb: { obstacle.position: 220 mm }
                    lasts: 1 s
                expect:
                  - becomes: { reach.current: above 4 A }
                    within: 30 ms
                """;
        String was = "reach.current: { wired: \"A0, shunt in the reach motor's driver\" }";
        String filtered = was.replace(" }", ", filter-delay: 50 ms }");
        assertEquals(List.of(), warnings(script));
        assertOne("12", "shorter than the 50 ms by which a filter delays reach.current", script, was, filtered);
        assertEquals(List.of(), warnings(script.replace("30 ms", "50 ms"), was, filtered));
    }

    @Test
    void aDeadlineShorterThanTheLoopIsTold() throws IOException {
        RigDescription slow = new RigDescription(
                rig.digest(),
                rig.channels(),
                rig.failSafes(),
                new snagbench.bench.script.ProbeCapacity(
                        false,
                        20_000,
                        rig.limits().slots(),
                        rig.limits().terms(),
                        rig.limits().points(),
                        rig.limits().guards(),
                        rig.limits().frame(),
                        rig.limits().kinds(),
                        rig.limits().history()));
        Path file =
                Files.writeString(folder.resolve("a.fault.yaml"), GoodFiles.SCRIPT.replace("80 ms .. 250 ms", "10 ms"));
        List<Problem> found = ScriptReader.readAll(file, slow, rigFile()).problems();
        assertEquals(1, found.size(), found::toString);
        assertTrue(found.get(0).message().contains("shorter than the rig's loop time"), found::toString);
    }

    @Test
    void aPositionThatStandsWithoutTheCurrentOfAJamIsHalfAStory() throws IOException {
        String script = HEAD + """
                inject:
                  - when: { step: REACHING, reach.position: at least 180 mm }
                    channels:
                      reach.position: freeze
                      gripper.beam: stuck-at clear
                    lasts: 1 s
                """ + EXPECT;
        assertOne("9", "FS-02 looks for reach.current at least 2.50 A", script);
        assertEquals(
                List.of(), warnings(script.replace("gripper.beam: stuck-at clear", "reach.current: stuck-at 4.2 A")));
        assertEquals(
                List.of(),
                warnings(script.replace("at least 180 mm", "50 mm .. 90 mm")),
                "it looks for no current there");
        assertEquals(List.of(), warnings(script.replace("FS-02", "FS-12")), "it looks for a low current");
        Files.delete(folder.resolve(Symptoms.FILE_NAME));
        assertEquals(List.of(), warnings(script), "nothing is known without a register");
    }

    @Test
    void aLastingFaultInALoopThatNothingGuardsIsToldOf() throws IOException {
        String script = HEAD + """
                inject:
                  - name: blocked
                    when: { step: REACHING, reach.position: at least 40 mm }
                    channels: { reach.position: freeze, reach.current: stuck-at 4.2 A }
                """ + EXPECT;
        String guards = """
                  - name: reach travel
                    travel: { reach.position: -6 mm .. 405 mm }
                  - name: reach stall
                    stall: { reach.position: 1 mm, command: reach.command, at-least: 50 %, for: 2 s }
                """;
        assertEquals(List.of(), warnings(script));
        assertOne("9", "a control loop is closed over reach.position", script, guards, "");
        assertEquals(List.of(), warnings(script.replace("4.2 A }\n", "4.2 A }\n    lasts: 1 s\n"), guards, ""));
    }

    @Test
    void anOffsetThatDrivesTheBaseOffItsClearFloorIsToldOf() throws IOException {
        String script = HEAD + """
                inject:
                  - name: shifted
                    when: { step: REACHING, reach.position: at least 40 mm }
                    channels: { base.position: offset 140 mm }
                    lasts: 1 s
                """ + EXPECT;
        assertOne("9", "off its clear floor, which ends 100", script);
        assertEquals(List.of(), warnings(script.replace("140 mm", "-60 mm")));
        assertEquals(List.of(), warnings(script, "clear-floor: { base.position: 100 mm }\n", ""));
        assertOne("9", "clear floor", script.replace("offset 140 mm", "drift -150 mm per s"));
        assertEquals(List.of(), warnings(script.replace("offset 140 mm", "drift -90 mm per s")));
    }

    @Test
    void aConditionOnAnOverriddenChannelMustSayWhichReading() throws IOException {
        assertOne("11", "does not say which reading it means", HEAD + """
                inject:
                  - name: first
                    when: { step: REACHING, reach.position: at least 40 mm }
                    channels: { reach.current: stuck-at 4.2 A }
                    lasts: 1 s
                  - when: { step: REACHING, reach.current: above 1 A }
                    channels: { gripper.beam: stuck-at clear }
                    lasts: 1 s
                """ + EXPECT);
    }
}
