package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.script.read.Variant.slip;

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
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Place;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.wire.GuardKind;

/** A good rig's file, and the same with one slip: what is told, where, and what would do. */
class BrokenRigFileTests {
    private static final RigDescription RIG = ShuttleDescription.virtual();

    @TempDir
    Path parent = Path.of("");

    private Path file() throws IOException {
        return Files.createDirectories(parent.resolve("shuttle")).resolve("rig.yaml");
    }

    @ParameterizedTest
    @MethodSource({"slips", "guards"})
    void tellsWhereWhatAndWhatWouldDo(Variant variant) throws IOException {
        variant.check(GoodFiles.RIG, file(), file -> RigFiles.readRig(file, Optional.of(RIG)));
    }

    static List<Variant> slips() {
        return List.of(
                slip(
                        "rig: shuttle",
                        "rig: §shuttel",
                        "warning: \"shuttel\" lies in the folder \"shuttle\" | same name"),
                slip("rig: shuttle", "rig: §a/b", "error: is no rig's name | its folder"),
                slip("virtual:", "§virtal:", "error: no key \"virtal\" | did you mean \"virtual\"?"),
                slip("virtual: seedling-shuttle", "port: /dev/ttyACM0"),
                slip("virtual: seedling-shuttle", "port: /dev/ttyACM0\nbaud: 500000"),
                slip("virtual: seedling-shuttle", "virtual: seedling-shuttle\nbaud: 500000"),
                slip(
                        "rig: shuttle\nvirtual: seedling-shuttle",
                        "§rig: shuttle",
                        "error: lacks \"virtual\" or \"port\" | for one on a cable"),
                slip(
                        "virtual: seedling-shuttle",
                        "virtual: seedling-shuttle\n§port: /dev/ttyACM0",
                        "error: is a virtual one, and has a port | take one of both out"),
                slip(
                        "virtual: seedling-shuttle",
                        "port: §ttyACM0",
                        "error: \"ttyACM0\" is not the whole path | \"ports\" lists them"),
                slip(
                        "virtual: seedling-shuttle",
                        "port: /dev/ttyACM0\nbaud: §0",
                        "error: not a number of bits a second from 1 to 10000000"),
                slip("virtual: seedling-shuttle", "§prot: /dev/ttyACM0", "error: no key \"prot\" | \"port\"?"),
                slip("lease: 500 ms", "lease: 100 ms"),
                slip("lease: 500 ms", "lease: 10 s"),
                slip("lease: 500 ms", "lease: §99 ms", "error: a lease of 99.0 ms | from 100 ms to 10 s"),
                slip("lease: 500 ms", "lease: §10001 ms", "error: a lease of 10001.0 ms | from 100 ms to 10 s"),
                slip("lease: 500 ms", "lease: §500500 us", "error: a lease of 500.5 ms | whole milliseconds"),
                slip("settling-time: 400 ms", "settling-time: §0 s", "error: leaves no time at all"),
                slip("send: ready", "send: §redy", "error: no command \"redy\" | did you mean \"ready\"?"),
                slip("{ step: READY }", "{ step: §REDY }", "error: no step \"REDY\" | did you mean \"READY\"?"),
                slip(
                        "ready: { send: ready, wait-for: { step: READY }, within: 10 s }",
                        "ready: §{ send: ready, wait-for: { step: READY } }",
                        "error: lacks \"within\""),
                slip(
                        "  reach.position: { wired",
                        "  §reach.postion: { wired",
                        "error: no channel | \"reach.position\"?"),
                slip("{ wired: \"J3, encoder\" }", "§J3", "error: \"J3\" stands where what is known of | { wired"),
                slip("wired:", "§wire:", "error: no key \"wire\" | did you mean \"wired\"?"));
    }

    static List<Variant> guards() {
        return List.of(
                slip("-4 mm .. 405 mm", "§405 mm .. -4 mm", "error: is empty | lower end first"),
                slip("-4 mm .. 405 mm", "§405 mm", "error: is no range | both ends"),
                slip("-4 mm .. 405 mm", "§-20 mm .. 450 mm", "warning: can never trip | from -20.0 mm to 450.0 mm"),
                slip("-4 mm .. 405 mm", "-4 mm .. §405 V", "error: \"V\" does not fit reach.position"),
                slip("-4 mm .. 405 mm", "§-4.05 mm .. 405 mm", "error: between two values | -4.1 mm and -4.0 mm"),
                slip("travel: {", "§speed: {", "error: not in this version | travel, stall"),
                slip("travel: {", "§travle: {", "error: no key \"travle\" | did you mean \"travel\"?"),
                slip(
                        "travel: { reach",
                        "travel: { §step: 1 .. 2 }\n  - name: x\n    travel: { reach",
                        "error: a sensor"),
                slip(
                        "name: reach stall",
                        "name: §reach travel",
                        "error: is taken in line 7 | a verdict names the guard"),
                slip(
                        "{ reach.position: 1 mm, command",
                        "{ §reach.postion: 1 mm, command",
                        "error: no sensor | \"reach.position\"?"),
                slip("{ reach.position: 1 mm, command", "§{ command", "error: watches one channel, and here are 0"),
                slip("reach.position: 1 mm", "reach.position: §-1 mm", "error: a size below 0 | without the sign"),
                slip("command: reach.command,", "command: §reach.current,", "error: is a sensor, where an actuator"),
                slip("at-least: 50 %", "at-least: §50 mm", "error: \"mm\" does not fit reach.command"),
                slip("for: 2 s", "for: §2", "error: has no unit"),
                slip("for: 2 s", "for: 2 s, over-ticks: §65", "error: not a number of ticks from 1 to 64"),
                slip("for: 2 s", "for: 2 s, over-ticks: 64"));
    }

