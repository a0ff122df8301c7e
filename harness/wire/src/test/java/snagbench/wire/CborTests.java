package snagbench.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;
import tools.jackson.dataformat.cbor.CBORMapper;

/** Vectors: RFC 8949 (2020), appendix A. */
class CborTests {
    private static final int HEAD_OF_LONG = 9;

    @ParameterizedTest
    @CsvSource({
        "0, 00",
        "1, 01",
        "10, 0a",
        "23, 17",
        "24, 18 18",
        "25, 18 19",
        "100, 18 64",
        "1000, 19 03 e8",
        "1000000, 1a 00 0f 42 40",
        "1000000000000, 1b 00 00 00 e8 d4 a5 10 00",
        "-1, 20",
        "-10, 29",
        "-100, 38 63",
        "-1000, 39 03 e7"
    })
    void writesAndReadsTheIntegersOfAppendixA(long value, String hex) {
        assertEquals(Hex.text(Hex.bytes(hex)), Hex.text(written(out -> out.integer(value))));
        CborReader in = reader(hex);
        assertEquals(value, in.integer());
        assertTrue(in.complete());
    }

    /** Heads change their length at these; the forms follow from RFC 8949, section 3. */
    @ParameterizedTest
    @CsvSource({
        "255, 18 ff",
        "256, 19 01 00",
        "65535, 19 ff ff",
        "65536, 1a 00 01 00 00",
        "2147483647, 1a 7f ff ff ff",
        "4294967295, 1a ff ff ff ff",
        "4294967296, 1b 00 00 00 01 00 00 00 00",
        "9223372036854775807, 1b 7f ff ff ff ff ff ff ff",
        "-24, 37",
        "-25, 38 18",
        "-256, 38 ff",
        "-257, 39 01 00",
        "-65536, 39 ff ff",
        "-65537, 3a 00 01 00 00",
        "-2147483648, 3a 7f ff ff ff",
        "-9223372036854775808, 3b 7f ff ff ff ff ff ff ff"
    })
    void writesAndReadsTheEdgesOfHeads(long value, String hex) {
        assertEquals(Hex.text(Hex.bytes(hex)), Hex.text(written(out -> out.integer(value))));
        CborReader in = reader(hex);
        assertEquals(value, in.integer());
        assertTrue(in.complete());
    }

    @ParameterizedTest
    @CsvSource({
        "'', 60",
        "a, 61 61",
        "IETF, 64 49 45 54 46",
        "'\"\\', 62 22 5c",
        "\u00fc, 62 c3 bc",
        "\u6c34, 63 e6 b0 b4"
    })
    void writesAndReadsTheTextsOfAppendixA(String text, String hex) {
        assertEquals(Hex.text(Hex.bytes(hex)), Hex.text(written(out -> out.text(text))));
        CborReader in = reader(hex);
        assertEquals(text, in.text());
        assertTrue(in.complete());
    }

    @Test
    void writesAndReadsTheTextBeyondTheBasicPlane() {
        String text = new String(Character.toChars(0x10151));
        assertEquals("64 F0 90 85 91", Hex.text(written(out -> out.text(text))));
        assertEquals(text, reader("64 f0 90 85 91").text());
    }

    @Test
    void writesAndReadsTheFlatArraysOfAppendixA() {
        check("80");
        check("83 01 02 03", 1, 2, 3);
        long[] upTo25 = new long[25];
        Arrays.setAll(upTo25, i -> i + 1);
        check("98 19 01..17 18 18 18 19", upTo25);
    }

    private static void check(String hex, long... values) {
        byte[] bytes = written(out -> {
            out.array(values.length);
            for (long value : values) {
                out.integer(value);
            }
        });
        assertEquals(Hex.text(Hex.bytes(hex)), Hex.text(bytes));
        CborReader in = reader(hex);
        assertEquals(values.length, in.array());
        for (long value : values) {
            assertEquals(value, in.integer());
        }
        assertTrue(in.complete());
    }

