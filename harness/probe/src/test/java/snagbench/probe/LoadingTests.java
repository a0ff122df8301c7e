package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import snagbench.wire.Answer;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.Guard;
import snagbench.wire.GuardKind;
import snagbench.wire.Hello;
import snagbench.wire.Point;
import snagbench.wire.Refusal;
import snagbench.wire.RequestBody;
import snagbench.wire.ResetCause;
import snagbench.wire.StopReason;
import snagbench.wire.Term;
import snagbench.wire.TermRole;
import snagbench.wire.Timing;
import snagbench.wire.Watch;
import snagbench.wire.Wire;

/** What is refused while loading, so that no injection is half understood. */
class LoadingTests {
    private final TestRig rig = new TestRig(new ProbeLimits(4, 2, 0, 0, 2, 64, 256, 1024), false, 0);

    @BeforeEach
    void begin() {
        rig.begin();
    }

    private void assertRefused(Refusal why, int word, RequestBody body) {
        Answer answer = rig.ask(body);
        assertEquals(why.code(), answer.code);
        assertEquals(word, answer.word);
    }

    private void assertMalformed(int field, RequestBody body) {
        assertRefused(Refusal.MALFORMED, field, body);
    }

    private Entry stuck(int index) {
        return Programs.entry(index, EntryKind.STUCK_AT, rig.current, 5);
    }

    private static Entry entry(int kind, int channel, int a, int b, int leader, int after, int lasts, int flags) {
        return new Entry(0, kind, channel, a, b, leader, after, lasts, flags);
    }

    @Test
    void whatWasRefusedIsNotInTheDigest() {
        rig.load(stuck(0));
        assertMalformed(0, stuck(2));
        rig.load(Programs.when(0, rig.trigger, Comparison.IS, 1));
        rig.arm();
    }

    @Test
    void entriesComeInOrder() {
        assertMalformed(0, stuck(1));
        rig.load(stuck(0));
        assertMalformed(0, stuck(0));
    }

    @Test
    void moreEntriesThanSlotsAreRefused() {
        rig.load(stuck(0), stuck(1), stuck(2), stuck(3));
        assertRefused(Refusal.NO_ROOM, 4, stuck(4));
    }

    @Test
    void moreTermsThanThereIsRoomForAreRefused() {
        Term term = Programs.when(0, rig.trigger, Comparison.IS, 1);
        rig.load(stuck(0), term, term);
        assertRefused(Refusal.NO_ROOM, 2, term);
    }

    @Test
    void kindsThatItCannotDoAreRefused() {
        int current = rig.current.index();
        assertRefused(Refusal.UNKNOWN_KIND, 99, entry(99, current, 0, 0, -1, -1, 0, 0));
        int replay = EntryKind.REPLAY.code();
        int delay = EntryKind.DELAY.code();
        assertRefused(Refusal.UNKNOWN_KIND, replay, entry(replay, current, 0, 0, -1, -1, 0, 0));
        assertRefused(Refusal.UNKNOWN_KIND, delay, entry(delay, current, 1, 0, -1, -1, 0, 0));
        assertRefused(Refusal.UNKNOWN_KIND, EntryKind.REPLAY.code(), new Point(0, 0, 0));
        rig.load(stuck(0));
        assertRefused(Refusal.UNKNOWN_KIND, 77, new Term(0, 0, rig.current.index(), 0, 77, 0, 0));
        assertRefused(Refusal.UNKNOWN_KIND, 9, new Term(0, 9, rig.current.index(), 0, 0, 0, 0));
        assertRefused(Refusal.UNKNOWN_KIND, 9, new Guard(0, 9, 2, 0, 0, 1, 0, -1));
    }

    @Test
    void theGreetingTellsWhatItCanDo() {
        assertEquals(0b001_1111_1111, rig.open().kinds);
        TestRig roomy = new TestRig();
        Hello hello = roomy.open();
        assertEquals(0b111_1111_1111, hello.kinds);
        assertEquals(TestRig.ROOMY.history, hello.history);
        assertEquals(TestRig.ROOMY.points, hello.points);
    }

