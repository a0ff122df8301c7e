package snagbench.bench.serve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FaultyLineTests {
    private static final int MANY = 200_000;

    private static byte[] some(int length) {
        byte[] bytes = new byte[length];
        new Random(5).nextBytes(bytes);
        return bytes;
    }

    private static byte[] through(FaultyLine line, byte[] bytes) {
        line.put(bytes, 0, bytes.length, 0);
        byte[] arrived = new byte[3 * bytes.length + 1];
        return Arrays.copyOf(arrived, line.take(arrived, Long.MAX_VALUE));
    }

    private static FaultyLine line(double loss, double flip, double doubling, long seed) {
        return new FaultyLine(0, LineFaults.ofBytes(loss, flip, doubling), seed, 0);
    }

    @Test
    void changesNothingWithoutFaults() {
        byte[] bytes = some(5000);
        assertArrayEquals(bytes, through(line(0, 0, 0, 1), bytes));
    }

    /** Five standard deviations of a binomial distribution; the seeds are fixed. */
    @ParameterizedTest
    @ValueSource(longs = {0, 1, 2, -7, Long.MAX_VALUE})
    void strikesTheShareThatItWasGiven(long seed) {
        FaultyLine line = line(0.01, 0.003, 0.02, seed);
        byte[] arrived = through(line, new byte[MANY]);
        assertShare(0.01, line.lost(), MANY);
        assertShare(0.003, line.flipped(), MANY - line.lost());
        assertShare(0.02, line.doubled(), MANY - line.lost());
        assertEquals(MANY - line.lost() + line.doubled(), arrived.length);
    }

    private static void assertShare(double share, long struck, long of) {
        double deviation = Math.sqrt(of * share * (1 - share));
        assertTrue(Math.abs(struck - of * share) < 5 * deviation, struck + " of " + of + " struck, share " + share);
    }

    @Test
    void turnsOverOneBitAndEachBitAboutAsOften() {
        int[] bits = new int[Byte.SIZE];
        int flipped = 0;
        for (byte one : through(line(0, 0.05, 0, 3), new byte[MANY])) {
            if (one != 0) {
                assertEquals(1, Integer.bitCount(one & 0xFF));
                bits[Integer.numberOfTrailingZeros(one & 0xFF)]++;
                flipped++;
            }
        }
        for (int count : bits) {
            assertShare(1.0 / Byte.SIZE, count, flipped);
        }
    }

    @Test
    void leavesTheOtherFaultsWhereTheyWereWhenOneIsAdded() {
        byte[] bytes = new byte[20_000];
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = (byte) (i % 2 == 0 ? 0x0F : 0xF0);
        }
        byte[] flippedOnly = through(line(0, 0.01, 0, 9), bytes);
        FaultyLine both = line(0, 0.01, 0.01, 9);
        byte[] withDoubles = through(both, bytes);
        ByteArrayOutputStream undoubled = new ByteArrayOutputStream();
        for (int i = 0, place = 0; i < bytes.length; i++, place++) {
            undoubled.write(withDoubles[place]);
            if (place + 1 < withDoubles.length && withDoubles[place + 1] == withDoubles[place]) {
                place++;
            }
        }
        assertTrue(both.doubled() > 100);
        assertArrayEquals(flippedOnly, undoubled.toByteArray());
    }

    @Test
    void doesTheSameForTheSameSeedAndAnotherForEveryOther() {
        byte[] bytes = some(2000);
        Set<String> seen = new HashSet<>();
        for (long seed = 0; seed < 50; seed++) {
            byte[] once = through(line(0.01, 0.01, 0.01, seed), bytes);
            assertArrayEquals(once, through(line(0.01, 0.01, 0.01, seed), bytes));
            seen.add(Arrays.toString(once));
        }
        assertEquals(50, seen.size());
        FaultyLine back = new FaultyLine(0, LineFaults.ofBytes(0.01, 0.01, 0.01), 0, 1);
        assertFalse(Arrays.equals(through(line(0.01, 0.01, 0.01, 0), bytes), through(back, bytes)));
    }

    @Test
    void givesBytesWhenTheirTenBitsAreOver() {
        FaultyLine line = new FaultyLine(9600, LineFaults.NONE, 1, 0);
        line.put(new byte[] {1, 2, 3}, 0, 3, 1000);
        // 10 bits at 9600 baud are 1041.666 us, rounded down to the nanosecond.
        byte[] into = new byte[8];
        assertEquals(2042, line.nextMicros());
        assertEquals(3, line.backlog(1000));
        assertEquals(0, line.take(into, 2041));
        assertEquals(1, line.take(into, 2042));
        assertEquals(2, line.backlog(2042));
        assertEquals(3084, line.nextMicros());
        assertEquals(0, line.take(into, 3083));
        assertEquals(2, line.take(into, 4125));
        assertEquals(3, into[1]);
        line.put(new byte[] {4}, 0, 1, 10_000);
        assertEquals(11_042, line.nextMicros());
    }

    @Test
    void losesWhatTheSendersBufferCannotHold() {
        FaultyLine line = new FaultyLine(115_200, LineFaults.NONE, 1, 0);
        line.put(new byte[5000], 0, 5000, 0);
        assertEquals(5000 - FaultyLine.SENDERS_ROOM, line.overflowed());
        assertEquals(FaultyLine.SENDERS_ROOM, line.take(new byte[5000], Long.MAX_VALUE));
    }

    @Test
    void delaysEachBurstByItsOwnTimeAndKeepsTheOrder() {
        FaultyLine line = new FaultyLine(0, new LineFaults(0, 0, 0, 3000, 2000), 4, 0);
        Set<Long> delays = new HashSet<>();
        byte[] into = new byte[4];
        for (int burst = 0; burst < 500; burst++) {
            long sent = burst * 10_000L;
            line.put(new byte[] {(byte) burst, (byte) (burst + 1)}, 0, 2, sent);
            long delay = line.nextMicros() - sent;
            assertTrue(delay >= 3000 && delay <= 5000, "delay of " + delay);
            delays.add(delay);
            assertEquals(2, line.take(into, line.nextMicros()), "a burst stays together");
            assertEquals((byte) burst, into[0]);
        }
        assertTrue(delays.size() > 400, "delays differ: " + delays.size());
        for (int i = 0; i < 200; i++) {
            line.put(new byte[] {(byte) i}, 0, 1, 6_000_000 + 10 * i);
        }
        byte[] all = new byte[200];
        assertEquals(200, line.take(all, Long.MAX_VALUE));
        for (int i = 0; i < 200; i++) {
            assertEquals((byte) i, all[i]);
        }
    }

    @Test
    void hangsNotOnHowBytesAreCutIntoCalls() {
        LineFaults bad = new LineFaults(0.02, 0.02, 0.02, 100, 5000);
        byte[] bytes = some(3000);
        Random cuts = new Random(11);
        for (int round = 0; round < 20; round++) {
            FaultyLine whole = new FaultyLine(500_000, bad, round, 0);
            FaultyLine cut = new FaultyLine(500_000, bad, round, 0);
            whole.put(bytes, 0, bytes.length, 7);
            for (int at = 0; at < bytes.length; ) {
                int next = Math.min(bytes.length, at + 1 + cuts.nextInt(100));
                cut.put(bytes, at, next - at, 7);
                at = next;
            }
            byte[] one = new byte[1];
            byte[] other = new byte[1];
            while (whole.nextMicros() != Long.MAX_VALUE) {
                assertEquals(whole.nextMicros(), cut.nextMicros(), "round " + round);
                whole.take(one, Long.MAX_VALUE);
                cut.take(other, Long.MAX_VALUE);
                assertEquals(one[0], other[0], "round " + round);
            }
            assertEquals(Long.MAX_VALUE, cut.nextMicros());
        }
    }

    @Test
    void losesWhatIsOnTheWayWhenTheCableIsPulled() {
        FaultyLine line = new FaultyLine(9600, LineFaults.NONE, 1, 0);
        line.put(new byte[10], 0, 10, 0);
        line.drop();
        assertEquals(Long.MAX_VALUE, line.nextMicros());
        assertEquals(0, line.backlog(0));
        assertEquals(10, line.lost());
        line.put(new byte[] {1}, 0, 1, 5);
        assertEquals(1047, line.nextMicros());
    }

    @Test
    void refusesWhatCannotBe() {
        assertThrows(IllegalArgumentException.class, () -> LineFaults.ofBytes(1, 0, 0));
        assertThrows(IllegalArgumentException.class, () -> LineFaults.ofBytes(0, -0.1, 0));
        assertThrows(IllegalArgumentException.class, () -> LineFaults.ofBytes(0, 0, Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> new LineFaults(0, 0, 0, -1, 0));
        assertThrows(IllegalArgumentException.class, () -> new LineFaults(0, 0, 0, 0, -1));
        assertThrows(IllegalArgumentException.class, () -> new FaultyLine(-1, LineFaults.NONE, 0, 0));
    }
}
