package snagbench.bench.script.read;

import static snagbench.bench.script.read.Variant.of;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** A good script with one slip: what is told, where, and what would do. */
class BrokenScriptTests {
    @TempDir
    Path folder = Path.of("");

    @ParameterizedTest
    @MethodSource({"yaml", "shape", "names", "values", "faults", "times", "conditions", "expectations"})
    void tellsWhereWhatAndWhatWouldDo(Variant variant) throws IOException {
        variant.check(
                GoodFiles.SCRIPT,
                folder.resolve("reach.fault.yaml"),
                file -> ScriptReader.read(file, ShuttleDescription.virtual()));
    }

    static List<Variant> yaml() {
        return List.of(
                of(
                        "      reach.position: freeze",
                        "§\treach.position: freeze",
                        "error: a tab in the indentation | put spaces in its place"),
                of("above 7 V", "§> 7 V", "error: an unquoted \">\" | write \"above\""),
                of(
                        "battery.voltage: above 7 V }",
                        "battery.voltage: §!= 7 V }",
                        "error: is a tag in YAML | write \"is not\""),
                of("[motion]", "§[motion", "error: what is opened here by \"[\" goes wrong | close it by \"]\""),
                of("start-run", "§\"start-run", "error: this quote is opened and not closed | close it"),
                of("start-run", "§*start", "error: is an alias in YAML | write the value out"),
                of("start-run", "§&start start-run", "error: is an anchor in YAML | write values out"),
                of("start-run", "§!command start-run", "error: is a tag in YAML | take it out"),
                of("midway", "midway§: again", "error: a colon that YAML does not expect here | wants quotes"),
                of(
                        "send: start-run",
                        "§send:start-run",
                        "error: stands where a stage is wanted | a space is wanted after the colon"),
                of("    until: {", "    §until:{", "error: no key | a space is wanted after the colon"),
                of(
                        "    within: 2 s\n",
                        "    §within: 2 s\n    §within: 3 s\n",
                        "error: again in line 11 | keep one",
                        "error: first in line 10 | keep one"),
                of(
                        "end: 4 s after sees it\n",
                        "end: 4 s after sees it\n§---\nmore: 1\n",
                        "error: a second document begins here | one file holds one"),
                of(
                        "when: {",
                        "when: §{ §{",
                        "error: goes wrong | commas",
                        "error: a mapping stands where a key is wanted | a key is a text"),
                of(
                        "    lasts: 900 ms\n",
                        "     §lasts: 900 ms\n",
                        "error: does not go on with what began in line 13 | indent it"),
                of(
                        "[motion]",
                        "§motion\n  lift",
                        "error: goes on in the next line, and reads \"motion lift\" | line 6"),
                of("fault-script: reach blocked midway", "fault-script:§", "error: is left out | after the colon"),
                of("fault-script: reach blocked midway", "fault-script: §\"\"", "error: is empty | between the quotes"),
                of(
                        "fault-script: reach blocked midway",
                        "fault-script: §|\n  reach\n  blocked",
                        "error: has several lines | on one"));
    }

    static List<Variant> shape() {
        return List.of(
                of(
                        "fault-script: reach",
                        "§fault-scrpt: reach",
                        "error: no key \"fault-scrpt\" | did you mean \"fault-script\"?"),
                of(
                        "fault-script: reach blocked midway\nfailsafe",
                        "§failsafe",
                        "error: lacks \"fault-script\" | fault-script: what happens"),
                of(
                        "failsafe: FS-02\nwhy",
                        "§fail-safe: FS-02\nwhy",
                        "error: no key \"fail-safe\" | did you mean \"failsafe\"?"),
                of("[motion]", "[§motions]", "error: there is no need \"motions\" | did you mean \"motion\"?"),
                of("[motion]", "§{ motion: 1 }", "error: a mapping stands where a list of needs is wanted | \"- \""),
                of("[motion]", "§[]", "error: a list of needs is empty | write at least one"),
                of("needs: [motion]", "§vary: { at: 20 mm }", "error: \"vary\" is not in this version | takes"),
                of(
                        "inject:\n",
                        "inject:\n  - §§{}\n",
                        "error: lacks \"when\" | when: {",
                        "error: lacks \"channels\" | channels: {"),
                of(
                        "  - send: start-run\n",
                        "  - §send-to: start-run\n",
                        "error: no key \"send-to\" | did you mean \"send\"?"),
                of("  - send: start-run\n", "  - §{}\n", "error: neither sends nor waits | - send: NAME"),
                of("  - wait-for: { step", "    §wait-for: { step", "error: sends or waits, not both | of its own"),
                of(
                        "  - send: start-run\n",
                        "  - send: start-run\n    §within: 1 s\n",
                        "error: \"send\" takes no time | take \"within\" out"),
                of(
                        "- wait-for: { step: REACHING }\n    within: 2 s\n",
                        "- §wait-for: { step: REACHING }\n",
                        "error: lacks \"within\" | within: 2 s"),
                of("begin:\n", "begin: §~\n§begun:\n", "error: nothing stands where a list", "error: no key \"begun\""),
                of("    until:", "    §untill:", "error: no key \"untill\" | did you mean \"until\"?"),
                of(
                        "    lasts:",
                        "    §every-time: true\n    lasts:",
                        "error: \"every-time\" is not in this version | takes"),
                of(
                        "  - name: blocked\n    when: { step: REACHING, reach.position: at least 180 mm }\n",
                        "  - §name: blocked\n",
                        "error: lacks \"when\" | when: {"),
                of(
                        "{ step: REACHING, reach.position: at least 180 mm }",
                        "§{}",
                        "error: an empty condition | at least one"),
                of(
                        "{ step: REACHING, reach.position: at least 180 mm }",
                        "§REACHING",
                        "error: \"REACHING\" stands where a condition is wanted | { step: NAME"),
                of(
                        "{ step: REACHING, reach.position: at least 180 mm }",
                        "§[REACHING]",
                        "error: a list stands where a condition is wanted | { step: NAME"),
                of(
                        "      reach.position: freeze\n      reach.current: stuck-at 4.2 A\n",
                        "      §[]\n",
                        "error: a list stands where channels with their faults | write it as"),
                of(
                        "reach.position: freeze",
                        "reach.position: §{ freeze: 1 }",
                        "error: a mapping stands where a fault"));
    }