    @Test
    void delaysLongerThanTheHistoryInAllAreRefused() {
        TestRig small = new TestRig(new ProbeLimits(8, 8, 0, 10, 2, 64, 256, 1024), false, 0);
        small.begin();
        Entry seven = Programs.entry(0, EntryKind.DELAY, small.current, 7);
        small.load(seven);
        Answer four = small.ask(Programs.entry(1, EntryKind.DELAY, small.position, 4));
        assertEquals(Refusal.NO_ROOM.code(), four.code);
        assertEquals(10, four.word);
        small.load(Programs.entry(1, EntryKind.DELAY, small.position, 3));
        small.arm();
        small.letGo();
        small.load(Programs.entry(0, EntryKind.DELAY, small.current, 10));
        Answer none = small.ask(Programs.entry(1, EntryKind.DELAY, small.current, 0));
        assertEquals(Refusal.MALFORMED.code(), none.code);
        assertEquals(3, none.word);
    }

    @Test
    void pointsComeInTheOrderOfTheirTicksAndAsFarAsThereIsRoom() {
        TestRig small = new TestRig(new ProbeLimits(8, 8, 3, 0, 2, 64, 256, 1024), false, 0);
        small.begin();
        small.load(
                Programs.entry(0, EntryKind.REPLAY, small.current, 0),
                Programs.entry(1, EntryKind.REPLAY, small.current, 0),
                stuck(2),
                new Point(0, 4, 1));
        for (Point wrong : new Point[] {new Point(3, 0, 0), new Point(-1, 0, 0), new Point(2, 0, 0)}) {
            assertEquals(Refusal.MALFORMED.code(), small.ask(wrong).code);
            assertEquals(0, small.ask(wrong).word);
        }
        for (Point wrong : new Point[] {new Point(0, 4, 1), new Point(0, 3, 1), new Point(1, -1, 1)}) {
            assertEquals(Refusal.MALFORMED.code(), small.ask(wrong).code);
            assertEquals(1, small.ask(wrong).word);
        }
        small.load(new Point(1, 0, 5), new Point(0, 5, 1));
        Answer full = small.ask(new Point(0, 6, 1));
        assertEquals(Refusal.NO_ROOM.code(), full.code);
        assertEquals(3, full.word);
        small.arm();
    }

    @Test
    void aWaitHasNothingThatCouldBeIntermittent() {
        rig.load(Programs.waitFor(0, -1, 0));
        assertMalformed(3, new Timing(0, 0, 0, 5, 5, 1, 1));
    }

    @Test
    void fieldsOfAnEntryOutOfRangeAreRefused() {
        int stuck = EntryKind.STUCK_AT.code();
        int current = rig.current.index();
        int most = rig.description.channels().size();
        assertMalformed(2, entry(stuck, -1, 0, 0, -1, -1, 0, 0));
        assertMalformed(2, entry(stuck, most, 0, 0, -1, -1, 0, 0));
        assertMalformed(2, entry(EntryKind.WAIT.code(), current, 0, 0, -1, -1, 0, Entry.STAGE));
        assertMalformed(4, entry(EntryKind.OFFSET.code(), current, 5, -1, -1, -1, 0, 0));
        assertMalformed(4, entry(EntryKind.OFFSET.code(), current, -5, 1, -1, -1, 0, 0));
        assertMalformed(5, entry(stuck, current, 0, 0, 0, -1, 0, 0));
        assertMalformed(5, entry(stuck, current, 0, 0, -2, -1, 0, 0));
        assertMalformed(6, entry(stuck, current, 0, 0, -1, 0, 0, 0));
        assertMalformed(7, entry(stuck, current, 0, 0, -1, -1, Integer.MIN_VALUE, 0));
        assertMalformed(8, entry(stuck, current, 0, 0, -1, -1, 0, 16));
        assertMalformed(8, entry(stuck, current, 0, 0, -1, -1, 0, Entry.SAME_TICK));
        assertMalformed(8, entry(EntryKind.WAIT.code(), -1, 0, 0, -1, -1, 0, 0));
    }

    @Test
    void onlyAStageCanBeHungOn() {
        rig.load(stuck(0));
        assertMalformed(6, Programs.after(0, stuck(1)));
        rig.load(Programs.waitFor(1, -1, 0), Programs.after(1, stuck(2)));
    }

