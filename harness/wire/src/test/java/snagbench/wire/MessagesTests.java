package snagbench.wire;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class MessagesTests {
    private static final int ROOMY = 2048;

    static List<Message> worst() {
        return Samples.worst();
    }

    static List<Message> all() {
        return Samples.all();
    }

    @Test
    void samplesHaveEveryMessage() {
        Set<MessageType> seen = EnumSet.noneOf(MessageType.class);
        for (Message message : all()) {
            seen.add(message.type());
        }
        assertEquals(EnumSet.allOf(MessageType.class), seen);
        assertEquals(Wire.LONGEST_NAME, Samples.NAME.getBytes(StandardCharsets.UTF_8).length);
        assertEquals(Wire.LONGEST_UNIT, Samples.UNIT.getBytes(StandardCharsets.UTF_8).length);
        assertEquals(Wire.LONGEST_BUILD, Samples.BUILD.getBytes(StandardCharsets.UTF_8).length);
    }

    @ParameterizedTest
    @MethodSource("all")
    void readsBackWhatItWrote(Message message) {
        byte[] payload = payload(message);
        Message read = Message.read(payload);
        assertNotNull(read);
        assertEquals(message.fields(), read.fields());
        assertArrayEquals(message.frame(ROOMY), read.frame(ROOMY));
    }

    @Test
    void readsBackRandomMessages() {
        long seed = 64_128_256;
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < 5_000; i++) {
            Message message = Samples.random(random);
            Message read = Message.read(payload(message));
            String where = "seed " + seed + ", message " + i;
            assertNotNull(read, where);
            assertEquals(message.fields(), read.fields(), where);
        }
    }

    @ParameterizedTest
    @MethodSource("worst")
    void everyMessageButARecordFitsTheSmallestFrame(Message message) {
        FrameWriter out = new FrameWriter(Wire.SMALLEST_FRAME);
        assertTrue(message.write(out), () -> message.frame(ROOMY).length + " bytes: " + message);
        assertTrue(out.length() <= 64);
    }

    @Test
    void longestItemAndGreetingFillTheSmallestFrameExactly() {
        // So a byte more anywhere would be seen here, and not first on a small controller.
        assertEquals(64, length(MessageType.HELLO));
        assertEquals(64, length(MessageType.ITEM));
    }

    private static int length(MessageType type) {
        return worst().stream()
                .filter(message -> message.type() == type)
                .mapToInt(message -> message.frame(ROOMY).length)
                .max()
                .orElseThrow();
    }

    @ParameterizedTest
    @MethodSource("all")
    void refusesAMessageWithAnItemTooManyOrTooFew(Message message) {
        byte[] payload = payload(message);
        assertNull(Message.read(Arrays.copyOf(payload, payload.length + 1)), "a byte behind the array");
        if (message.type() != MessageType.WATCH) {
            // A watch with an item more is a watch with a channel more.
            assertNull(Message.read(withHead(payload, 1, new byte[] {0})), "an item more");
        }
        assertNull(Message.read(withHead(payload, 0, new byte[] {0})), "an item more, not in the head");
        assertNull(Message.read(withHead(payload, 1, new byte[0])), "an item more in the head alone");
        assertNull(Message.read(withHead(payload, -1, new byte[0])), "an item fewer in the head alone");
    }

    @ParameterizedTest
    @MethodSource("all")
    void refusesAMessageCutAnywhere(Message message) {
        byte[] payload = payload(message);
        for (int length = 0; length < payload.length; length++) {
            assertNull(Message.read(Arrays.copyOf(payload, length)), "cut to " + length);
        }
    }

    @ParameterizedTest
    @MethodSource("all")
    void refusesAMessageWithAnItemOfAnotherKind(Message message) {
        byte[] payload = payload(message);
        CborReader in = new CborReader();
        in.reset(payload, 0, payload.length);
        int items = in.array();
        for (int item = 0; item < items; item++) {
            int at = in.position();
            boolean text = (payload[at] & 0xE0) == 0x60;
            if (text) {
                in.text();
            } else {
                in.integer();
            }
            byte[] other = new byte[payload.length - (in.position() - at) + 1];
            System.arraycopy(payload, 0, other, 0, at);
            other[at] = (byte) 0xF6;
            System.arraycopy(payload, in.position(), other, at + 1, payload.length - in.position());
            assertNull(Message.read(other), "null for item " + item);
            other[at] = (byte) (text ? 0x01 : 0x60);
            assertNull(Message.read(other), "text for integer or integer for text as item " + item);
        }
        assertTrue(in.complete());
    }

    /** The payload with its head changed by some items, and with bytes added at the end. */
    private static byte[] withHead(byte[] payload, int more, byte[] added) {
        CborReader in = new CborReader();
        in.reset(payload, 0, payload.length);
        int items = in.array();
        CborWriter out = new CborWriter(ROOMY);
        out.array(items + more);
        int head = out.length();
        int rest = payload.length - in.position();
        byte[] changed = Arrays.copyOf(out.buffer(), head + rest + added.length);
        System.arraycopy(payload, in.position(), changed, head, rest);
        System.arraycopy(added, 0, changed, head + rest, added.length);
        return changed;
    }

    @Test
    void refusesUnknownTypes() {
        for (int type : new int[] {0, 13, 31, 38, 100, -1}) {
            CborWriter out = new CborWriter(64);
            out.array(4);
            out.integer(type);
            out.integer(1);
            out.integer(1);
            out.integer(1);
            assertNull(Message.read(Arrays.copyOf(out.buffer(), out.length())), "type " + type);
        }
    }

    @Test
    void aRequestIsNoReplyAndAReplyNoRequest() {
        for (Message message : all()) {
            byte[] payload = payload(message);
            CborReader in = new CborReader();
            in.reset(payload, 0, payload.length);
            if (message.request() != null) {
                assertNull(Reply.read(in));
            } else {
                assertNull(Request.read(in));
            }
        }
    }

    @Test
    void headerOfAnUnknownRequestCanBeReadSoThatItCanBeRefused() {
        CborWriter out = new CborWriter(64);
        out.array(6);
        out.integer(13);
        out.integer(0xFFFFFFFFL);
        out.integer(7);
        out.integer(8);
        out.integer(9);
        out.integer(10);
        CborReader in = new CborReader();
        in.reset(out.buffer(), 0, out.length());
        RequestHeader header = new RequestHeader();
        assertTrue(header.read(in));
        assertEquals(
                List.of(13, -1, 7, 8, 2),
                List.of(header.type, header.session, header.boot, header.number, header.fields));
        assertNull(Request.readBody(header.type, in, header.fields));
    }

    @Test
    void recordRefusesMaskBitsWithoutAChannel() {
        for (int mask = 0; mask < 3; mask++) {
            for (int bit : new int[] {3, 31}) {
                int[] masks = new int[3];
                masks[mask] = 1 << bit;
                CborWriter out = new CborWriter(ROOMY);
                // Three channels, and a real value for the forced one that is not there.
                Record.writeHead(out, 1, 5, 6, 0, 0, 0, 0, 0, 3, masks[0], masks[1], masks[2]);
                for (int i = 0; i < 3 + Integer.bitCount(masks[0]); i++) {
                    out.integer(i);
                }
                assertNull(Message.read(Arrays.copyOf(out.buffer(), out.length())), "mask " + mask + ", bit " + bit);
            }
        }
    }

    @Test
    void recordRefusesFiguresOutOfRange() {
        assertNotNull(readRecordHead(1, 0, 0));
        assertNull(readRecordHead(0, 0, 0), "period of no tick");
        assertNull(readRecordHead(-3, 0, 0), "period below 0");
        assertNull(readRecordHead(1, -1, 0), "fewer than no channels");
        assertNull(readRecordHead(1, 33, 33), "more channels than a mask has bits");
        assertNotNull(readRecordHead(1, 32, 32));
    }

    private static @Nullable Message readRecordHead(int period, int count, int values) {
        CborWriter out = new CborWriter(ROOMY);
        out.array(13 + values);
        for (int item : new int[] {34, period, 1, 2, 0, 0, 0, 0, 0, count, 0, 0, 0}) {
            out.integer(item);
        }
        for (int i = 0; i < values; i++) {
            out.integer(i);
        }
        return Message.read(Arrays.copyOf(out.buffer(), out.length()));
    }

    @Test
    void recordTellsRealValuesApartOnlyWhereForced() {
        Record record = new Record.Builder()
                .tick(1, 2)
                .values(0, new int[] {10, 20, 30}, new int[] {10, 25, 30}, 0b010, 0, 0b100)
                .build();
        Message read = Message.read(payload(Message.of(record)));
        assertNotNull(read);
        Record back = (Record) read.reply();
        assertNotNull(back);
        assertEquals(List.of(10, 20, 30), List.of(back.told(0), back.told(1), back.told(2)));
        assertEquals(List.of(10, 25, 30), List.of(back.real(0), back.real(1), back.real(2)));
        assertEquals(
                List.of(20, 20, 25, 25),
                List.of(back.leastTold(1), back.greatestTold(1), back.leastReal(1), back.greatestReal(1)));
        assertEquals(3, back.count());
        assertEquals(0b100, back.absent);
    }

    @Test
    void recordWrittenPieceByPieceIsTheOneWrittenWhole() {
        Record record = Samples.record(new SplittableRandom(7), 6, 1);
        CborWriter pieces = new CborWriter(ROOMY);
        Record.writeHead(
                pieces,
                1,
                record.tick,
                record.micros,
                record.active,
                record.flags,
                record.newestEvent,
                record.dropped,
                record.first,
                6,
                record.forced,
                record.stale,
                record.absent);
        for (int i = 0; i < 6; i++) {
            pieces.integer(record.told(i));
        }
        for (int i = 0; i < 6; i++) {
            if ((record.forced >>> i & 1) != 0) {
                pieces.integer(record.real(i));
            }
        }
        assertEquals(Hex.text(payload(Message.of(record))), Hex.text(Arrays.copyOf(pieces.buffer(), pieces.length())));
    }

    @Test
    void recordThatIsInconsistentCannotBeBuilt() {
        Record.Builder uneven = new Record.Builder().values(0, new int[3], new int[2], 0, 0, 0);
        assertThrows(IllegalArgumentException.class, uneven::build);
        Record.Builder tooMany = new Record.Builder().values(0, new int[33], new int[33], 0, 0, 0);
        assertThrows(IllegalArgumentException.class, tooMany::build);
    }

    @Test
    void itemWithFiguresOrTextsOfAnotherKindCannotBeMade() {
        IllegalArgumentException refused = assertThrows(
                IllegalArgumentException.class, () -> new Item(1, 1, 0, ItemKind.RANGE, new int[] {1, 2}, "mm"));
        assertEquals("RANGE takes 5 figures and 0 texts, found 2 and 1", refused.getMessage());
    }

    @Test
    void itemAnswersAnotherRequestWithTheSameContent() {
        Item item = new Item(0, 0, 4, ItemKind.CHANNEL, new int[] {0, 1}, "reach.position", "mm");
        Item answer = item.answering(77, 5);
        assertEquals(List.of(77, 5, 4), List.of(answer.session, answer.number, answer.index));
        CborWriter one = new CborWriter(64);
        item.writeContent(one);
        CborWriter other = new CborWriter(64);
        answer.writeContent(other);
        assertEquals(
                Hex.text(Arrays.copyOf(one.buffer(), one.length())),
                Hex.text(Arrays.copyOf(other.buffer(), other.length())));
        assertEquals("reach.position", answer.text(0));
        assertEquals("mm", answer.text(1));
        assertEquals(1, answer.figure(1));
    }

    @Test
    void watchDoesNotShareItsList() {
        int[] channels = {1, 2};
        Watch watch = new Watch(1, 0, channels);
        channels[0] = 9;
        watch.channels()[1] = 9;
        assertArrayEquals(new int[] {1, 2}, watch.channels());
    }

    @Test
    void answerIsDoneOnlyWithCodeZero() {
        assertTrue(new Answer(1, 1, 0, 0, 0, 0).done());
        assertFalse(new Answer(1, 1, Refusal.BUSY.code(), 0, 0, 0).done());
    }

    /** The message as it lies in its frame. */
    private static byte[] payload(Message message) {
        byte[] frame = message.frame(ROOMY);
        FrameReader reader = new FrameReader(ROOMY);
        boolean closed = false;
        for (byte one : frame) {
            closed = reader.accept(one);
        }
        assertTrue(closed);
        CborReader in = reader.payload();
        int from = in.position();
        int items = in.array();
        for (int i = 0; i < items; i++) {
            if ((reader.bytes()[in.position()] & 0xE0) == 0x60) {
                in.text();
            } else {
                in.integer();
            }
        }
        assertTrue(in.complete());
        return Arrays.copyOfRange(reader.bytes(), from, in.position());
    }
}