    static List<Variant> names() {
        return List.of(
                of(
                        "reach.current: stuck-at",
                        "§reach.curent: stuck-at",
                        "error: the rig has no channel \"reach.curent\" | did you mean \"reach.current\"?"),
                of(
                        "{ battery.voltage",
                        "{ §batery.voltage",
                        "error: no channel \"batery.voltage\" | did you mean \"battery.voltage\"?"),
                of(
                        "{ battery.voltage",
                        "{ §batery.voltage.told",
                        "error: no channel \"batery.voltage\" | did you mean \"battery.voltage\"?"),
                of(
                        "{ battery.voltage",
                        "{ §voltage",
                        "error: no channel \"voltage\" | did you mean \"battery.voltage\"?"),
                of("{ battery.voltage", "{ §Battery.Voltage", "error: no channel | did you mean \"battery.voltage\"?"),
                of(
                        "send: start-run",
                        "send: §start_run",
                        "error: no command \"start_run\" | did you mean \"start-run\"?"),
                of(
                        "send: start-run",
                        "send: §reach.command",
                        "error: \"reach.command\" is an actuator, where a command is wanted | there are: start-run, ready"),
                of(
                        "failsafe: FS-02\nwhy",
                        "failsafe: §FS-2\nwhy",
                        "error: no fail-safe \"FS-2\" | did you mean \"FS-02\"?"),
                of(
                        "answered-by: FS-02",
                        "answered-by: §FS-20",
                        "error: no fail-safe \"FS-20\" | did you mean \"FS-02\"?"),
                of(
                        "until: { failsafe: FS-02 }",
                        "until: { failsafe: §quick }",
                        "error: no fail-safe \"quick\" | there are: FS-01, FS-02, FS-03"));
    }

    static List<Variant> values() {
        return List.of(
                of(
                        "180 mm",
                        "§180 A",
                        "error: the unit \"A\" does not fit reach.position, which is in mm | um, mm, cm, m"),
                of("180 mm", "§180 mmm", "error: \"mmm\" does not fit | did you mean \"mm\"?"),
                of("180 mm", "§180", "error: has no unit | write \"180 mm\""),
                of("180 mm", "§fast", "error: \"fast\" is no value of reach.position | figure and unit"),
                of(
                        "180 mm",
                        "§180,§5 mm",
                        "error: 180 has no unit | \"180 mm\"",
                        "error: no channel \"5 mm\" | decimal point"),
                of("180 mm", "§−180 mm", "error: a typographic minus | plain \"-\""),
                of("180 mm", "§1e3 mm", "error: is no value of reach.position | figure and unit"),
                of("180 mm", "§999999999999999 mm", "error: far outside the range | goes from -20.0 mm to 450.0 mm"),
                of("180 mm", "§111111111111111111111111111111111111111111111111111111111111 mm", "error: is no value"),
                of("4.2 A", "§4.205 A", "error: between two values of reach.current | 4.20 A and 4.21 A"),
                of("4.2 A", "§4,2 A", "error: has a comma | 4.2 A"),
                of("4.2 A", "§on", "error: \"on\" is no value of reach.current | figure and unit"),
                of(
                        "4.2 A",
                        "§31 A",
                        "warning: outside the range of reach.current and will be cut to it | from 0.00 A to 30.00 A"),
                of("{ step: GIVEN_UP }", "{ start-run: §on }", "error: \"on\" is no value of start-run | write 1 or 0"),
                of(
                        "{ step: GIVEN_UP }",
                        "{ start-run: §1 V }",
                        "error: \"V\" does not fit start-run, which has no unit | figure alone"),
                of(
                        "{ step: GIVEN_UP }",
                        "{ step: §GIVENUP }",
                        "error: this rig has no step \"GIVENUP\" | did you mean \"GIVEN_UP\"?"),
                of("{ step: GIVEN_UP }", "{ step: §given-up }", "error: no step | did you mean \"GIVEN_UP\"?"),
                of("{ step: GIVEN_UP }", "{ step: §8 }", "error: \"8\" is no value of step | STOPPED, READY"),
                of(
                        "{ step: GIVEN_UP }",
                        "{ gripper.beam: §brocken }",
                        "error: gripper.beam has no value \"brocken\" | did you mean \"broken\"?"));
    }

