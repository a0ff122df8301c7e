package snagbench.bench.script.read;

import static snagbench.bench.script.read.Variant.slip;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Slips in what goes beyond the plain script: the wider faults, triggers, endings, expectations, derived channels, variants. */
class BrokenLanguageTests {
    private static final String CURRENT = "reach.current: stuck-at 4.2 A";
    private static final String WHEN = "when: { step: REACHING, reach.position: at least 180 mm }";
    private static final String UNTIL = "    until: { failsafe: FS-02 }\n";
    private static final String NEVER = "  - never: { step: GIVEN_UP }\n";
    private static final String NEEDS = "needs: [motion]\n";

    @TempDir
    Path folder = Path.of("");

    @ParameterizedTest
    @MethodSource({"faults", "curvesAndGates", "actuators", "triggers", "endings", "doings", "conditions"})
    void aSlipOnTheRigsSideIsTold(Variant variant) throws IOException {
        check(variant);
    }

    @ParameterizedTest
    @MethodSource({"expectations", "stretches", "anchors", "derived", "variants"})
    void aSlipInWhatIsExpectedIsTold(Variant variant) throws IOException {
        check(variant);
    }

    private void check(Variant variant) throws IOException {
        variant.check(
                GoodFiles.SCRIPT,
                folder.resolve("reach.fault.yaml"),
                file -> ScriptReader.read(file, ShuttleDescription.virtual()));
    }

    static List<Variant> faults() {
        return List.of(
                slip(CURRENT, "reach.current: scale 0.5"),
                slip(CURRENT, "reach.current: scale 50 %"),
                slip(CURRENT, "reach.current: scale -2"),
                slip(CURRENT, "reach.current: scale§", "error: scale lacks its value | scale 0.5"),
                slip(CURRENT, "reach.current: scale §2 A", "error: \"2 A\" is no factor | scale 0.5"),
                slip(CURRENT, "reach.current: scale §32768", "error: a factor of 32768 | -32768"),
                slip(CURRENT, "reach.current: scale §1", "warning: a factor of 1 changes nothing"),
                slip(CURRENT, "gripper.beam: scale §0.5", "error: scale cannot work on gripper.beam | clear, broken"),
                slip(CURRENT, "reach.current: drift 0.2 A per s"),
                slip(CURRENT, "reach.current: drift -200 mA per s"),
                slip(CURRENT, "reach.current: drift §0.2 A per hour", "error: so much per second | 0.2 A per s"),
                slip(CURRENT, "reach.current: drift §0.2 V per s", "error: the unit \"V\" does not fit"),
                slip(CURRENT, "reach.current: drift §0.2 per s", "error: has no unit | \"0.2 A\""),
                slip(
                        CURRENT,
                        "reach.current: drift §5001 A per s",
                        "error: faster than the rig's probe can reckon | at most 4999.99 A per s"),
                slip(CURRENT, "reach.current: drift §0 A per s", "warning: changes nothing"),
                slip(CURRENT, "reach.current: noise 15 mA"),
                slip(
                        CURRENT,
                        "reach.current: noise §0 A",
                        "error: less than the rig's probe can make | a tenth of 0.01 A"),
                slip(CURRENT, "reach.current: noise §-1 A", "error: less than the rig's probe can make"),
                slip(CURRENT, "reach.current: noise §999999999 A", "error: more than the rig's probe can make"),
                slip(CURRENT, "reach.current: noise§", "error: noise lacks its value"),
                slip(
                        CURRENT,
                        "§reach.current.told: dropout",
                        "error: the rig has no channel \"reach.current.told\" | write \"reach.current\""),
                slip(CURRENT, "reach.current: dropout"),
                slip(CURRENT, "reach.current: dropout §0 A", "error: dropout takes no value | \"stuck-at 0 A\""),
                slip(CURRENT, "reach.current: delay 10 ticks"),
                slip(CURRENT, "reach.current: delay 1 tick"),
                slip(CURRENT, "reach.current: delay §10", "error: has no unit | \"10 ticks\""),
                slip(CURRENT, "reach.current: delay §0 ticks", "error: is not from 1 to 65535 ticks"),
                slip(CURRENT, "reach.current: delay §50 ms", "error: this rig's loop runs free | \"10 ticks\""),
                slip(
                        CURRENT,
                        "§reach.current: delay 65535 ticks",
                        "error: ticks of the past for delays | shorter delays"),
                slip(CURRENT, "reach.current: §replay 4 A", "error: replay takes a curve | { replay:"),
                slip(
                        CURRENT,
                        "reach.current: §intermittent freeze",
                        "error: goes around another fault | { intermittent:"),
                slip(CURRENT, "reach.current: [ scale 0.9, noise 0.2 A, spike 1 A for 20 ms ]"),
                slip(CURRENT, "reach.current: §[]", "error: a list of faults is empty | scale 0.9"),
                slip(CURRENT, "reach.current: [ spike 1 A, §noise 0.2 A ]", "error: behind a spike | spikes last"),
                slip(
                        CURRENT,
                        "reach.current: [ noise 0.2 A, §stuck-at 2 A ]",
                        "warning: nothing is left of the faults | first"),
                slip(CURRENT, "reach.current: [ §freze, noise 0.2 A ]", "error: no fault \"freze\" | \"freeze\""));
    }

