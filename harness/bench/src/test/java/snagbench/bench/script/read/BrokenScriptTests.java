package snagbench.bench.script.read;

import static snagbench.bench.script.read.Variant.slip;

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
                slip(
                        "      reach.position: freeze",
                        "§\treach.position: freeze",
                        "error: a tab in the indentation | put spaces in its place"),
                slip("above 7 V", "§> 7 V", "error: an unquoted \">\" | write \"above\""),
                slip(
                        "battery.voltage: above 7 V }",
                        "battery.voltage: §!= 7 V }",
                        "error: is a tag in YAML | write \"is not\""),
                slip("[motion]", "§[motion", "error: what is opened here by \"[\" goes wrong | close it by \"]\""),
                slip("start-run", "§\"start-run", "error: this quote is opened and not closed | close it"),
                slip("start-run", "§*start", "error: is an alias in YAML | write the value out"),
                slip("start-run", "§&start start-run", "error: is an anchor in YAML | write values out"),
                slip("start-run", "§!command start-run", "error: is a tag in YAML | take it out"),
                slip("midway", "midway§: again", "error: a colon that YAML does not expect here | wants quotes"),
                slip(
                        "send: start-run",
                        "§send:start-run",
                        "error: stands where a stage is wanted | a space is wanted after the colon"),
                slip("    until: {", "    §until:{", "error: no key | a space is wanted after the colon"),
                slip(
                        "    within: 2 s\n",
                        "    §within: 2 s\n    §within: 3 s\n",
                        "error: again in line 11 | keep one",
                        "error: first in line 10 | keep one"),
                slip(
                        "end: 4 s after sees it\n",
                        "end: 4 s after sees it\n§---\nmore: 1\n",
                        "error: a second document begins here | one file holds one"),
                slip(
                        "when: {",
                        "when: §{ §{",
                        "error: goes wrong | commas",
                        "error: a mapping stands where a key is wanted | a key is a text"),
                slip(
                        "    lasts: 900 ms\n",
                        "     §lasts: 900 ms\n",
                        "error: does not go on with what began in line 13 | indent it"),
                slip(
                        "[motion]",
                        "§motion\n  lift",
                        "error: goes on in the next line, and reads \"motion lift\" | line 6"),
                slip("fault-script: reach blocked midway", "fault-script:§", "error: is left out | after the colon"),
                slip(
                        "fault-script: reach blocked midway",
                        "fault-script: §\"\"",
                        "error: is empty | between the quotes"),
                slip(
                        "fault-script: reach blocked midway",
                        "fault-script: §|\n  reach\n  blocked",
                        "error: has several lines | on one"));
    }

    static List<Variant> shape() {
        return List.of(
                slip(
                        "fault-script: reach",
                        "§fault-scrpt: reach",
                        "error: no key \"fault-scrpt\" | did you mean \"fault-script\"?"),
                slip(
                        "fault-script: reach blocked midway\nfailsafe",
                        "§failsafe",
                        "error: lacks \"fault-script\" | fault-script: what happens"),
                slip(
                        "failsafe: FS-02\nwhy",
                        "§fail-safe: FS-02\nwhy",
                        "error: no key \"fail-safe\" | did you mean \"failsafe\"?"),
                slip("[motion]", "[§motions]", "error: there is no need \"motions\" | did you mean \"motion\"?"),
                slip("[motion]", "§{ motion: 1 }", "error: a mapping stands where a list of needs is wanted | \"- \""),
                slip("[motion]", "§[]", "error: a list of needs is empty | write at least one"),
                slip("needs: [motion]", "§vary: { at: 20 mm }", "warning: nothing uses the parameter \"at\" | $at"),
                slip(
                        "inject:\n",
                        "inject:\n  - §§{}\n",
                        "error: lacks \"when\" | when: {",
                        "error: lacks \"channels\" | channels: {"),
                slip(
                        "  - send: start-run\n",
                        "  - §send-to: start-run\n",
                        "error: no key \"send-to\" | did you mean \"send\"?"),
                slip("  - send: start-run\n", "  - §{}\n", "error: neither sends nor waits | - send: NAME"),
                slip("  - wait-for: { step", "    §wait-for: { step", "error: sends or waits, not both | of its own"),
                slip(
                        "  - send: start-run\n",
                        "  - send: start-run\n    §within: 1 s\n",
                        "error: \"send\" takes no time | take \"within\" out"),
                slip(
                        "- wait-for: { step: REACHING }\n    within: 2 s\n",
                        "- §wait-for: { step: REACHING }\n",
                        "error: lacks \"within\" | within: 2 s"),
                slip(
                        "begin:\n",
                        "begin: §~\n§begun:\n",
                        "error: nothing stands where a list",
                        "error: no key \"begun\""),
                slip("    until:", "    §untill:", "error: no key \"untill\" | did you mean \"until\"?"),
                slip("    lasts:", "    every-time: §often\n    lasts:", "error: \"often\" is neither true nor false"),
                slip(
                        "  - name: blocked\n    when: { step: REACHING, reach.position: at least 180 mm }\n",
                        "  - §name: blocked\n",
                        "error: lacks \"when\" | when: {"),
                slip(
                        "{ step: REACHING, reach.position: at least 180 mm }",
                        "§{}",
                        "error: an empty condition | at least one"),
                slip(
                        "{ step: REACHING, reach.position: at least 180 mm }",
                        "§REACHING",
                        "error: \"REACHING\" stands where a condition is wanted | { step: NAME"),
                slip(
                        "{ step: REACHING, reach.position: at least 180 mm }",
                        "§[REACHING]",
                        "error: a list stands where a condition is wanted | { step: NAME"),
                slip(
                        "      reach.position: freeze\n      reach.current: stuck-at 4.2 A\n",
                        "      §[]\n",
                        "error: a list stands where channels with their faults | write it as"),
                slip(
                        "reach.position: freeze",
                        "reach.position: §{ freeze: 1 }",
                        "error: a mapping stands where a fault"));
    }

    static List<Variant> names() {
        return List.of(
                slip(
                        "reach.current: stuck-at",
                        "§reach.curent: stuck-at",
                        "error: the rig has no channel \"reach.curent\" | did you mean \"reach.current\"?"),
                slip(
                        "{ battery.voltage",
                        "{ §batery.voltage",
                        "error: no channel \"batery.voltage\" | did you mean \"battery.voltage\"?"),
                slip(
                        "{ battery.voltage",
                        "{ §batery.voltage.told",
                        "error: no channel \"batery.voltage\" | did you mean \"battery.voltage\"?"),
                slip(
                        "{ battery.voltage",
                        "{ §voltage",
                        "error: no channel \"voltage\" | did you mean \"battery.voltage\"?"),
                slip(
                        "{ battery.voltage",
                        "{ §Battery.Voltage",
                        "error: no channel | did you mean \"battery.voltage\"?"),
                slip(
                        "send: start-run",
                        "send: §start_run",
                        "error: no command \"start_run\" | did you mean \"start-run\"?"),
                slip(
                        "send: start-run",
                        "send: §reach.command",
                        "error: \"reach.command\" is an actuator, where a command is wanted | there are: start-run, ready"),
                slip(
                        "failsafe: FS-02\nwhy",
                        "failsafe: §FS-2\nwhy",
                        "error: no fail-safe \"FS-2\" | did you mean \"FS-02\"?"),
                slip(
                        "answered-by: FS-02",
                        "answered-by: §FS-20",
                        "error: no fail-safe \"FS-20\" | did you mean \"FS-02\"?"),
                slip(
                        "until: { failsafe: FS-02 }",
                        "until: { failsafe: §quick }",
                        "error: no fail-safe \"quick\" | there are: FS-01, FS-02, FS-03"));
    }

    static List<Variant> values() {
        return List.of(
                slip(
                        "180 mm",
                        "§180 A",
                        "error: the unit \"A\" does not fit reach.position, which is in mm | um, mm, cm, m"),
                slip("180 mm", "§180 mmm", "error: \"mmm\" does not fit | did you mean \"mm\"?"),
                slip("180 mm", "§180", "error: has no unit | write \"180 mm\""),
                slip("180 mm", "§fast", "error: \"fast\" is no value of reach.position | figure and unit"),
                slip(
                        "180 mm",
                        "§180,§5 mm",
                        "error: 180 has no unit | \"180 mm\"",
                        "error: no channel \"5 mm\" | decimal point"),
                slip("180 mm", "§−180 mm", "error: a typographic minus | plain \"-\""),
                slip("180 mm", "§1e3 mm", "error: is no value of reach.position | figure and unit"),
                slip("180 mm", "§999999999999999 mm", "error: far outside the range | goes from -20.0 mm to 450.0 mm"),
                slip(
                        "180 mm",
                        "§111111111111111111111111111111111111111111111111111111111111 mm",
                        "error: is no value"),
                slip("4.2 A", "§4.205 A", "error: between two values of reach.current | 4.20 A and 4.21 A"),
                slip("4.2 A", "§4,2 A", "error: has a comma | 4.2 A"),
                slip("4.2 A", "§on", "error: \"on\" is no value of reach.current | figure and unit"),
                slip(
                        "4.2 A",
                        "§31 A",
                        "warning: outside the range of reach.current and will be cut to it | from 0.00 A to 30.00 A"),
                slip(
                        "{ step: GIVEN_UP }",
                        "{ start-run: §on }",
                        "error: \"on\" is no value of start-run | write 1 or 0"),
                slip(
                        "{ step: GIVEN_UP }",
                        "{ start-run: §1 V }",
                        "error: \"V\" does not fit start-run, which has no unit | figure alone"),
                slip(
                        "{ step: GIVEN_UP }",
                        "{ step: §GIVENUP }",
                        "error: this rig has no step \"GIVENUP\" | did you mean \"GIVEN_UP\"?"),
                slip("{ step: GIVEN_UP }", "{ step: §given-up }", "error: no step | did you mean \"GIVEN_UP\"?"),
                slip("{ step: GIVEN_UP }", "{ step: §8 }", "error: \"8\" is no value of step | STOPPED, READY"),
                slip(
                        "{ step: GIVEN_UP }",
                        "{ gripper.beam: §brocken }",
                        "error: gripper.beam has no value \"brocken\" | did you mean \"broken\"?"));
    }

    static List<Variant> faults() {
        return List.of(
                slip("position: freeze", "position: §freze", "error: no fault \"freze\" | did you mean \"freeze\"?"),
                slip("position: freeze", "position: freeze §1 mm", "error: freeze takes no value | stuck-at 1 mm"),
                slip("stuck-at 4.2 A", "§stuck at 4.2 A", "error: no fault \"stuck\" | \"stuck-at 4.2 A\""),
                slip(
                        "stuck-at 4.2 A",
                        "§4.2 A",
                        "error: does not say which fault | \"stuck-at 4.2 A\" or \"offset 4.2 A\""),
                slip("stuck-at 4.2 A", "stuck-at§", "error: stuck-at lacks its value | stuck-at 30.00 A"),
                slip("stuck-at 4.2 A", "drift §1 A", "error: so much per second | \"drift 1 A per s\""),
                slip("stuck-at 4.2 A", "offset §0 A", "warning: adding 0 A changes nothing"),
                slip("stuck-at 4.2 A", "offset §31 A", "warning: more than the whole range"),
                slip(
                        "stuck-at 4.2 A",
                        "offset 6 A over §1200 us",
                        "error: steeper than the rig's probe can reckon | at least 1201 us, or leave \"over\" out"),
                slip("stuck-at 4.2 A", "offset §1500000000 mm", "error: does not fit"),
                slip("stuck-at 4.2 A", "offset 1 A over§", "error: is no time | 250 ms"),
                slip("stuck-at 4.2 A", "spike 1 A for §ever", "error: \"ever\" is no time | 250 ms"),
                slip("stuck-at 4.2 A", "spike§", "error: spike lacks its value"),
                slip(
                        "reach.current: stuck-at 4.2 A",
                        "gripper.beam: offset §1",
                        "error: nothing can be added to gripper.beam | stuck-at: clear, broken"),
                slip(
                        "reach.current: stuck-at 4.2 A",
                        "reach.command: stuck-at §5 %",
                        "error: can only be weakened, not driven | \"stuck-at 0\", or scale it"),
                slip(
                        "reach.current: stuck-at 4.2 A",
                        "start-run: §stuck-at 1",
                        "error: commands are given at the beginning only | - send: start-run"),
                slip("reach.current: stuck-at 4.2 A", "step: §stuck-at READY", "error: cannot be forced | a sensor"),
                slip("reach.current: stuck-at 4.2 A", "failsafe.count: §freeze", "error: cannot be forced | a sensor"),
                slip(
                        "reach.current: stuck-at 4.2 A",
                        "obstacle.position: §freeze",
                        "error: a disturbance and has no reading for \"freeze\" | take stuck-at"),
                slip(
                        "reach.current: stuck-at 4.2 A",
                        "inhibit FS-01: stuck-at §0",
                        "error: switched on or left alone | stuck-at 1"),
                slip(
                        "reach.current: stuck-at 4.2 A",
                        "inhibit FS-01: §offset 1",
                        "error: an inhibition of a fail-safe and has no reading | take stuck-at"));
    }

    static List<Variant> times() {
        return List.of(
                slip("900 ms", "§900", "error: has no unit | \"900 ms\""),
                slip("900 ms", "§900 mm", "error: \"mm\" is no unit of time | ms"),
                slip("900 ms", "§0 ms", "error: of 0 leaves no time at all"),
                slip("900 ms", "§-5 ms", "error: a time below 0 | without the sign"),
                slip("900 ms", "§0.5 us", "error: no whole number of microseconds"),
                slip("900 ms", "§36 min", "error: is too long | 2^31 - 1 us"),
                slip("900 ms", "§soon", "error: \"soon\" is no time | \"250 ms\""),
                slip("80 ms .. 250 ms", "§250 ms .. 80 ms", "error: ends before it begins | \"80 ms .. 250 ms\""),
                slip("80 ms .. 250 ms", "§80 .. 250 ms", "error: has no unit"),
                slip("80 ms .. 250 ms", "80 ms ..§", "error: is no time"),
                slip("end: 4 s after sees it", "end: §4 s", "error: does not say after what | 2 s after begin"),
                slip(
                        "end: 4 s after sees it",
                        "end: 4 s after §see it",
                        "error: nothing here is named \"see it\" | did you mean \"sees it\"?"),
                slip(
                        "end: 4 s after sees it",
                        "end: §2 s after sees it",
                        "warning: ends before the deadline of \"tries again\" in line 26 | end later"));
    }

    static List<Variant> conditions() {
        return List.of(
                slip("above 7 V", "§over 7 V", "error: is no comparison | write \"above 7 V\""),
                slip("above 7 V", "§more than 7 V", "error: is no comparison | write \"above 7 V\""),
                slip("above 7 V", "§At Least 7 V", "error: is no comparison | write \"at least 7 V\""),
                slip("above 7 V", "at most §20.1 V", "warning: always holds | from 0.00 V to 20.00 V"),
                slip("above 7 V", "above §20 V", "warning: can never hold | from 0.00 V to 20.00 V"),
                slip("above 7 V", "is §7.005 V", "error: between two values | 7.00 V and 7.01 V"),
                slip(
                        "{ step: GIVEN_UP }",
                        "{ step: above §GIVEN_UP }",
                        "error: have names, and no order | \"is GIVEN_UP\""),
                slip(
                        "{ step: GIVEN_UP }",
                        "{ §failsafe: FS-01 }",
                        "error: \"failsafe\" cannot stand in \"never\" | must-not-fire: FS-nn"),
                slip(
                        "always: { battery.voltage: above 7 V }",
                        "always: { §failsafe: FS-01 }",
                        "error: cannot stand in \"always\" | answered-by: FS-nn"),
                slip(
                        "becomes: { step: DRAWING_BACK }",
                        "becomes: { §failsafe: FS-01 }",
                        "error: cannot stand in \"becomes\" | answered-by: FS-nn"),
                slip(
                        "until: { failsafe: FS-02 }",
                        "while: { §failsafe: FS-02 }",
                        "error: cannot stand in \"while\" | take \"until\""));
    }

    static List<Variant> expectations() {
        return List.of(
                slip(
                        "    after: sees it\n",
                        "    after: §see it\n",
                        "error: nothing here is named \"see it\" | did you mean \"sees it\"?"),
                slip(
                        "    after: sees it\n",
                        "    after: §tries again\n",
                        "error: counted from each other in a circle | from an injection or from begin"),
                slip(
                        "  - name: tries again\n",
                        "  - name: §sees it\n",
                        "error: is taken in line 22 | take another one"),
                slip(
                        "  - name: tries again\n",
                        "  - name: §blocked\n",
                        "error: is taken in line 13 | take another one"),
                slip(
                        "  - never: { step: GIVEN_UP }\n",
                        "  - never: { step: GIVEN_UP }\n    name: §begin\n",
                        "error: the name \"begin\" is taken | another"),
                slip(
                        "    after: sees it\n  - always: {",
                        "    after: §calm\n  - name: calm\n    always: {",
                        "error: \"calm\" has no moment from which to count | sees it"),
                slip(
                        "  - never: { step: GIVEN_UP }\n",
                        "  - §stays: { step: EASING }\n",
                        "error: lacks \"for\" | for: 500 ms"),
                slip(
                        "    answered-by: FS-02\n",
                        "    §answered: FS-02\n",
                        "error: there is no expectation \"answered\" | did you mean \"answered-by\"?"),
                slip(
                        "  - name: sees it\n    answered-by: FS-02\n",
                        "  - §name: sees it\n    answered-by: FS-02\n    never: { step: EASING }\n",
                        "error: one expectation holds answered-by and never | of its own"),
                slip("no-other: true", "no-other: §yes", "error: neither true nor false | YAML 1.2"),
                slip(
                        "  - name: tries again\n    becomes: { step: DRAWING_BACK }\n    within: 3 s\n",
                        "  - §name: tries again\n    becomes: { step: DRAWING_BACK }\n",
                        "error: lacks \"within\" | within: 250 ms"),
                slip(
                        "  - never: { step: GIVEN_UP }\n",
                        "  - never: { step: GIVEN_UP }\n    §no-other: true\n",
                        "error: no key \"no-other\""),
                slip(
                        "failsafe: FS-02\nwhy",
                        "§failsafe: FS-01\nwhy",
                        "warning: evidence for FS-01, and expects nothing of it | answered-by: FS-01"));
    }
}
