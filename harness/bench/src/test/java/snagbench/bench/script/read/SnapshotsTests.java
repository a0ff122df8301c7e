package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.script.read.Variant.slip;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Checked;
import snagbench.bench.script.DescriptionItems;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.ProbeCapacity;
import snagbench.bench.script.RigDescription;
import snagbench.wire.ChannelKind;

/** A rig's stored description: what is written is read back, and what is damaged is told. */
class SnapshotsTests {
    @TempDir
    Path folder = Path.of("");

    @Test
    void whatIsStoredIsReadBack() throws IOException {
        Path file = folder.resolve("rig.snapshot.json");

        for (RigDescription made : List.of(ShuttleDescription.virtual(), ShuttleDescription.real())) {
            RigDescription rig = digested(made);
            Snapshots.write(file, rig);

            assertEquals(new Checked<>(Optional.of(rig), List.of()), Snapshots.read(file));
        }
        assertFalse(Files.exists(folder.resolve("rig.snapshot.json.new")), "nothing is left beside it");
    }

    @Test
    void anyDescriptionIsReadBack() throws IOException {
        Path file = folder.resolve("rig.snapshot.json");
        for (long seed = 1; seed <= 50; seed++) {
            RigDescription rig = digested(anyRig(new SplittableRandom(seed)));

            Snapshots.write(file, rig);

            assertEquals(new Checked<>(Optional.of(rig), List.of()), Snapshots.read(file), "seed " + seed);
        }
    }

    /** With the digest that a rig of that description tells. */
    private static RigDescription digested(RigDescription rig) {
        return new RigDescription(DescriptionItems.digestOf(rig), rig.channels(), rig.failSafes(), rig.limits());
    }

    @Test
    void oneThatWasChangedByHandIsNotBelieved() throws IOException {
        Path file = folder.resolve("rig.snapshot.json");
        Snapshots.write(file, digested(small()));
        String good = Files.readString(file, StandardCharsets.UTF_8);
        assertTrue(Snapshots.read(file).problems().isEmpty());
        Matcher name = Pattern.compile("\"name\" : \"([^\"]+)\"").matcher(good);
        assertTrue(name.find());

        Files.writeString(file, good.replace("\"" + name.group(1) + "\"", "\"another\""));

        Checked<RigDescription> read = Snapshots.read(file);
        assertTrue(read.value().isEmpty());
        assertEquals(1, read.problems().size());
        assertEquals(2, read.problems().get(0).place().line());
        assertTrue(
                read.problems().get(0).message().startsWith("the channels and fail-safes were changed by hand: "),
                read.problems().toString());
    }

    @Test
    void theDigestOfAStoredDescriptionIsTheOneThatTheRigTold() {
        Path stored = GoodFiles.committed("fixtures", RigFiles.SNAPSHOT_NAME).get(0);
        RigDescription rig = Snapshots.read(stored).value().orElseThrow();

        assertEquals(rig.digest(), DescriptionItems.digestOf(rig));
    }

    @Test
    void theSameRigIsStoredAsTheSameBytes() throws IOException {
        Path stored = GoodFiles.committed("fixtures", RigFiles.SNAPSHOT_NAME).get(0);
        Path again = folder.resolve("again.json");

        Snapshots.write(again, Snapshots.read(stored).value().orElseThrow());

        assertArrayEquals(Files.readAllBytes(stored), Files.readAllBytes(again));
    }

    @ParameterizedTest
    @MethodSource("damages")
    void damageIsToldWithItsPlace(Variant variant) throws IOException {
        Path file = folder.resolve("rig.snapshot.json");
        Snapshots.write(file, small());
        variant.check(Files.readString(file, StandardCharsets.UTF_8), file, Snapshots::read);
    }