    @Test
    void aWaitOrAFollowerCannotLead() {
        rig.load(Programs.waitFor(0, -1, 0), stuck(1));
        assertMalformed(5, Programs.follower(2, 0, EntryKind.STUCK_AT, rig.current, 5, 0, 0));
        rig.load(Programs.follower(2, 1, EntryKind.STUCK_AT, rig.current, 5, 0, 0));
        assertMalformed(5, Programs.follower(3, 2, EntryKind.STUCK_AT, rig.current, 5, 0, 0));
    }

    @Test
    void aFollowerHasNoConditionOrTimesOfItsOwn() {
        rig.load(stuck(0), Programs.follower(1, 0, EntryKind.STUCK_AT, rig.current, 5, 0, 0));
        assertMalformed(0, Programs.when(1, rig.trigger, Comparison.IS, 1));
        assertMalformed(1, Programs.timing(1, 5, 0, 1, 1));
        assertMalformed(2, Programs.timing(1, 0, 5, 1, 1));
        assertMalformed(5, Programs.timing(1, 0, 0, 2, 1));
        assertMalformed(6, Programs.timing(1, 0, 0, 1, 0));
        rig.load(new Timing(1, 0, 0, 5, 5, 1, 1));
        assertMalformed(8, Programs.follower(2, 0, EntryKind.STUCK_AT, rig.current, 5, 0, Entry.STAGE));
        assertMalformed(8, Programs.follower(2, 0, EntryKind.STUCK_AT, rig.current, 5, 0, Entry.ANEW));
    }

    @Test
    void fieldsOfATimingOutOfRangeAreRefused() {
        rig.load(stuck(0));
        assertMalformed(0, Programs.timing(1, 0, 0, 1, 1));
        assertMalformed(1, Programs.timing(0, -1, 0, 1, 1));
        assertMalformed(2, Programs.timing(0, 0, -1, 1, 1));
        assertMalformed(3, new Timing(0, 0, 0, -1, 5, 1, 1));
        assertMalformed(4, new Timing(0, 0, 0, 5, -1, 1, 1));
        assertMalformed(4, new Timing(0, 0, 0, 0, 5, 1, 1));
        assertMalformed(5, Programs.timing(0, 0, 0, 0, 1));
        assertMalformed(6, Programs.timing(0, 0, 0, 1, -1));
    }

    @Test
    void fieldsOfATermOutOfRangeAreRefused() {
        rig.load(stuck(0));
        int trigger = rig.trigger.index();
        assertMalformed(0, Programs.when(1, rig.trigger, Comparison.IS, 1));
        assertMalformed(2, new Term(0, 0, 99, 0, 0, 0, 0));
        assertMalformed(2, new Term(0, 0, trigger, 0, Comparison.ANSWERED.code(), 1, 0));
        assertMalformed(3, new Term(0, 0, trigger, 2, 0, 0, 0));
        assertMalformed(3, new Term(0, 0, trigger, 1, Comparison.AGREES.code(), 0, 0));
        assertMalformed(5, new Term(0, 0, trigger, 0, Comparison.AGREES.code(), -1, 0));
        assertMalformed(5, Programs.answered(0, TermRole.WHEN, 0));
        assertMalformed(5, Programs.answered(0, TermRole.WHEN, 256));
        assertMalformed(6, new Term(0, 0, trigger, 0, Comparison.FASTER_THAN.code(), 0, 0));
        assertMalformed(6, new Term(0, 0, trigger, 0, Comparison.SLOWER_THAN.code(), 0, Readings.LONGEST_WINDOW + 1));
    }

    @Test
    void statesAndCountersCannotBeForced() {
        assertRefused(Refusal.NOT_ALLOWED, rig.step.index(), Programs.entry(0, EntryKind.STUCK_AT, rig.step, 1));
        assertRefused(Refusal.NOT_ALLOWED, rig.runs.index(), Programs.entry(0, EntryKind.STUCK_AT, rig.runs, 1));
    }