    @Test
    void aRigsFileBecomesItsModelInStepsOfTheChannels() throws IOException {
        Path file = Files.writeString(file(), GoodFiles.RIG);
        ChannelDescription position = RIG.channel("reach.position").orElseThrow();

        Checked<RigFile> checked = RigFiles.readRig(file, Optional.of(RIG));

        assertEquals(List.of(), checked.problems());
        RigFile rig = checked.value().orElseThrow();
        assertEquals("shuttle", rig.name());
        assertEquals(Optional.of("seedling-shuttle"), rig.virtual());
        assertEquals(500, rig.leaseMillis());
        assertEquals(400_000, rig.settlingMicros());
        assertEquals("ready", rig.ready().orElseThrow().command().name());
        assertEquals(10_000_000, rig.ready().orElseThrow().withinMicros());
        RigFile.GuardSpec travel = new RigFile.GuardSpec(
                new Place(file, 7, 5), "reach travel", GuardKind.TRAVEL, position, -40, 4050, 0, 0, Optional.empty());
        // 50 % of the drive, less than 1 mm over 8 ticks, for 2 s.
        RigFile.GuardSpec stall = new RigFile.GuardSpec(
                new Place(file, 9, 5),
                "reach stall",
                GuardKind.STALL,
                position,
                500,
                10,
                8,
                2_000_000,
                RIG.channel("reach.command"));
        assertEquals(List.of(travel, stall), rig.guards());
        assertEquals("J3, encoder", rig.wiring().get("reach.position"));
        assertEquals(file.resolveSibling("rig.snapshot.json"), rig.snapshot());
    }

    @ParameterizedTest
    @CsvSource({"2, 0", "1, 1"})
    void moreGuardsThanTheProbeHoldsAreRefused(int room, int errors) throws IOException {
        Path file = Files.writeString(file(), GoodFiles.RIG);

        Checked<RigFile> checked =
                RigFiles.readRig(file, Optional.of(ShuttleDescription.with(ShuttleDescription.roomFor(32, 128, room))));

        assertEquals(errors, checked.problems().size());
        if (errors > 0) {
            assertEquals(9, checked.problems().get(0).place().line());
        }
    }

    @Test
    void aRigWithoutItsStoredDescriptionIsToldHowToGetIt() throws IOException {
        Path file = Files.writeString(file(), GoodFiles.RIG);

        Checked<RigFile> checked = RigFiles.readRig(file, Optional.empty());

        assertEquals(1, checked.problems().size());
        assertTrue(checked.problems().get(0).cure().contains("identify --save"));
    }

    @Test
    void problemsOfTheStoredDescriptionAreToldInItsOwnFile() throws IOException {
        Path file = Files.writeString(file(), GoodFiles.RIG);
        Path snapshot = Files.writeString(RigFiles.snapshotOf(file), "{");

        Checked<RigFile> checked = RigFiles.readRig(file, Optional.empty());

        assertEquals(snapshot, checked.problems().get(0).place().file());
        assertTrue(checked.value().isEmpty());
    }

    @ParameterizedTest
    @CsvSource({"port: /dev/ttyACM0, /dev/ttyACM0, 115200", "'port: /dev/rig\nbaud: 9600', /dev/rig, 9600"})
    void theLineIsReadWithAndWithoutADescription(String keys, String port, int baud) throws IOException {
        Path file = Files.writeString(file(), GoodFiles.RIG.replace("virtual: seedling-shuttle", keys));
        RigFile.SerialLine line = new RigFile.SerialLine(Optional.of(port), baud);

        assertEquals(Optional.of(line), RigFiles.lineOf(file).value());
        RigFile rig = RigFiles.readRig(file, Optional.of(RIG)).value().orElseThrow();
        assertEquals(line, rig.line());
        assertEquals(Optional.empty(), rig.virtual());
    }

    @Test
    void theVirtualRigsNameIsReadWithoutAnyDescription() throws IOException {
        Path file = Files.writeString(file(), GoodFiles.RIG);

        assertEquals(
                Optional.of(Optional.of("seedling-shuttle")),
                RigFiles.providerOf(file).value());
    }
}
