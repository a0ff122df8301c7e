package snagbench.bench.serve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SpeedMismatchTests {
    private static byte[] heard(byte[] bytes, int sentBaud, int heardBaud) {
        return SpeedMismatch.heard(bytes, bytes.length, sentBaud, heardBaud);
    }

    private static byte[] some() {
        byte[] bytes = new byte[1000];
        new Random(2).nextBytes(bytes);
        return bytes;
    }

    @Test
    void changesNothingAtTheSameSpeed() {
        assertArrayEquals(some(), heard(some(), 115_200, 115_200));
    }

    /** Half a bit in nine and a half: some 5 %. 500 000 for 500 001 is nothing, 4 % still goes. */
    @ParameterizedTest
    @CsvSource({"500000, 500001", "100000, 102000", "100000, 98000", "100000, 104000", "100000, 96000"})
    void standsAFewPerCent(int sent, int heard) {
        assertArrayEquals(some(), heard(some(), sent, heard));
    }

    @ParameterizedTest
    @CsvSource({"500000, 115200", "115200, 500000", "100000, 110000", "100000, 91000", "9600, 19200", "19200, 9600"})
    void hearsGarbageAtAnotherSpeed(int sent, int heard) {
        byte[] garbage = heard(some(), sent, heard);
        assertTrue(garbage.length > 0);
        assertFalse(Arrays.equals(some(), garbage));
    }

    /** Worked by hand: low for nine bits, which are four and a half of the receiver's; then high. */
    @Test
    void hearsALongLowAtHalfTheSpeedAsThreeLowBits() {
        assertArrayEquals(new byte[] {(byte) 0xF8}, heard(new byte[] {0}, 19_200, 9600));
    }

    /** Worked by hand: its one bit is high for two of the receiver's, the second and the third. */
    @Test
    void hearsABitAtDoubleTheSpeedAsTwo() {
        assertArrayEquals(new byte[] {0x06}, heard(new byte[] {1}, 9600, 19_200));
    }

    /** Its lows are half a bit of the receiver's: no start bit stands to its middle. */
    @Test
    void takesShortLowsForNoise() {
        assertArrayEquals(new byte[0], heard(new byte[] {0x55}, 19_200, 9600));
    }

    @Test
    void hearsNothingWhereThereIsNoSpeed() {
        assertArrayEquals(new byte[0], heard(some(), 9600, 0));
    }
}