    static List<Variant> damages() {
        return List.of(
                slip("\"real\" : false", "\"real\" : §0", "error: \"0\" is neither true nor false"),
                slip("\"real\" : false", "\"real\" : §falsch", "error: is neither true nor false"),
                slip("{\n    \"real\" : false,", "§{", "error: \"limits\" lacks \"real\""),
                slip("\"0x1234abcd\"", "\"§0x1234abc\"", "error: no digest | identify --save"),
                slip("\"slots\" : 32", "\"slots\" : §33", "error: is not a number from 0 to 32"),
                slip("\"frame\" : 256", "\"frame\" : §12", "error: is not a number from 64 to 65535"),
                slip(
                        "\"name\" : \"b\"",
                        "§\"name\" : \"a\"",
                        "error: the name \"a\" is taken in line 15 | identify --save"),
                slip("\"kind\" : \"sensor\"", "§\"kind\" : \"senser\"", "error: no such kind of channel"),
                slip("\"lowest\" : -5", "§\"lowest\" : 6", "error: above the highest"),
                slip("\"name\" : \"FS-02\"", "§\"name\" : \"FS-01\"", "error: the name \"FS-01\" is taken"),
                slip("\"number\" : 2", "§\"number\" : 1", "error: two fail-safes have the number 1"),
                slip("\"inhibition\" : 1", "\"inhibition\" : §2", "error: is not a number from -1 to 1"),
                slip(
                        "\"valueNames\" : [ \"low\", \"high\" ]",
                        "\"valueNames\" : §1",
                        "error: \"valueNames\" is no list"),
                slip(
                        "\"failSafes\" : [",
                        "§\"failSafe\" : [",
                        "error: no key \"failSafe\" | did you mean \"failSafes\"?"));
    }

    @Test
    void aStoredDescriptionThatIsCutOffIsRefusedWhereverItIsCut() throws IOException {
        Path file = folder.resolve("rig.snapshot.json");
        Snapshots.write(file, digested(small()));
        byte[] whole = Files.readAllBytes(file);
        // The last two bytes are the closing brace and the line's end.
        for (int length = 0; length < whole.length - 1; length++) {
            Files.write(file, java.util.Arrays.copyOf(whole, length));

            Checked<RigDescription> checked = Snapshots.read(file);

            assertEquals(Optional.empty(), checked.value(), "cut after " + length + " bytes");
        }
    }

    private static RigDescription small() {
        return new RigDescription(
                0x1234ABCD,
                List.of(
                        new ChannelDescription(0, "a", ChannelKind.SENSOR, "mm", 1, -1, -5, 5, 0, 0, List.of()),
                        new ChannelDescription(
                                1, "b", ChannelKind.STATE, "", 1, 0, 0, 1, 0, 0, List.of("low", "high"))),
                List.of(
                        new FailSafeDescription(1, "FS-01", OptionalInt.empty()),
                        new FailSafeDescription(2, "FS-02", OptionalInt.of(1))),
                ShuttleDescription.ROOMY);
    }

    private static RigDescription anyRig(SplittableRandom random) {
        List<ChannelKind> kinds = List.of(ChannelKind.values());
        List<ChannelDescription> channels = new ArrayList<>();
        int count = random.nextInt(40);
        for (int index = 0; index < count; index++) {
            int one = random.nextInt();
            int other = random.nextInt();
            List<String> names = new ArrayList<>();
            for (int i = random.nextInt(4); i > 0; i--) {
                names.add(anyText(random) + i);
            }
            channels.add(new ChannelDescription(
                    index,
                    anyText(random) + index,
                    kinds.get(random.nextInt(kinds.size())),
                    anyText(random),
                    random.nextInt(1, 1001),
                    random.nextInt(-9, 10),
                    Math.min(one, other),
                    Math.max(one, other),
                    random.nextInt(),
                    random.nextInt() & Integer.MAX_VALUE,
                    names));
        }
        List<FailSafeDescription> failSafes = new ArrayList<>();
        for (int number = random.nextInt(6); number > 0; number--) {
            OptionalInt inhibition =
                    count == 0 || random.nextBoolean() ? OptionalInt.empty() : OptionalInt.of(random.nextInt(count));
            failSafes.add(new FailSafeDescription(number, anyText(random) + number, inhibition));
        }
        ProbeCapacity limits = new ProbeCapacity(
                random.nextBoolean(),
                random.nextInt() & Integer.MAX_VALUE,
                random.nextInt(33),
                random.nextInt(65536),
                random.nextInt(65536),
                random.nextInt(256),
                random.nextInt(64, 65536),
                random.nextInt(),
                random.nextInt(65537));
        return new RigDescription(random.nextInt(), channels, failSafes, limits);
    }

    /** Texts that JSON or YAML might mistake for something else. */
    private static String anyText(SplittableRandom random) {
        List<String> texts = List.of(
                "reach",
                "no",
                "~",
                "010",
                "- x",
                "a: b",
                "\"quoted\"",
                "it's",
                "#",
                "µm/s²",
                "°C",
                "\\n",
                "{}",
                "*a",
                "温度",
                "🌱");
        return texts.get(random.nextInt(texts.size()));
    }
}