    static List<Variant> curvesAndGates() {
        return List.of(
                slip(CURRENT, "reach.current: { replay: { 0: 1 A, 5: 2 A, 9 ticks: 0 A } }"),
                slip(CURRENT, "reach.current: { replay: §{} }", "error: a curve without points | at least one"),
                slip(CURRENT, "reach.current: { replay: §1 A }", "error: stands where a curve is wanted"),
                slip(
                        CURRENT,
                        "reach.current: { replay: { 5: 1 A, §5 ticks: 2 A } }",
                        "error: not later than the one before it, at 5 ticks"),
                slip(CURRENT, "reach.current: { replay: { §soon: 1 A } }", "error: is no number of ticks"),
                slip(CURRENT, "reach.current: { replay: { 0: §1 V } }", "error: the unit \"V\" does not fit"),
                slip(CURRENT, "reach.current: { replay: { 0: §31 A } }", "warning: will be cut to it"),
                slip(CURRENT, "reach.current: { replay: { 0: 1 A }, §hold: 2 s }", "error: no key \"hold\""),
                slip(CURRENT, "reach.current: { intermittent: stuck-at 0 A, on: 30 ms, off: 70 ms }"),
                slip(CURRENT, "reach.current: { intermittent: { replay: { 0: 1 A } }, on: 30 ms, off: 70 ms }"),
                slip(
                        CURRENT,
                        "reach.current: §{ intermittent: freeze, on: 30 ms }",
                        "error: lacks \"off\" | off: 70 ms"),
                slip(
                        CURRENT,
                        "reach.current: { intermittent: freeze, on: §0 ms, off: 70 ms }",
                        "error: of 0 leaves no time"),
                slip(
                        CURRENT,
                        "reach.current: §{ intermittent: { intermittent: freeze, on: 1 s, off: 1 s }, on: 30 ms, off: 70 ms }",
                        "error: within another"));
    }

    static List<Variant> actuators() {
        return List.of(
                slip(CURRENT, "reach.command: scale 0.4"),
                slip(CURRENT, "reach.command: stuck-at 0 %"),
                slip(
                        CURRENT,
                        "reach.command: scale §1.5",
                        "error: can only be weakened: a factor of 1.5 | from 0 to 1"),
                slip(CURRENT, "reach.command: scale §-0.5", "error: can only be weakened"),
                slip(CURRENT, "reach.command: §offset 10 %", "error: can only be weakened | \"scale\""),
                slip(
                        CURRENT,
                        "gripper.command: §stuck-at open",
                        "error: does not allow weakening it | what the sensors say"));
    }