    static List<Variant> faults() {
        return List.of(
                of("position: freeze", "position: §freze", "error: no fault \"freze\" | did you mean \"freeze\"?"),
                of("position: freeze", "position: freeze §1 mm", "error: freeze takes no value | stuck-at 1 mm"),
                of("stuck-at 4.2 A", "§stuck at 4.2 A", "error: no fault \"stuck\" | \"stuck-at 4.2 A\""),
                of(
                        "stuck-at 4.2 A",
                        "§4.2 A",
                        "error: does not say which fault | \"stuck-at 4.2 A\" or \"offset 4.2 A\""),
                of("stuck-at 4.2 A", "stuck-at§", "error: stuck-at lacks its value | stuck-at 30.00 A"),
                of(
                        "stuck-at 4.2 A",
                        "§drift 1 A per s",
                        "error: drift is not in this version | stuck-at, freeze, offset, spike"),
                of("stuck-at 4.2 A", "offset §0 A", "warning: adding 0 A changes nothing"),
                of("stuck-at 4.2 A", "offset §31 A", "warning: more than the whole range"),
                of(
                        "stuck-at 4.2 A",
                        "offset 6 A over §1200 us",
                        "error: steeper than the rig's probe can reckon | at least 1201 us, or leave \"over\" out"),
                of("stuck-at 4.2 A", "offset §1500000000 mm", "error: does not fit"),
                of("stuck-at 4.2 A", "offset 1 A over§", "error: is no time | 250 ms"),
                of("stuck-at 4.2 A", "spike 1 A for §ever", "error: \"ever\" is no time | 250 ms"),
                of("stuck-at 4.2 A", "spike§", "error: spike lacks its value"),
                of(
                        "reach.current: stuck-at 4.2 A",
                        "gripper.beam: offset §1",
                        "error: nothing can be added to gripper.beam | stuck-at: clear, broken"),
                of(
                        "reach.current: stuck-at 4.2 A",
                        "reach.command: §stuck-at 0 %",
                        "error: weakening one is not in this version | what the sensors say"),
                of(
                        "reach.current: stuck-at 4.2 A",
                        "start-run: §stuck-at 1",
                        "error: commands are given at the beginning only | - send: start-run"),
                of("reach.current: stuck-at 4.2 A", "step: §stuck-at READY", "error: cannot be forced | a sensor"),
                of("reach.current: stuck-at 4.2 A", "failsafe.count: §freeze", "error: cannot be forced | a sensor"),
                of(
                        "reach.current: stuck-at 4.2 A",
                        "obstacle.position: §freeze",
                        "error: a disturbance and has no reading for \"freeze\" | take stuck-at"),
                of(
                        "reach.current: stuck-at 4.2 A",
                        "inhibit FS-01: stuck-at §0",
                        "error: switched on or left alone | stuck-at 1"),
                of(
                        "reach.current: stuck-at 4.2 A",
                        "inhibit FS-01: §offset 1",
                        "error: an inhibition of a fail-safe and has no reading | take stuck-at"));
    }