    @Test
    void anActuatorCanOnlyBeWeakenedAndOnlyIfItMay() {
        int motor = rig.motor.index();
        assertRefused(Refusal.NOT_ALLOWED, motor, Programs.entry(0, EntryKind.STUCK_AT, rig.motor, 1));
        assertRefused(Refusal.NOT_ALLOWED, motor, Programs.entry(0, EntryKind.SCALE, rig.motor, (1 << 16) + 1));
        assertRefused(Refusal.NOT_ALLOWED, motor, Programs.entry(0, EntryKind.SCALE, rig.motor, -1));
        assertRefused(Refusal.NOT_ALLOWED, motor, Programs.entry(0, EntryKind.OFFSET, rig.motor, -5));
        assertRefused(Refusal.NOT_ALLOWED, rig.brake.index(), Programs.entry(0, EntryKind.STUCK_AT, rig.brake, 0));
        rig.load(
                Programs.entry(0, EntryKind.STUCK_AT, rig.motor, 0),
                Programs.entry(1, EntryKind.SCALE, rig.motor, 1 << 16));
    }

    @Test
    void fieldsOfAGuardOutOfRangeAreRefused() {
        int position = rig.position.index();
        int speed = GuardKind.SPEED.code();
        int stall = GuardKind.STALL.code();
        assertMalformed(0, new Guard(1, 0, position, 0, 0, 0, 0, -1));
        assertMalformed(2, new Guard(0, 0, 99, 0, 0, 0, 0, -1));
        assertMalformed(4, new Guard(0, 0, position, 1, 0, 0, 0, -1));
        assertMalformed(3, new Guard(0, speed, position, -1, 0, 1, 0, -1));
        assertMalformed(5, new Guard(0, speed, position, 1, 0, 0, 0, -1));
        assertMalformed(5, new Guard(0, speed, position, 1, 0, Readings.LONGEST_WINDOW + 1, 0, -1));
        assertMalformed(4, new Guard(0, stall, position, 1, -1, 1, 0, rig.motor.index()));
        assertMalformed(6, new Guard(0, stall, position, 1, 0, 1, -1, rig.motor.index()));
        assertMalformed(7, new Guard(0, stall, position, 1, 0, 1, 0, -1));
        Guard travel = new Guard(0, 0, position, 0, 0, 0, 0, -1);
        rig.load(travel, new Guard(1, 0, position, 0, 0, 0, 0, -1));
        assertRefused(Refusal.NO_ROOM, 2, new Guard(2, 0, position, 0, 0, 0, 0, -1));
    }

    @Test
    void fieldsOfAWatchOutOfRangeAreRefused() {
        int channels = rig.description.channels().size();
        rig.askDone(new Watch(1, 0));
        assertMalformed(0, new Watch(0, 0, 1));
        assertMalformed(0, new Watch(0x10000, 0, 1));
        assertMalformed(1, new Watch(1, 1, 1));
        assertMalformed(1, new Watch(1, -1, 1));
        assertMalformed(3, new Watch(1, 0, 1, channels));
        assertMalformed(2, new Watch(1, 0, -1));
        assertRefused(Refusal.NO_ROOM, channels, new Watch(1, 0, new int[channels + 1]));
    }

    @Test
    void aDescriptionThatDoesNotFitTheFrameIsSaidAtTheStart() {
        ProbeLimits tooMuch = new ProbeLimits(32, 4096, 1 << 16, 1 << 16, 32, 1024, 64, 16);
        assertThrows(IllegalArgumentException.class, () -> probe(tooMuch, 5_000_000));
        probe(new ProbeLimits(32, 255, 0, 0, 23, 23, 64, 16), 5000);
    }

    private void probe(ProbeLimits limits, int tickMicros) {
        new Probe(
                rig.description,
                new Controller(
                        "12 bytes long".substring(0, Wire.LONGEST_BUILD), -1, ResetCause.BROWN_OUT, true, tickMicros),
                limits,
                new MemoryLine(),
                () -> 0,
                new SafeStop() {
                    @Override
                    public void stop(StopReason reason) {}

                    @Override
                    public boolean isStopped() {
                        return true;
                    }
                },
                Arming.ALWAYS);
    }
}