    static List<Variant> triggers() {
        return List.of(
                slip(WHEN, WHEN + "\n    for: 60 ms\n    delay: 20 ms\n    count: 2"),
                slip(WHEN, WHEN + "\n    every-time: true"),
                slip(WHEN, WHEN + "\n    at-most-times: 3"),
                slip(WHEN, WHEN + "\n    for: §60", "error: has no unit"),
                slip(WHEN, WHEN + "\n    count: §0", "error: is not a count from 1"),
                slip(WHEN, WHEN + "\n    at-most-times: §many", "error: is not a number of strikes from 1"),
                slip(
                        WHEN,
                        WHEN + "\n    every-time: true\n    §at-most-times: 3",
                        "error: \"every-time\" and \"at-most-times\" stand together | keep one"),
                slip(
                        WHEN,
                        "after: §sees it\n    §for: 20 ms",
                        "error: in a circle",
                        "error: about a condition, and there is no \"when\" | \"delay\""),
                slip(WHEN, "after: begin\n    delay: 20 ms"),
                slip(WHEN, WHEN + "\n    after: §blocked", "error: in a circle | from an injection or from begin"),
                slip(WHEN, WHEN + "\n    after: §sees it", "error: in a circle"),
                slip(WHEN, WHEN + "\n    after: §seas it", "error: nothing here is named \"seas it\" | \"sees it\""),
                slip(
                        "\nexpect:\n",
                        "\n  - after: §{ of: blocked, time: 2 }\n    channels: { reach.command: scale 0.9 }\nexpect:\n",
                        "error: the first strike of another injection, not for a later one | count"),
                slip("\nexpect:\n", "\n  - after: tries again\n    channels: { reach.command: scale 0.9 }\nexpect:\n"),
                slip(
                        "\nexpect:\n  - name: sees it\n",
                        """

                          - §after: still
                            channels: { reach.command: scale 0.9 }
                        expect:
                          - name: still
                            stays: { step: EASING }
                            for: 1 s
                          - name: sees it
                        """,
                        "error: the rig cannot watch for \"\"still\"\" | answered-by"),
                slip(
                        "\nexpect:\n  - name: sees it\n",
                        """

                          - §after: far
                            channels: { reach.command: scale 0.9 }
                        expect:
                          - name: far
                            becomes: { obstacle.position: at least at-injection + 1 mm }
                            within: 1 s
                          - name: sees it
                        """,
                        "error: is worked out from the trace | the rig's own channels"));
    }

    static List<Variant> endings() {
        return List.of(
                slip(UNTIL, "    until: { reach.position: agrees within 2 mm }\n"),
                slip(
                        CURRENT + "\n" + UNTIL,
                        "obstacle.position: stuck-at 100 mm\n    release: when-agrees within 2 mm\n"),
                slip(
                        UNTIL,
                        "    release: §when-agrees within 2 mm\n",
                        "error: the one sensor that is overridden, and here are 2 | until: {"),
                slip(
                        UNTIL,
                        UNTIL + "    §release: when-agrees within 2 mm\n",
                        "error: stand together | agrees within 2 mm"),
                slip(
                        CURRENT + "\n" + UNTIL,
                        "obstacle.position: stuck-at 100 mm\n    release: §softly\n",
                        "error: no way to release | when-agrees within"),
                slip(
                        UNTIL,
                        "    until: { §battery.voltage: agrees within 1 V }\n",
                        "error: does not override battery.voltage | that it overrides"),
                slip(UNTIL, "    until: { reach.position: agrees within §-2 mm }\n", "error: a size below 0"),
                slip(
                        UNTIL,
                        "    while: { battery.voltage: §rises to 7 V }\n",
                        "error: holds in one tick only, and cannot stand in \"while\" | \"at least 7 V\""));
    }

    static List<Variant> doings() {
        return List.of(
                slip(CURRENT, CURRENT + "\n    disturb: { obstacle.position: 220 mm }"),
                slip(
                        CURRENT,
                        CURRENT + "\n    disturb: { §reach.command: 0 % }",
                        "error: is an actuator, where a disturbance is wanted | obstacle.position"),
                slip(
                        CURRENT,
                        CURRENT + "\n    disturb: { obstacle.position: §freeze }",
                        "error: no value of obstacle.position"),
                slip(CURRENT, CURRENT + "\n    disturb: §{}", "error: without disturbances | at least one"),
                slip(CURRENT, CURRENT + "\n    inhibit: FS-01"),
                slip(CURRENT, CURRENT + "\n    inhibit: [FS-01, §FS-10]", "error: no fail-safe \"FS-10\" | \"FS-01\""),
                slip(
                        CURRENT,
                        CURRENT + "\n    fault: §reach-jam",
                        "error: has no compound fault \"reach-jam\" | there is none"),
                slip(NEEDS, NEEDS + "inhibit: [FS-03]\n"),
                slip(NEEDS, NEEDS + "inhibit: §FS-30\n", "error: no fail-safe \"FS-30\" | \"FS-03\""));
    }