    /** Kinds of RFC 8949 that a flat array of integers and texts has no use for, from its appendix A. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "f4",
                "f5",
                "f6",
                "f7",
                "f0",
                "f8 ff", // simple values
                "f9 00 00",
                "f9 3c 00",
                "fa 47 c3 50 00",
                "fb 3f f1 99 99 99 99 99 9a",
                "f9 7e 00", // floats
                "40",
                "44 01 02 03 04", // byte strings
                "a0",
                "a2 01 02 03 04", // maps
                "80",
                "82 02 03", // arrays within
                "c0 74 32 30 31 33 2d 30 33 2d 32 31 54 32 30 3a 30 34 3a 30 30 5a",
                "c1 1a 51 4b 67 b0", // tags
                "7f 65 73 74 72 65 61 64 6d 69 6e 67 ff",
                "9f ff",
                "bf ff",
                "5f 41 00 ff",
                "ff", // indefinite
                "1c",
                "1d",
                "1e",
                "1f",
                "3c",
                "7c",
                "7e" // reserved, section 3
            })
    void refusesOtherKindsAsItems(String hex) {
        CborReader asInteger = array(hex);
        assertEquals(0, asInteger.integer());
        assertTrue(asInteger.failed());
        CborReader asText = array(hex);
        assertEquals("", asText.text());
        assertTrue(asText.failed());
    }

    @ParameterizedTest
    @ValueSource(strings = {"9f ff", "9f 01 ff", "a1 01 02", "00", "61 61", "f6", "9c", "", "99 00 03 01 02 03"})
    void refusesWhatIsNoArrayOfDefiniteLength(String hex) {
        CborReader in = hex.isEmpty() ? reader(new byte[0]) : reader(hex);
        assertEquals(0, in.array());
        assertTrue(in.failed());
    }

    /** RFC 8949, section 4.2.1: shortest heads. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "18 00",
                "18 17",
                "19 00 18",
                "19 00 ff",
                "1a 00 00 00 01",
                "1a 00 00 ff ff",
                "1b 00 00 00 00 00 00 00 01",
                "1b 00 00 00 00 ff ff ff ff",
                "38 17",
                "39 00 ff",
                "3a 00 00 ff ff",
                "3b 00 00 00 00 ff ff ff ff"
            })
    void refusesIntegersThatAreNotInTheirShortestForm(String hex) {
        CborReader in = reader(hex);
        assertEquals(0, in.integer());
        assertTrue(in.failed());
    }

    @ParameterizedTest
    @ValueSource(strings = {"78 01 61", "79 00 01 61", "7a 00 00 00 01 61"})
    void refusesTextsWhoseLengthIsNotInItsShortestForm(String hex) {
        CborReader in = reader(hex);
        assertEquals("", in.text());
        assertTrue(in.failed());
    }

    /** Beyond 63 bits: the greatest and least integers of appendix A, which no field needs. */
    @ParameterizedTest
    @ValueSource(strings = {"1b ff ff ff ff ff ff ff ff", "3b ff ff ff ff ff ff ff ff", "1b 80 00 00 00 00 00 00 00"})
    void refusesIntegersThatALongCannotHold(String hex) {
        CborReader in = reader(hex);
        assertEquals(0, in.integer());
        assertTrue(in.failed());
    }

    /** Malformed UTF-8 (RFC 3629): a lone continuation, a cut sequence, an overlong form, a surrogate. */
    @ParameterizedTest
    @ValueSource(strings = {"61 80", "61 c3", "62 c0 80", "63 ed a0 80", "61 ff"})
    void refusesTextsThatAreNotUtf8(String hex) {
        CborReader in = reader(hex);
        assertEquals("", in.text());
        assertTrue(in.failed());
    }

    @ParameterizedTest
    @CsvSource({"1a 7f ff ff ff, 2147483647", "3a 7f ff ff ff, -2147483648"})
    void int32TakesWhatFits(String hex, int value) {
        CborReader in = reader(hex);
        assertEquals(value, in.int32());
        assertFalse(in.failed());
    }

    @ParameterizedTest
    @ValueSource(strings = {"1a 80 00 00 00", "3a 80 00 00 00", "1b 00 00 00 01 00 00 00 00"})
    void int32RefusesWhatDoesNotFit(String hex) {
        CborReader in = reader(hex);
        assertEquals(0, in.int32());
        assertTrue(in.failed());
    }

    @ParameterizedTest
    @ValueSource(strings = {"20", "1b 00 00 00 01 00 00 00 00"})
    void uint32RefusesWhatDoesNotFit(String hex) {
        CborReader in = reader(hex);
        assertEquals(0, in.uint32());
        assertTrue(in.failed());
    }

    @Test
    void uint32GivesTheBitsOfTheGreatest() {
        CborReader in = reader("1a ff ff ff ff");
        assertEquals(-1, in.uint32());
        assertTrue(in.complete());
    }

