package snagbench.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.zip.CRC32;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The checksum of frames and digests is CRC-32/ISO-HDLC. Its check value and residue are from the Catalogue of
 * parametrised CRC algorithms (G. Cook); the other check values were computed by two programs that share no code with
 * this one.
 */
class ChecksumTests {
    @ParameterizedTest
    @CsvSource({
        "31 32 33 34 35 36 37 38 39, CBF43926",
        "00, D202EF8D",
        "FF, FF000000",
        "61, E8B7BE43",
        "54 68 65 20 71 75 69 63 6B 20 62 72 6F 77 6E 20 66 6F 78 20 6A 75 6D 70 73 20 6F 76 65 72 20 74 68 65 20 "
                + "6C 61 7A 79 20 64 6F 67, 414FA339",
        "00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00 00, 190A55AD",
        "00..1F, 91267E8A"
    })
    void digestHasThePublishedCheckValues(String data, String expected) {
        byte[] bytes = Hex.bytes(data);
        ProgramDigest digest = new ProgramDigest();
        digest.add(bytes[0], bytes, 1, bytes.length);
        assertEquals((int) Long.parseLong(expected, 16), digest.value());
    }

    @Test
    void digestOfNothingIsZero() {
        ProgramDigest digest = new ProgramDigest();
        digest.add(new Point(1, 2, 3));
        digest.clear();
        assertEquals(0, digest.value());
    }

    @Test
    void frameCarriesTheChecksumWithItsLeastByteFirst() {
        // The characters "123456789" happen to be CBOR integers: -18 to -24, and -58 in two bytes.
        FrameWriter writer = new FrameWriter(64);
        CborWriter payload = writer.begin();
        for (int value = -18; value >= -24; value--) {
            payload.integer(value);
        }
        payload.integer(-58);
        assertTrue(writer.end());
        assertEquals(
                "0E 31 32 33 34 35 36 37 38 39 26 39 F4 CB 00",
                Hex.text(Arrays.copyOf(writer.frame(), writer.length())));
    }

    /** RFC 1662, appendix C (from memory, and computed anew): the register over data and checksum ends at DEBB20E3. */
    @Test
    void registerOverPayloadAndChecksumEndsAtTheGoodResidue() {
        for (Message message : Samples.worst()) {
            byte[] frame = message.frame(1024);
            CobsDecoder decoder = new CobsDecoder(1024);
            for (int i = 0; i < frame.length - 1; i++) {
                decoder.accept(frame[i]);
            }
            CRC32 crc = new CRC32();
            crc.update(decoder.data(), 0, decoder.length());
            assertEquals(0xDEBB20E3, ~(int) crc.getValue(), message.toString());
        }
    }

    /**
     * A multiple of the polynomial with five terms goes unseen, and no such pattern with one more bit wrong: 0, 89, 117,
     * 155 and 300 were found by an exhaustive search of our own. It holds for this polynomial in this bit order alone.
     */
    @Test
    void knownMultipleOfThePolynomialGoesUnseenAndItsNeighboursDoNot() {
        byte[] payload = new byte[36];
        Arrays.fill(payload, (byte) 0x17);
        byte[] checked = withChecksum(payload);
        for (int shift = 0; 300 + shift < 8 * checked.length; shift++) {
            byte[] damaged = checked.clone();
            for (int bit : new int[] {0, 89, 117, 155, 300}) {
                flip(damaged, bit + shift);
            }
            assertTrue(isTaken(damaged), "shifted by " + shift);
            flip(damaged, shift);
            assertFalse(isTaken(damaged), "four bits, shifted by " + shift);
        }
    }

    /** Bit 0 is the one that goes last: the checksum's last byte, most significant bit. */
    private static void flip(byte[] checked, int bit) {
        checked[checked.length - 1 - bit / 8] ^= (byte) (0x80 >>> (bit % 8));
    }

    private static byte[] withChecksum(byte[] payload) {
        CRC32 crc = new CRC32();
        crc.update(payload);
        byte[] checked = Arrays.copyOf(payload, payload.length + 4);
        for (int i = 0; i < 4; i++) {
            checked[payload.length + i] = (byte) (crc.getValue() >>> (8 * i));
        }
        return checked;
    }

    private static boolean isTaken(byte[] checked) {
        byte[] encoded = new byte[Cobs.longestEncoded(checked.length)];
        int length = Cobs.encode(checked, checked.length, encoded);
        FrameReader reader = new FrameReader(64);
        for (int i = 0; i < length; i++) {
            reader.accept(encoded[i]);
        }
        return reader.accept((byte) 0);
    }

    @Test
    void frameWithoutPayloadIsNoFrame() {
        // CRC-32 of nothing is 00 00 00 00.
        assertEquals(0, new CRC32().getValue());
        assertFalse(isTaken(new byte[4]));
        FrameWriter writer = new FrameWriter(64);
        writer.begin();
        assertFalse(writer.end());
        assertEquals(0, writer.length());
    }

    @Test
    void digestOverAMessageToBeSentIsTheOneOverItsBytesAsTheyCame() {
        RequestBody[] program = {
            new Entry(0, 1, 3, -5, 0, -1, -1, 900_000, 1),
            new Timing(0, 60_000, 0, 0, 0, 2, 0),
            new Term(0, 0, 4, 0, 0, 1800, 0),
            new Point(0, 7, -1800),
            new Guard(0, 0, 3, -40, 4050, 0, 0, -1)
        };
        ProgramDigest sent = new ProgramDigest();
        ProgramDigest came = new ProgramDigest();
        FrameWriter writer = new FrameWriter(64);
        FrameReader reader = new FrameReader(64);
        for (RequestBody body : program) {
            sent.add(body);
            assertTrue(new Request(0x12345678, 0x9ABCDEF0, 300, body).write(writer));
            boolean closed = false;
            for (int i = 0; i < writer.length(); i++) {
                closed = reader.accept(writer.frame()[i]);
            }
            assertTrue(closed);
            RequestHeader header = new RequestHeader();
            assertTrue(header.read(reader.payload()));
            int from = reader.payload().position();
            Request.readBody(header.type, reader.payload(), header.fields);
            came.add(header.type, reader.bytes(), from, reader.payload().position());
        }
        assertEquals(sent.value(), came.value());
    }

    @Test
    void digestTellsTheOrderOfMessages() {
        ProgramDigest there = new ProgramDigest();
        there.add(new Point(0, 1, 2));
        there.add(new Point(0, 3, 4));
        ProgramDigest back = new ProgramDigest();
        back.add(new Point(0, 3, 4));
        back.add(new Point(0, 1, 2));
        assertFalse(there.value() == back.value());
    }
}