    static List<Variant> conditions() {
        return List.of(
                slip(WHEN, "when: { reach.position: rises to 180 mm }"),
                slip(WHEN, "when: { reach.position: falls to 18 cm, reach.position.told: above 1 mm }"),
                slip(WHEN, "when: { reach.position: §moves more than 2 mm }", "error: is no comparison | in 10 ticks"),
                slip(WHEN, "when: { reach.position: §rises above 2 mm }", "error: is no comparison | rises to"),
                slip(WHEN, "when: { reach.position: 5 mm .. 9 cm, step: [is not READY, is not EASING] }"),
                slip(WHEN, "when: { reach.position: §9 mm .. 5 mm }", "error: is empty | lower end first"),
                slip(
                        WHEN,
                        "when: { reach.position: [above 5 mm, §mostly] }",
                        "error: \"mostly\" is no value of reach.position"),
                slip(WHEN, "when: { reach.position: §[] }", "error: a list of comparisons is empty"),
                slip(WHEN, "when: { reach.position: moves less than 0.5 mm in 10 ticks, reach.command: above 5 % }"),
                slip(WHEN, "when: { step: §rises to REACHING }", "error: have names, and no order | \"is NAME\""),
                slip(
                        WHEN,
                        "when: { reach.position: moves more than 2 mm in §65 ticks }",
                        "error: not from 1 to 64 ticks"),
                slip(WHEN, "when: { reach.position: moves more than 2 mm in §50 ms }", "error: loop runs free"),
                slip(WHEN, "when: { reach.position: moves more than §-2 mm in 5 ticks }", "error: a size below 0"),
                slip(WHEN, "when: { reach.position: moves less than §0 mm in 5 ticks }", "warning: can never hold"),
                slip(WHEN, "when: { reach.position: agrees within §2 mm }", "error: stands in \"until\" only"),
                slip(
                        WHEN,
                        "when: { reach.position: at least §at-injection + 2 mm }",
                        "error: cannot stand in \"when\": it is looked up in the trace | a value"),
                slip(
                        WHEN,
                        "when: { §any-of: [ { step: REACHING }, { step: EASING } ] }",
                        "error: cannot stand in \"when\" | an injection of its own"));
    }