    static List<Variant> times() {
        return List.of(
                of("900 ms", "§900", "error: has no unit | \"900 ms\""),
                of("900 ms", "§900 mm", "error: \"mm\" is no unit of time | ms"),
                of("900 ms", "§0 ms", "error: of 0 leaves no time at all"),
                of("900 ms", "§-5 ms", "error: a time below 0 | without the sign"),
                of("900 ms", "§0.5 us", "error: no whole number of microseconds"),
                of("900 ms", "§36 min", "error: is too long | 2^31 - 1 us"),
                of("900 ms", "§soon", "error: \"soon\" is no time | \"250 ms\""),
                of("80 ms .. 250 ms", "§250 ms .. 80 ms", "error: ends before it begins | \"80 ms .. 250 ms\""),
                of("80 ms .. 250 ms", "§80 .. 250 ms", "error: has no unit"),
                of("80 ms .. 250 ms", "80 ms ..§", "error: is no time"),
                of("end: 4 s after sees it", "end: §4 s", "error: does not say after what | 2 s after begin"),
                of(
                        "end: 4 s after sees it",
                        "end: 4 s after §see it",
                        "error: nothing here is named \"see it\" | did you mean \"sees it\"?"),
                of(
                        "end: 4 s after sees it",
                        "end: §2 s after sees it",
                        "warning: ends before the deadline of \"tries again\" in line 26 | end later"));
    }

    static List<Variant> conditions() {
        return List.of(
                of("above 7 V", "§over 7 V", "error: is no comparison | write \"above 7 V\""),
                of("above 7 V", "§more than 7 V", "error: is no comparison | write \"above 7 V\""),
                of("above 7 V", "§At Least 7 V", "error: is no comparison | write \"at least 7 V\""),
                of("above 7 V", "at most §20.1 V", "warning: always holds | from 0.00 V to 20.00 V"),
                of("above 7 V", "above §20 V", "warning: can never hold | from 0.00 V to 20.00 V"),
                of("above 7 V", "is §7.005 V", "error: between two values | 7.00 V and 7.01 V"),
                of(
                        "{ step: GIVEN_UP }",
                        "{ step: above §GIVEN_UP }",
                        "error: have names, and no order | \"is GIVEN_UP\""),
                of(
                        "{ step: GIVEN_UP }",
                        "{ §failsafe: FS-01 }",
                        "error: \"failsafe\" cannot stand in \"never\" | must-not-fire: FS-nn"),
                of(
                        "always: { battery.voltage: above 7 V }",
                        "always: { §failsafe: FS-01 }",
                        "error: cannot stand in \"always\" | answered-by: FS-nn"),
                of(
                        "becomes: { step: DRAWING_BACK }",
                        "becomes: { §failsafe: FS-01 }",
                        "error: cannot stand in \"becomes\" | answered-by: FS-nn"),
                of(
                        "until: { failsafe: FS-02 }",
                        "while: { §failsafe: FS-02 }",
                        "error: cannot stand in \"while\" | take \"until\""));
    }

    static List<Variant> expectations() {
        return List.of(
                of(
                        "    after: sees it\n",
                        "    after: §see it\n",
                        "error: nothing here is named \"see it\" | did you mean \"sees it\"?"),
                of(
                        "    after: sees it\n",
                        "    after: §tries again\n",
                        "error: counted from each other in a circle | from an injection or from begin"),
                of("  - name: tries again\n", "  - name: §sees it\n", "error: is taken in line 22 | take another one"),
                of("  - name: tries again\n", "  - name: §blocked\n", "error: is taken in line 13 | take another one"),
                of(
                        "  - never: { step: GIVEN_UP }\n",
                        "  - never: { step: GIVEN_UP }\n    name: §begin\n",
                        "error: the name \"begin\" is taken | another"),
                of(
                        "    after: sees it\n  - always: {",
                        "    after: §calm\n  - name: calm\n    always: {",
                        "error: \"calm\" has no moment from which to count | sees it"),
                of(
                        "    answered-by: FS-02\n",
                        "    §stays: { step: EASING }\n",
                        "error: \"stays\" is not in this version | answered-by, becomes"),
                of(
                        "    answered-by: FS-02\n",
                        "    §answered: FS-02\n",
                        "error: there is no expectation \"answered\" | did you mean \"answered-by\"?"),
                of(
                        "  - name: sees it\n    answered-by: FS-02\n",
                        "  - §name: sees it\n    answered-by: FS-02\n    never: { step: EASING }\n",
                        "error: one expectation holds answered-by and never | of its own"),
                of("no-other: true", "no-other: §yes", "error: neither true nor false | YAML 1.2"),
                of(
                        "  - name: tries again\n    becomes: { step: DRAWING_BACK }\n    within: 3 s\n",
                        "  - §name: tries again\n    becomes: { step: DRAWING_BACK }\n",
                        "error: lacks \"within\" | within: 250 ms"),
                of(
                        "  - never: { step: GIVEN_UP }\n",
                        "  - never: { step: GIVEN_UP }\n    §within: 1 s\n",
                        "error: no key \"within\""),
                of(
                        "failsafe: FS-02\nwhy",
                        "§failsafe: FS-01\nwhy",
                        "warning: evidence for FS-01, and expects nothing of it | answered-by: FS-01"));
    }
}
