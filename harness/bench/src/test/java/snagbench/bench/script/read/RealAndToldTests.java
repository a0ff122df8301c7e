package snagbench.bench.script.read;

import static snagbench.bench.script.read.Variant.slip;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Conditions on channels that the script overrides: where it must be said which reading is meant. */
class RealAndToldTests {
    private static final String TOLD =
            "warning: overrides reach.position, and this does not say | \"reach.position.real\" or \"reach.position.told\"";
    private static final String REFUSED =
            "error: overrides reach.position, and this does not say | \"reach.position.real\" or \"reach.position.told\"";
    private static final String UNTIL = "    until: { failsafe: FS-02 }\n";
    private static final String NEVER = "  - never: { step: GIVEN_UP }\n";
    private static final String SECOND = """
              - name: second
                when: { §reach.position: above 200 mm }
                channels: { gripper.beam: stuck-at clear }

            expect:
            """;

    @TempDir
    Path folder = Path.of("");

    @ParameterizedTest
    @MethodSource("conditions")
    void anOverriddenChannelSaysWhichReadingIsMeant(Variant variant) throws IOException {
        variant.check(
                GoodFiles.SCRIPT,
                folder.resolve("reach.fault.yaml"),
                file -> ScriptReader.read(file, ShuttleDescription.virtual()));
    }

    static List<Variant> conditions() {
        return List.of(
                // Before any injection, both readings are the same.
                slip("wait-for: { step: REACHING }", "wait-for: { reach.position: above 1 mm }"),
                // In the "when" of another injection they may differ already, or may not.
                slip("\nexpect:\n", SECOND, TOLD),
                slip("\nexpect:\n", SECOND.replace("§reach.position", "reach.position.told")),
                slip("\nexpect:\n", SECOND.replace("§reach.position", "reach.position.real")),
                slip(
                        "\nexpect:\n",
                        SECOND.replace("§reach.position", "battery.voltage").replace("mm", "mV")),
                // A second injection on the same channel makes the first one's "when" unclear, too.
                slip("when: { step: REACHING, reach.position: at least 180 mm }", """
                        when: { step: REACHING, §reach.position: at least 180 mm }
                            channels: { reach.position: stuck-at 0 mm }
                          - name: second
                            when: { step: EASING }\
                        """, TOLD),
                slip(UNTIL, "    until: { §reach.position: above 190 mm }\n", REFUSED),
                slip(UNTIL, "    until: { reach.position.real: above 190 mm }\n"),
                slip(UNTIL, "    while: { §reach.position: below 190 mm }\n", REFUSED),
                slip(UNTIL, "    while: { reach.position.told: below 190 mm }\n"),
                slip(NEVER, "  - never: { §reach.position: above 400 mm }\n", REFUSED),
                slip(NEVER, "  - never: { reach.position.told: above 400 mm }\n"),
                slip(NEVER, "  - always: { §reach.position: below 400 mm }\n", REFUSED),
                slip(NEVER, "  - becomes: { §reach.position: below 400 mm }\n    within: 1 s\n", REFUSED),
                // Where the override itself is wrong, what it was meant for is still known.
                slip(
                        "reach.position: freeze\n      reach.current: stuck-at 4.2 A\n    until: { failsafe: FS-02 }",
                        "reach.position: §freze\n    until: { §reach.position: above 190 mm }",
                        "error: no fault \"freze\"",
                        REFUSED));
    }
}