    static List<Variant> expectations() {
        return List.of(
                slip(NEVER, "  - stays: { step: GIVEN_UP }\n    for: 1 s\n    within: 0 ms .. 2 s\n"),
                slip(NEVER, "  - stays: { §failsafe: FS-01 }\n    for: 1 s\n", "error: cannot stand in \"stays\""),
                slip(NEVER, "  - settles: { battery.voltage: 12 V +- 0.5 V }\n    within: 1 s\n    for: 500 ms\n"),
                slip(NEVER, "  - settles: { battery.voltage: 12 V ± 500 mV }\n    within: 1 s\n"),
                slip(
                        NEVER,
                        "  - settles: { battery.voltage: §12 V }\n    within: 1 s\n",
                        "error: is no band | \"180 mm +- 2 mm\""),
                slip(
                        NEVER,
                        "  - settles: { battery.voltage: 12 V +- §-1 V }\n    within: 1 s\n",
                        "error: a size below 0"),
                slip(
                        NEVER,
                        "  - settles: { §reach.position: 12 mm +- 1 mm }\n    within: 1 s\n",
                        "error: does not say which reading"),
                slip(NEVER, "  - §settles: { battery.voltage: 12 V +- 1 V }\n", "error: lacks \"within\""),
                slip(NEVER, "  - peak: { battery.voltage: at most 14 V }\n"),
                slip(NEVER, "  - peak: §{ battery.voltage: 14 V }\n", "error: has a limit above or below it"),
                slip(
                        NEVER,
                        "  - peak: §{ battery.voltage: at most 14 V, reach.command: above 1 % }\n",
                        "error: one of them | at most 6 A"),
                slip(NEVER, "  - times: { step: EASING }\n    count: at least 2\n"),
                slip(NEVER, "  - times: { failsafe: FS-01 }\n    count: 0 .. 2\n"),
                slip(NEVER, "  - times: { step: EASING }\n    count: §often\n", "error: is not a count from 0"),
                slip(NEVER, "  - times: { step: EASING }\n    count: §3 .. 2\n", "error: ends before it begins"),
                slip(NEVER, "  - §times: { step: EASING }\n", "error: lacks \"count\""),
                slip(
                        NEVER,
                        "  - times: §{ failsafe: FS-01, step: EASING }\n    count: 1\n",
                        "error: reports of a fail-safe are counted | alone"),
                slip(NEVER, "  - restart: expected\n    within: 2 s\n"),
                slip(NEVER, "  - restart: §yes\n    within: 2 s\n", "error: says nothing about a restart | expected"),
                slip(NEVER, "  - order: [sees it, tries again]\n"),
                slip(NEVER, "  - §order: [sees it]\n", "error: one moment has no order | at least two"),
                slip(NEVER, "  - order: [sees it, §tries it]\n", "error: nothing here is named \"tries it\""),
                slip(NEVER, "  - always: { any-of: [ { step: REACHING }, { step: EASING } ] }\n"),
                slip(
                        NEVER,
                        "  - always: { any-of: §{ step: REACHING } }\n",
                        "error: stands where a list of conditions"),
                slip(NEVER, "  - always: { battery.voltage: at least at-injection - 2 V }\n"),
                slip(NEVER, "  - always: { battery.voltage: at least at-injection(blocked) - 2 V }\n"),
                slip(
                        NEVER,
                        "  - always: { battery.voltage: at least §at-injection(sees it) - 2 V }\n",
                        "error: of something that is no injection"),
                slip(
                        NEVER,
                        "  - always: { battery.voltage: at least at-injection - §2 mm }\n",
                        "error: the unit \"mm\" does not fit"),
                slip(
                        NEVER,
                        "  - always: { battery.voltage: §rises to 7 V }\n",
                        "error: holds in one tick only, and cannot stand in \"always\""),
                slip(NEVER, NEVER + "  - answered-by: FS-02\n    time: 2\n    within: 3 s\n"),
                slip(
                        NEVER,
                        NEVER + "  - answered-by: FS-02\n    time: §twice\n    within: 3 s\n",
                        "error: is not a time from 1"));
    }

    static List<Variant> stretches() {
        return List.of(
                slip(NEVER, "  - never: { step: GIVEN_UP }\n    within: 0 ms .. 2 s\n    after: sees it\n"),
                slip(NEVER, "  - never: { step: GIVEN_UP }\n    from: blocked\n    to: tries again\n"),
                slip(NEVER, "  - must-not-fire: FS-03\n    to: tries again\n"),
                slip(
                        NEVER,
                        "  - never: { step: GIVEN_UP }\n    within: 2 s\n    §to: sees it\n",
                        "error: stand together with \"from\" and \"to\" | keep one pair"),
                slip(
                        NEVER,
                        "  - never: { step: GIVEN_UP }\n    §to: begin\n",
                        "error: nothing lies before the beginning"),
                slip(
                        NEVER,
                        "  - never: { step: GIVEN_UP }\n    from: §sees\n",
                        "error: nothing here is named \"sees\" | \"sees it\""));
    }

    static List<Variant> anchors() {
        String end = "end: 4 s after sees it\n";
        return List.of(
                slip(NEVER, "  - becomes: { step: EASING }\n    within: 1 s\n    after: { of: blocked, time: 2 }\n"),
                slip(
                        NEVER,
                        "  - becomes: { step: EASING }\n    within: 1 s\n    after: §{ of: blocked }\n",
                        "error: lacks \"time\""),
                slip(
                        NEVER,
                        "  - becomes: { step: EASING }\n    within: 1 s\n    after: { of: blocked, time: §0 }\n",
                        "error: is not a time from 1"),
                slip(end, """
                          - name: still
                            stays: { step: EASING }
                            for: 1 s
                          - order: [ sees it, { of: still, time: §2 } ]
                        """, "error: comes about once only | leave \"time\" out"),
                slip(end, "end: 1 s after §still\n", "error: nothing here is named \"still\""));
    }