    @Test
    void refusesAnArrayThatTellsMoreItemsThanThereAreBytes() {
        CborReader in = reader("83 01 02");
        assertEquals(0, in.array());
        assertTrue(in.failed());
        CborReader huge = reader("9a ff ff ff ff 00");
        assertEquals(0, huge.array());
        assertTrue(huge.failed());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "18",
                "19 01",
                "1a 00 01 00",
                "1b 00 00 00 01 00 00 00",
                "62 61",
                "78 18 61",
                "7b 7f ff ff ff ff ff ff ff"
            })
    void refusesItemsThatAreCutShort(String hex) {
        CborReader asInteger = reader(hex);
        asInteger.integer();
        assertTrue(asInteger.failed());
        CborReader asText = reader(hex);
        assertEquals("", asText.text());
        assertTrue(asText.failed());
    }

    @Test
    void readsNothingMoreOnceItFailed() {
        CborReader in = reader("84 f6 05 18 64 61 61");
        assertEquals(4, in.array());
        assertEquals(0, in.integer());
        assertEquals(0, in.integer());
        assertEquals(0, in.int32());
        assertEquals(0, in.uint32());
        assertEquals("", in.text());
        assertEquals(0, in.array());
        assertTrue(in.failed());
        assertFalse(in.complete());
        in.reset(Hex.bytes("05"), 0, 1);
        assertFalse(in.failed());
        assertEquals(5, in.integer());
    }

    @Test
    void isNotCompleteBeforeTheEndNorPastIt() {
        CborReader in = reader("82 01 02");
        in.array();
        in.integer();
        assertFalse(in.complete());
        in.integer();
        assertTrue(in.complete());
        in.integer();
        assertFalse(in.complete());
    }

    @Test
    void readsNothingBeforeTheFirstReset() {
        CborReader in = new CborReader();
        assertEquals(0, in.integer());
        assertTrue(in.failed());
    }

    @Test
    void latchesWhatDoesNotFitAtEveryCapacity() {
        for (long value :
                new long[] {0, 23, 24, 255, 256, 65535, 65536, 4294967295L, 4294967296L, -25, Long.MIN_VALUE}) {
            int needed = written(out -> out.integer(value)).length;
            for (int capacity = 1; capacity <= HEAD_OF_LONG; capacity++) {
                CborWriter out = new CborWriter(capacity);
                out.integer(value);
                assertEquals(capacity < needed, out.overflowed(), value + " in " + capacity);
                assertEquals(capacity < needed ? 0 : needed, out.length());
            }
        }
        CborWriter out = new CborWriter(3);
        out.text("abc");
        assertTrue(out.overflowed());
        out.integer(1);
        assertTrue(out.overflowed());
        out.clear();
        out.text("ab");
        assertFalse(out.overflowed());
        assertEquals(3, out.length());
    }

    @Test
    void agreesWithJacksonOnRandomArrays() {
        ObjectMapper jackson = new CBORMapper();
        long seed = 8949;
        SplittableRandom random = new SplittableRandom(seed);
        for (int round = 0; round < 5_000; round++) {
            List<Object> items = new ArrayList<>();
            int count = random.nextInt(40);
            for (int i = 0; i < count; i++) {
                items.add(random.nextInt(5) == 0 ? text(random) : integer(random));
            }
            byte[] ours = written(out -> write(out, items));
            String where = "seed " + seed + ", round " + round + ": " + items;
            assertEquals(items, itemsOf(jackson.readTree(ours)), where);
            byte[] theirs = jackson.writeValueAsBytes(items);
            assertEquals(Hex.text(theirs), Hex.text(ours), where);
            assertEquals(items, read(theirs, items), where);
        }
    }

    private static void write(CborWriter out, List<Object> items) {
        out.array(items.size());
        for (Object item : items) {
            if (item instanceof String text) {
                out.text(text);
            } else {
                out.integer((Long) item);
            }
        }
    }

    private static List<Object> read(byte[] bytes, List<Object> kinds) {
        CborReader in = reader(bytes);
        List<Object> items = new ArrayList<>();
        int count = in.array();
        for (int i = 0; i < count; i++) {
            if (kinds.get(i) instanceof String) {
                items.add(in.text());
            } else {
                items.add(in.integer());
            }
        }
        assertTrue(in.complete());
        return items;
    }

    private static List<Object> itemsOf(JsonNode array) {
        assertTrue(array.isArray());
        List<Object> items = new ArrayList<>();
        for (JsonNode item : array) {
            items.add(item.isString() ? item.stringValue() : (Object) item.longValue());
        }
        return items;
    }

    private static long integer(SplittableRandom random) {
        return random.nextLong() >> random.nextInt(64);
    }

    private static String text(SplittableRandom random) {
        StringBuilder text = new StringBuilder();
        int length = random.nextInt(30);
        for (int i = 0; i < length; i++) {
            int point = random.nextInt(1, 0x10000 >> random.nextInt(10));
            text.appendCodePoint(Character.isSurrogate((char) point) ? 0x1F331 : point);
        }
        return text.toString();
    }

    private interface Writes {
        void to(CborWriter out);
    }

    private static byte[] written(Writes writes) {
        CborWriter out = new CborWriter(4096);
        writes.to(out);
        assertFalse(out.overflowed());
        return Arrays.copyOf(out.buffer(), out.length());
    }

    /** An array of one item. */
    private static CborReader array(String item) {
        CborReader in = reader("81 " + item);
        assertEquals(1, in.array());
        return in;
    }

    private static CborReader reader(String hex) {
        return reader(Hex.bytes(hex));
    }

    private static CborReader reader(byte[] bytes) {
        CborReader in = new CborReader();
        in.reset(bytes, 0, bytes.length);
        return in;
    }
}
