package snagbench.wire;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Vectors: the test file of Python's package cobs (src/cobs/cobs/test.py), checked with two encoders that share no code
 * with this one. Paper: Cheshire and Baker, IEEE/ACM Transactions on Networking 7(2), 1999.
 */
class CobsTests {
    @ParameterizedTest
    @CsvSource({
        "00, 01 01",
        "00 00, 01 01 01",
        "00 00 00, 01 01 01 01",
        "00 11 00, 01 02 11 01",
        "11 22 00 33, 03 11 22 02 33",
        "11 22 33 44, 05 11 22 33 44",
        "11 00 00 00, 02 11 01 01 01",
        "31..35 00 36..39, 06 31..35 05 36..39",
        "00 31..35 00 36..39, 01 06 31..35 05 36..39",
        "31..35 00 36..39 00, 06 31..35 05 36..39 01",
        "01..FD, FE 01..FD",
        "01..FE, FF 01..FE",
        "00 01..FE, 01 FF 01..FE",
        "01..FF, FF 01..FE 02 FF",
        "00..FF, 01 FF 01..FE 02 FF",
        "02..FF 00, FF 02..FF 01 01",
        "03..FF 00 01, FE 03..FF 02 01",
        "01..FE 00, FF 01..FE 01 01",
        "01..FE 01..FE, FF 01..FE FF 01..FE",
        // The paper's own example, from memory: the head of an IP packet.
        "45 00 00 2C 4C 79 00 00 40 06 4F 37, 02 45 01 04 2C 4C 79 01 05 40 06 4F 37"
    })
    void encodesAndDecodesThePublishedVectors(String data, String encoded) {
        assertEquals(Hex.text(Hex.bytes(encoded)), Hex.text(encode(Hex.bytes(data))));
        assertEquals(Hex.text(Hex.bytes(data)), Hex.text(decode(Hex.bytes(encoded))));
    }

    @Test
    void encodesNothingAsOneByte() {
        assertArrayEquals(new byte[] {1}, encode(new byte[0]));
        assertArrayEquals(new byte[0], decode(new byte[] {1}));
    }

    /** The paper closes a full last run with a code byte of 1; the shorter form leaves it out. */
    @ParameterizedTest
    @CsvSource({"01..FE, FF 01..FE 01", "00 01..FE, 01 FF 01..FE 01", "01..FE 01..FE, FF 01..FE FF 01..FE 01"})
    void decodesThePapersLongerFormToo(String data, String encoded) {
        assertEquals(Hex.text(Hex.bytes(data)), Hex.text(decode(Hex.bytes(encoded))));
        assertEquals(Hex.bytes(encoded).length - 1, encode(Hex.bytes(data)).length);
    }

    /** On a line a zero is the delimiter: the vectors that must be refused are runs that it cuts short. */
    @ParameterizedTest
    @ValueSource(strings = {"05 31 32 33", "05 31 32 00 34"})
    void refusesRunsThatTheDelimiterCutsShort(String encoded) {
        CobsDecoder decoder = new CobsDecoder(10);
        for (byte one : Hex.bytes(encoded)) {
            if (one == 0) {
                break;
            }
            decoder.accept(one);
        }
        assertFalse(decoder.whole());
    }

    @Test
    void takesADelimiterForTheEndAndNotForACode() {
        // 05 31 32 33 34 00 must be refused as a packet; on a line it is a packet and its delimiter.
        assertEquals("31 32 33 34", Hex.text(decode(Hex.bytes("05 31..34"))));
    }

    @Test
    void refusesADelimiterAlone() {
        CobsDecoder decoder = new CobsDecoder(10);
        assertFalse(decoder.whole());
        assertTrue(decoder.empty());
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 253, 254, 255, 507, 508, 509, 1000, 1024, 65535})
    void survivesTheEdgesOfRunsWithAndWithoutZeros(int length) {
        SplittableRandom random = new SplittableRandom(length);
        byte[] data = new byte[length];
        for (int i = 0; i < length; i++) {
            data[i] = (byte) random.nextInt(1, 256);
        }
        check(data);
        // No zero is the longest case: one byte for each begun 254.
        assertEquals(length + Math.max(1, (length + 253) / 254), encode(data).length);
        for (int zero = 0; zero < length; zero += Math.max(1, length / 61)) {
            byte[] withZero = data.clone();
            withZero[zero] = 0;
            check(withZero);
        }
        check(new byte[length]);
        assertEquals(length + 1, encode(new byte[length]).length);
    }

    @Test
    void survivesRandomPackets() {
        long seed = 20_240_607;
        SplittableRandom random = new SplittableRandom(seed);
        for (int packet = 0; packet < 20_000; packet++) {
            byte[] data = new byte[random.nextInt(600)];
            int zeros = 1 << random.nextInt(10);
            for (int i = 0; i < data.length; i++) {
                data[i] = random.nextInt(zeros) == 0 ? 0 : (byte) random.nextInt(256);
            }
            byte[] encoded = encode(data);
            assertArrayEquals(data, decode(encoded), () -> "seed " + seed + ", data " + Hex.text(data));
            assertTrue(encoded.length <= Cobs.longestEncoded(data.length), () -> "seed " + seed);
            for (byte one : encoded) {
                assertTrue(one != 0, () -> "a zero within; seed " + seed + ", data " + Hex.text(data));
            }
        }
    }

    @Test
    void tellsTheMostThatEncodingCanGive() {
        assertEquals(1, Cobs.longestEncoded(0));
        assertEquals(2, Cobs.longestEncoded(1));
        assertEquals(255, Cobs.longestEncoded(254));
        assertEquals(257, Cobs.longestEncoded(255));
        assertEquals(510, Cobs.longestEncoded(508));
        assertEquals(512, Cobs.longestEncoded(509));
        assertEquals(1004, Cobs.longestEncoded(1000));
        assertEquals(1029, Cobs.longestEncoded(1024));
        assertEquals(65535 + 259, Cobs.longestEncoded(65535));
    }

    @Test
    void refusesMoreThanItHasRoomFor() {
        byte[] encoded = encode(Hex.bytes("01..0A 00 01..0A"));
        assertTrue(accept(encoded, encoded.length).whole());
        assertFalse(accept(encoded, encoded.length - 1).whole());
        assertFalse(accept(Hex.bytes("FF 01..FE FF 01..FE 05 01"), 300).whole());
    }

    private static void check(byte[] data) {
        assertArrayEquals(data, decode(encode(data)));
    }

    private static byte[] encode(byte[] data) {
        byte[] out = new byte[Cobs.longestEncoded(data.length)];
        return Arrays.copyOf(out, Cobs.encode(data, data.length, out));
    }

    private static byte[] decode(byte[] encoded) {
        CobsDecoder decoder = accept(encoded);
        assertTrue(decoder.whole());
        return Arrays.copyOf(decoder.data(), decoder.length());
    }

    private static CobsDecoder accept(byte[] encoded) {
        return accept(encoded, encoded.length);
    }

    private static CobsDecoder accept(byte[] encoded, int room) {
        CobsDecoder decoder = new CobsDecoder(Math.max(1, room));
        for (byte one : encoded) {
            decoder.accept(one);
        }
        return decoder;
    }
}