    static List<Variant> derived() {
        String speed = NEEDS + "derived:\n  battery.rate: { rate-of: battery.voltage, over: 50 ms }\n";
        return List.of(
                slip(NEEDS, speed),
                slip(NEEDS, NEEDS + "derived: { speed: { rate-of: reach.position.real, over: 50 ms } }\n"),
                slip(
                        NEEDS,
                        NEEDS + "derived: { speed: { rate-of: §reach.position, over: 50 ms } }\n",
                        "error: does not say which reading it means | \"reach.position.real\""),
                slip(
                        NEEDS,
                        NEEDS + "derived:\n  stuck: { stalled: reach.position.real, less-than: 1 mm, over: 100 ms,"
                                + " while: { reach.command: above 5 % } }\n"),
                slip(NEEDS, NEEDS + "derived: { calm: { debounced: { step: READY }, for: 30 ms } }\n"),
                slip(NEEDS, NEEDS + "derived: { d: { difference: [reach.position.real, obstacle.position] } }\n"),
                slip(
                        NEEDS,
                        NEEDS + "derived: { d: { difference: [battery.voltage, §obstacle.position] } }\n",
                        "error: obstacle.position is in mm, and battery.voltage in V | same unit"),
                slip(
                        NEEDS,
                        NEEDS + "derived: { d: { §difference: [battery.voltage] } }\n",
                        "error: is of two channels"),
                slip(NEEDS, NEEDS + "derived: { s: { sum: [reach.position.real, obstacle.position] } }\n"),
                slip(NEEDS, NEEDS + "derived: { s: { §sum: [battery.voltage] } }\n", "error: a sum is of two channels"),
                slip(NEEDS, NEEDS + "derived: { m: { mean-of: battery.voltage, over: 1 s } }\n"),
                slip(NEEDS, NEEDS + "derived: { m: { rms-of: battery.voltage, over: 1 s } }\n"),
                slip(
                        NEEDS,
                        NEEDS + "derived: { m: { §median-of: battery.voltage } }\n",
                        "error: how it is derived | \"mean-of\""),
                slip(NEEDS, NEEDS + "derived: { m: §{ mean-of: battery.voltage } }\n", "error: lacks \"over\""),
                slip(
                        NEEDS,
                        NEEDS + "derived: { §step: { mean-of: battery.voltage, over: 1 s } }\n",
                        "error: means something else"),
                slip(
                        NEEDS,
                        NEEDS + "derived: { §reach.current: { mean-of: battery.voltage, over: 1 s } }\n",
                        "error: is taken by another channel"),
                slip(
                        NEEDS,
                        NEEDS + "derived: { m: { mean-of: §step, over: 1 s } }\n",
                        "error: cannot be reckoned with | \"debounced\""),
                slip(
                        NEEDS,
                        speed + "  again: { mean-of: §battery.rate, over: 1 s }\n",
                        "error: is derived itself | a channel of the rig"));
    }

    static List<Variant> variants() {
        return List.of(
                slip(NEEDS, NEEDS + "vary: §{}\n", "error: nothing is varied | 20 mm"),
                slip(NEEDS, NEEDS + "vary: { at: §20 mm .. 400 mm }\n", "error: how many values | in 8"),
                slip(
                        NEEDS,
                        NEEDS + "vary: { at: §400 mm .. 20 mm in 8 }\n",
                        "error: from a smaller value to a greater"),
                slip(NEEDS, NEEDS + "vary: { at: §20 mm .. 40 cm in 8 }\n", "error: in the same unit"),
                slip(NEEDS, NEEDS + "vary: { at: 20 mm .. 400 mm by §5 A }\n", "error: a step of 5 A does not lead"),
                slip(
                        NEEDS,
                        NEEDS + "vary: { at: 20 mm .. 22 mm in §8 }\n",
                        "error: not 8 values with so few decimals | \"20.0 mm\""),
                slip(NEEDS, NEEDS + "vary: { at: 20 mm .. 400 mm in §1 }\n", "error: is not a number of values from 2"),
                slip(NEEDS, NEEDS + "vary: { at: [20 mm, §far] }\n", "error: \"far\" is no figure with a unit"),
                slip(NEEDS, NEEDS + "vary: { §2nd: [20 mm] }\n", "error: cannot be a parameter's name | $at"),
                slip(
                        NEEDS,
                        NEEDS + "vary: §{ a: 0 mm .. 99 mm in 100, b: 0 mm .. 99 mm in 100 }\n",
                        "error: 1000 scripts at most, and this one for 10000"));
    }
}
