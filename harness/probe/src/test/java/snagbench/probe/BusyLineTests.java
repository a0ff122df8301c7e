package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import snagbench.wire.Answer;
import snagbench.wire.EntryKind;
import snagbench.wire.Event;
import snagbench.wire.Keep;
import snagbench.wire.Record;
import snagbench.wire.Reply;

/** A line that takes little or nothing for a while. */
class BusyLineTests {
    private final TestRig rig = new TestRig(new ProbeLimits(4, 8, 0, 0, 2, 16, 64, 256), false, 0);

    private List<String> kinds() {
        List<String> kinds = new ArrayList<>();
        for (Reply reply : rig.replies) {
            kinds.add(reply.getClass().getSimpleName());
        }
        return kinds;
    }

    @Test
    void theLoopGoesOnAndTheAnswerAndEventsComeFirstAfterwards() {
        rig.begin();
        rig.load(Programs.entry(0, EntryKind.STUCK_AT, rig.current, 5));
        rig.arm();
        rig.tick();
        int dropped = rig.record().dropped;
        rig.line.takeAtMost(0);
        rig.replies.clear();
        rig.real(rig.step, 2);
        int asked = rig.send(new Keep(5000, 0));
        for (int i = 0; i < 50; i++) {
            rig.real(rig.position, i);
            rig.tick();
            assertEquals(5, rig.told(rig.current));
        }
        assertTrue(rig.replies.isEmpty());
        rig.line.takeAtMost(Integer.MAX_VALUE);
        rig.tick();
        List<String> kinds = kinds();
        assertEquals("Answer", kinds.get(0));
        assertEquals("Event", kinds.get(1));
        assertEquals(kinds.lastIndexOf("Event") + 1, kinds.indexOf("Record"), "a record before an event");
        assertEquals(asked, rig.last(Answer.class).number);
        rig.tick();
        int missing = rig.record().dropped - dropped;
        assertTrue(missing > 30 && missing < 50, missing + " records dropped");
    }

    @Test
    void aFrameOfWhichAPartIsOutIsFinishedBeforeTheAnswer() {
        rig.begin();
        rig.replies.clear();
        rig.line.takeAtMost(5);
        rig.tick();
        rig.line.takeAtMost(0);
        rig.send(new Keep(5000, 0));
        rig.ticks(3);
        rig.line.takeAtMost(Integer.MAX_VALUE);
        rig.tick();
        assertEquals("Record", kinds().get(0));
        assertEquals("Answer", kinds().get(1));
    }

    @Test
    void aRecordIsSentWholeOrNotAtAll() {
        for (long seed = 1; seed <= 60; seed++) {
            TestRig busy = new TestRig(new ProbeLimits(4, 8, 0, 0, 2, 16, 64, 256), false, 0);
            busy.begin();
            busy.replies.clear();
            Random random = new Random(seed);
            int before = -1;
            for (int i = 0; i < 300; i++) {
                for (Channel channel : Arrays.asList(
                        busy.position,
                        busy.current,
                        busy.motor,
                        busy.brake,
                        busy.start,
                        busy.runs,
                        busy.trigger,
                        busy.fs1.inhibition())) {
                    busy.real(channel, random.nextInt(3) == 0 ? 0 : random.nextInt());
                }
                busy.line.takeAtMost(random.nextInt(4) == 0 ? random.nextInt(600) : random.nextInt(90));
                busy.tick();
            }
            busy.line.takeAtMost(Integer.MAX_VALUE);
            busy.ticks(2);
            int whole = 0;
            int cut = 0;
            int next = 0;
            for (Record part : busy.all(Record.class)) {
                assertEquals(next, part.first, "seed " + seed);
                assertTrue(next == 0 || part.tick == before, "seed " + seed);
                assertTrue(next > 0 || part.tick > before, "seed " + seed);
                before = part.tick;
                boolean more = (part.flags & Record.MORE) != 0;
                next = more ? part.first + part.count() : 0;
                whole += more ? 0 : 1;
                cut += more && part.first == 0 ? 1 : 0;
            }
            assertTrue(cut > 20, cut + " records were cut; seed " + seed);
            assertEquals(0, next, "seed " + seed);
            assertEquals(302, whole + busy.record().dropped, "every record is sent or counted; seed " + seed);
            assertTrue(busy.record().dropped > 0, "seed " + seed);
        }
    }

    @Test
    void eventsWaitUntilThereIsRoomAndNoneIsLost() {
        rig.begin();
        rig.replies.clear();
        rig.line.takeAtMost(0);
        for (int i = 0; i < 12; i++) {
            rig.real(rig.step, i % 2 + 1);
            rig.tick();
        }
        rig.line.takeAtMost(Integer.MAX_VALUE);
        rig.ticks(8);
        List<Event> events = rig.all(Event.class);
        assertEquals(12, events.size());
        for (int i = 1; i < events.size(); i++) {
            assertEquals(events.get(i - 1).number + 1, events.get(i).number);
        }
    }

    @Test
    void theGreetingWaitsForTheLine() {
        TestRig deaf = new TestRig();
        deaf.line.takeAtMost(0);
        deaf.ticks(20);
        deaf.line.takeAtMost(Integer.MAX_VALUE);
        deaf.tick();
        assertEquals(1, deaf.replies.size());
    }

    @Test
    void aLineThatTakesAFewBytesInOneGoBreaksNoFrame() {
        rig.begin();
        for (int bytes = 1; bytes < 64; bytes++) {
            rig.line.takeAtMostAWrite(bytes);
            for (int i = 0; i < 40; i++) {
                rig.real(rig.step, i % 3);
                if (i % 10 == 0) {
                    rig.send(new Keep(10_000, 0));
                }
                rig.tick();
            }
        }
        assertTrue(rig.all(Answer.class).size() > 63, "answers");
    }

    @Test
    void aLineThatTakesAByteATickBreaksNoFrame() {
        rig.begin();
        rig.replies.clear();
        for (int i = 0; i < 2000; i++) {
            rig.line.takeAtMost(1);
            rig.real(rig.position, i % 1000);
            rig.tick();
        }
        assertTrue(rig.all(Record.class).size() > 10);
    }
}
