package snagbench.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class FrameReaderTests {
    private static final int ROOMY = 2048;
    private static final Message AFTER = Message.of(new Event(812, 4_001, 20_010_400, 5, 2, 1));
    private static final Message LAST = Message.of(new Answer(0x5EED, 17, 0, 812, 4_002, 20_015_400));

    private static final byte[] AFTER_FRAME = AFTER.frame(64);
    private static final byte[] LAST_FRAME = LAST.frame(64);

    private static final ByteBuffer AFTER_FOUND = ByteBuffer.wrap(AFTER_FRAME);
    private static final ByteBuffer LAST_FOUND = ByteBuffer.wrap(LAST_FRAME);

    static List<Message> all() {
        return Samples.all();
    }

    @ParameterizedTest
    @MethodSource("all")
    void findsAFrameWhole(Message message) {
        Bench bench = new Bench();
        bench.take(message.frame(ROOMY));
        assertEquals(List.of(ByteBuffer.wrap(message.frame(ROOMY))), bench.got);
        assertEquals(1, bench.reader.goodFrames());
        assertEquals(0, bench.reader.badFrames());
    }

    @Test
    void closesAFrameWithItsLastByteAndWithNoneBefore() {
        byte[] frame = AFTER_FRAME;
        FrameReader reader = new FrameReader(64);
        for (int i = 0; i < frame.length; i++) {
            assertEquals(i == frame.length - 1, reader.accept(frame[i]), "byte " + i);
        }
    }

    /** Cut into two reads at every index: whether the line hands out bytes in one piece must not matter. */
    @ParameterizedTest
    @MethodSource("all")
    void findsAFrameSplitAtEveryIndex(Message message) {
        byte[] frame = message.frame(ROOMY);
        for (int split = 0; split <= frame.length; split++) {
            Bench bench = new Bench();
            bench.take(Arrays.copyOf(frame, split));
            assertEquals(split < frame.length ? 0 : 1, bench.got.size());
            bench.take(Arrays.copyOfRange(frame, split, frame.length));
            assertEquals(List.of(ByteBuffer.wrap(message.frame(ROOMY))), bench.got, "split at " + split);
        }
    }

    @Test
    void findsTheFirstFrameAfterNoiseThatADelimiterEnds() {
        long seed = 115_200;
        SplittableRandom random = new SplittableRandom(seed);
        for (int round = 0; round < 2_000; round++) {
            byte[] noise = new byte[random.nextInt(1, 300)];
            random.nextBytes(noise);
            Bench bench = new Bench();
            bench.take(noise);
            bench.take(new byte[] {0});
            bench.take(AFTER_FRAME);
            assertEquals(List.of(AFTER_FOUND), bench.got, "seed " + seed + ", round " + round);
        }
    }

    @Test
    void losesNoMoreThanTheFrameThatNoiseRunsInto() {
        Bench bench = new Bench();
        bench.take(Hex.bytes("55 AA 55"));
        bench.take(AFTER_FRAME);
        bench.take(LAST_FRAME);
        assertEquals(List.of(LAST_FOUND), bench.got);
        assertEquals(1, bench.reader.badFrames());
    }

    /** What a reader sees that is switched on while the line is busy. */
    @ParameterizedTest
    @MethodSource("all")
    void findsTheNextFrameWhenItStartsInTheMiddleOfOne(Message message) {
        byte[] frame = message.frame(ROOMY);
        for (int from = 1; from < frame.length; from++) {
            Bench bench = new Bench();
            bench.take(Arrays.copyOfRange(frame, from, frame.length));
            bench.take(AFTER_FRAME);
            assertEquals(List.of(AFTER_FOUND), bench.got, "from byte " + from);
        }
    }

    @ParameterizedTest
    @MethodSource("all")
    void neverTakesAFrameWithAByteChanged(Message message) {
        byte[] frame = message.frame(ROOMY);
        Bench bench = new Bench();
        for (int at = 0; at < frame.length; at++) {
            for (int change = 1; change < 256; change++) {
                byte[] damaged = frame.clone();
                damaged[at] ^= (byte) change;
                checkDamaged(bench, damaged, at == frame.length - 1, "byte " + at + " changed by " + change);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("all")
    void neverTakesAFrameWithAByteLost(Message message) {
        byte[] frame = message.frame(ROOMY);
        Bench bench = new Bench();
        for (int at = 0; at < frame.length; at++) {
            byte[] damaged = new byte[frame.length - 1];
            System.arraycopy(frame, 0, damaged, 0, at);
            System.arraycopy(frame, at + 1, damaged, at, damaged.length - at);
            checkDamaged(bench, damaged, at == frame.length - 1, "byte " + at + " lost");
        }
    }

    @ParameterizedTest
    @MethodSource("all")
    void neverTakesAFrameWithAByteDoubled(Message message) {
        byte[] frame = message.frame(ROOMY);
        Bench bench = new Bench();
        for (int at = 0; at < frame.length - 1; at++) {
            byte[] damaged = new byte[frame.length + 1];
            System.arraycopy(frame, 0, damaged, 0, at + 1);
            System.arraycopy(frame, at, damaged, at + 1, frame.length - at);
            checkDamaged(bench, damaged, false, "byte " + at + " doubled");
        }
    }

    @Test
    void doesNotMindADelimiterDoubled() {
        Bench bench = new Bench();
        bench.take(new byte[] {0, 0});
        bench.take(AFTER_FRAME);
        bench.take(new byte[] {0, 0, 0});
        bench.take(LAST_FRAME);
        assertEquals(List.of(AFTER_FOUND, LAST_FOUND), bench.got);
        assertEquals(0, bench.reader.badFrames());
    }

    /** Nothing of the damaged frame may come; a frame that a lost delimiter welded to it is lost too, the next is not. */
    private static void checkDamaged(Bench bench, byte[] damaged, boolean delimiterGone, String what) {
        bench.got.clear();
        long goodBefore = bench.reader.goodFrames();
        long badBefore = bench.reader.badFrames();
        bench.take(damaged);
        bench.take(AFTER_FRAME);
        bench.take(LAST_FRAME);
        List<ByteBuffer> expected = delimiterGone ? List.of(LAST_FOUND) : List.of(AFTER_FOUND, LAST_FOUND);
        assertEquals(expected, bench.got, what);
        assertTrue(bench.reader.badFrames() > badBefore, what);
        assertEquals(expected.size(), bench.reader.goodFrames() - goodBefore, what);
    }

    @ParameterizedTest
    @ValueSource(ints = {64, 65, 254, 255, 256, 257, 508, 509, 510, 511, 1024})
    void takesTheLongestFrameAndNoLonger(int longest) {
        for (int items = longest - 12; items <= longest; items++) {
            // Items of one byte that is never 0, so that the stuffing is at its longest.
            FrameWriter writer = new FrameWriter(ROOMY);
            CborWriter payload = writer.begin();
            for (int i = 0; i < items; i++) {
                payload.integer(-1 - i % 24);
            }
            assertTrue(writer.end());
            FrameReader reader = new FrameReader(longest);
            boolean closed = false;
            for (int i = 0; i < writer.length(); i++) {
                closed = reader.accept(writer.frame()[i]);
            }
            assertEquals(writer.length() <= longest, closed, writer.length() + " bytes into " + longest);
            assertEquals(closed ? 0 : 1, reader.badFrames());
            FrameWriter limited = new FrameWriter(longest);
            CborWriter again = limited.begin();
            again.clear();
            for (int i = 0; i < items; i++) {
                again.integer(-1 - i % 24);
            }
            assertEquals(closed, limited.end(), "writer and reader agree on " + writer.length() + " in " + longest);
            assertEquals(closed ? writer.length() : 0, limited.length());
        }
    }

    @Test
    void findsTheNextFrameAfterOneThatIsMuchTooLong() {
        long seed = 9_600;
        SplittableRandom random = new SplittableRandom(seed);
        Bench bench = new Bench(64);
        for (int i = 0; i < 3_000_000; i++) {
            assertFalse(bench.reader.accept((byte) random.nextInt(1, 256)), () -> "seed " + seed);
        }
        assertFalse(bench.reader.accept((byte) 0));
        assertEquals(1, bench.reader.badFrames());
        bench.take(AFTER_FRAME);
        assertEquals(List.of(AFTER_FOUND), bench.got);
    }

    @ParameterizedTest
    @ValueSource(ints = {-1, 0, 63})
    void refusesALimitBelowTheSmallestFrame(int longest) {
        String expected = "longest frame of " + longest + " bytes, at least 64 wanted";
        assertEquals(
                expected,
                assertThrows(IllegalArgumentException.class, () -> new FrameReader(longest))
                        .getMessage());
        assertEquals(
                expected,
                assertThrows(IllegalArgumentException.class, () -> new FrameWriter(longest))
                        .getMessage());
    }

    @Test
    void writerForgetsWhatDidNotFit() {
        FrameWriter writer = new FrameWriter(64);
        CborWriter payload = writer.begin();
        for (int i = 0; i < 100; i++) {
            payload.integer(Integer.MAX_VALUE);
        }
        assertFalse(writer.end());
        assertEquals(0, writer.length());
        assertTrue(AFTER.write(writer));
        assertEquals(Hex.text(AFTER_FRAME), Hex.text(Arrays.copyOf(writer.frame(), writer.length())));
    }

    /** Many frames back to back, damaged at random: what comes out was sent, and in the order in which it was sent. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void givesOnlyWhatWasSentAndInOrderOutOfADamagedStream(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        // From the cleanest to the dirtiest line: one byte in 4096 to one in 32 is hit.
        int oneIn = 4096 >> (seed - 1);
        List<ByteBuffer> sent = new ArrayList<>();
        ByteArrayOutputStream line = new ByteArrayOutputStream();
        int untouched = 0;
        for (int i = 0; i < 3_000; i++) {
            Message message = Samples.random(random);
            byte[] frame = message.frame(ROOMY);
            sent.add(ByteBuffer.wrap(frame));
            int before = line.size();
            boolean hit = damage(frame, oneIn, random, line);
            untouched += hit ? 0 : 1;
            assertTrue(hit || line.size() == before + frame.length);
        }
        Bench bench = new Bench();
        bench.take(line.toByteArray());
        int at = 0;
        for (ByteBuffer got : bench.got) {
            while (at < sent.size() && !sent.get(at).equals(got)) {
                at++;
            }
            assertTrue(
                    at < sent.size(),
                    "seed " + seed + ": never sent, or out of order: frame " + bench.got.indexOf(got));
            at++;
        }
        // A frame that was not hit is lost only where the delimiter before it was.
        int least = untouched - (sent.size() - untouched);
        assertTrue(bench.got.size() >= least, "seed " + seed + ": " + bench.got.size() + " of " + least + " or more");
        assertTrue(untouched < sent.size(), "seed " + seed + " damaged nothing");
    }

    private static boolean damage(byte[] frame, int oneIn, SplittableRandom random, ByteArrayOutputStream line) {
        boolean hit = false;
        for (byte one : frame) {
            if (random.nextInt(oneIn) != 0) {
                line.write(one);
                continue;
            }
            hit = true;
            switch (random.nextInt(4)) {
                case 0 -> line.write(one ^ random.nextInt(1, 256));
                case 1 -> line.write(one ^ (1 << random.nextInt(8)));
                case 2 -> {
                    line.write(one);
                    line.write(one);
                }
                default -> {
                    // The byte is lost.
                }
            }
        }
        return hit;
    }

    /** Reads a line as the bench and the rig do, whichever the message is for, and writes again what it understood. */
    private static final class Bench {
        final FrameReader reader;
        final List<ByteBuffer> got = new ArrayList<>();
        private final FrameWriter writer = new FrameWriter(ROOMY);

        Bench() {
            this(ROOMY);
        }

        Bench(int longest) {
            reader = new FrameReader(longest);
        }

        void take(byte[] bytes) {
            for (byte one : bytes) {
                if (reader.accept(one)) {
                    Message message = Message.read(reader.payload(), reader.bytes());
                    assertNotNull(message, "a good frame that nobody understands");
                    assertTrue(message.write(writer));
                    got.add(ByteBuffer.wrap(Arrays.copyOf(writer.frame(), writer.length())));
                }
            }
        }
    }
}
