package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.wire.Answer;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.FrameReader;
import snagbench.wire.Record;
import snagbench.wire.Refusal;
import snagbench.wire.Reply;

/** The files by which another probe is compared with this one: always the same, and with everything in them. */
class CrossCheckFilesTests {
    private static final int CASES = 150;
    private static final int FEW = 10;

    @TempDir
    Path folder;

    @Test
    void theSameSeedGivesTheSameFiles() throws IOException {
        CrossCheckFiles.write(folder.resolve("one"), 7, FEW);
        CrossCheckFiles.write(folder.resolve("two"), 7, FEW);
        for (String name : List.of("inputs.txt", "answers.txt")) {
            assertEquals(
                    Files.readString(folder.resolve("one").resolve(name)),
                    Files.readString(folder.resolve("two").resolve(name)));
        }
    }

    @Test
    void everythingThatAProbeSaysComesAbout() throws IOException {
        CrossCheckFiles.write(folder, 1, CASES);
        Map<EventKind, Integer> events = new EnumMap<>(EventKind.class);
        Map<Refusal, Integer> refusals = new EnumMap<>(Refusal.class);
        int forced = 0;
        int flags = 0;
        FrameReader reader = new FrameReader(CrossCheckFiles.LIMITS.frame);
        for (String line : Files.readAllLines(folder.resolve("answers.txt"))) {
            String[] fields = line.split(" ", -1);
            for (byte one : fields[0].equals("tick") ? bytes(fields[3]) : new byte[0]) {
                if (!reader.accept(one)) {
                    continue;
                }
                Reply reply = Reply.read(reader.payload());
                assertNotNull(reply);
                if (reply instanceof Event event) {
                    EventKind kind = EventKind.of(event.kind);
                    assertNotNull(kind);
                    events.merge(kind, 1, Integer::sum);
                } else if (reply instanceof Answer answer && answer.code != 0) {
                    Refusal why = Refusal.of(answer.code);
                    assertNotNull(why);
                    refusals.merge(why, 1, Integer::sum);
                } else if (reply instanceof Record record) {
                    forced += record.forced == 0 ? 0 : 1;
                    flags |= record.flags;
                }
            }
        }
        assertEquals(0, reader.badFrames());
        assertEquals(EnumSet.allOf(EventKind.class), events.keySet(), events::toString);
        // The rig is a virtual one that has all kinds; a second bench comes only when the first has gone.
        Set<Refusal> expected = EnumSet.complementOf(EnumSet.of(Refusal.NEEDS_GUARD));
        assertEquals(expected, refusals.keySet(), refusals::toString);
        assertTrue(forced > 10 * CASES, forced + " records with something forced");
        assertEquals(
                Record.ARMED
                        | Record.LEASED
                        | Record.STOPPING
                        | Record.LATCHED
                        | Record.EVENTS_LOST
                        | Record.PROGRAM_ENDED,
                flags);
    }

    private static byte[] bytes(String hex) {
        byte[] bytes = new byte[hex.equals("-") ? 0 : hex.length() / 2];
        for (int i = 0; i < bytes.length; i++) {
            bytes[i] = (byte) Integer.parseInt(hex.substring(2 * i, 2 * i + 2), 16);
        }
        return bytes;
    }
}
