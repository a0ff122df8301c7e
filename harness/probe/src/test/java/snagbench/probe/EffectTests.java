package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.LetGo;
import snagbench.wire.Point;
import snagbench.wire.Record;
import snagbench.wire.RequestBody;
import snagbench.wire.TermRole;
import snagbench.wire.Timing;

/** What noise, delay, replay and the gate do over time, and through a safe stop; their figures are in the fault values. */
class EffectTests {
    /** The first draws from 2463534242, of an amplitude of 15 steps, as the wire page works them out. */
    private static final int[] NOISE = {-26, 18, -13, 0, 24};

    private static final int NOISE_SEED = (int) 2463534242L;
    private static final int AMPLITUDE = 1663;

    private final TestRig rig = new TestRig();

    @BeforeEach
    void begin() {
        rig.begin();
    }

    private void arm(RequestBody... program) {
        rig.load(program);
        rig.arm();
    }

    private void armForNoise(RequestBody... program) {
        rig.load(program);
        rig.send(rig.armRequest(NOISE_SEED));
        rig.tick();
    }

    private List<Integer> told(Channel channel, int ticks) {
        List<Integer> told = new ArrayList<>();
        for (int i = 0; i < ticks; i++) {
            rig.tick();
            told.add(rig.told(channel));
        }
        return told;
    }

    private static List<Integer> list(Integer... values) {
        return Arrays.asList(values);
    }

    @Test
    void noiseDrawsOnceATickWhetherTheChannelIsReadOrNot() {
        armForNoise(Programs.entry(0, EntryKind.NOISE, rig.position, AMPLITUDE));
        rig.tick();
        assertEquals(NOISE[0], rig.told(rig.position));
        rig.leftOut[rig.position.index()] = true;
        rig.tick();
        rig.leftOut[rig.position.index()] = false;
        rig.tick();
        assertEquals(NOISE[2], rig.told(rig.position));
    }

    @Test
    void noiseGoesOnInASafeStop() {
        armForNoise(Programs.entry(0, EntryKind.NOISE, rig.position, AMPLITUDE));
        rig.stop.asksUntilStopped = 3;
        rig.send(new LetGo());
        assertEquals(list(NOISE[0], NOISE[1], NOISE[2], NOISE[3], 0), told(rig.position, 5));
    }

    @Test
    void theSameSeedMakesTheSameNoiseInEachProgram() {
        Entry noise = Programs.entry(0, EntryKind.NOISE, rig.position, AMPLITUDE);
        armForNoise(noise);
        List<Integer> first = told(rig.position, 5);
        rig.letGo();
        rig.keep();
        armForNoise(noise);
        assertEquals(first, told(rig.position, 5));
        assertEquals(list(NOISE[0], NOISE[1], NOISE[2], NOISE[3], NOISE[4]), first);
    }

    @Test
    void delayKeepsThePastInASafeStop() {
        arm(Programs.entry(0, EntryKind.DELAY, rig.position, 2));
        rig.stop.asksUntilStopped = 3;
        rig.send(new LetGo());
        List<Integer> told = new ArrayList<>();
        for (int real = 1; real <= 5; real++) {
            rig.real(rig.position, real);
            rig.tick();
            told.add(rig.told(rig.position));
        }
        assertEquals(list(0, 0, 1, 2, 5), told);
    }

    @Test
    void delayTakesNothingFromBeforeArming() {
        rig.load(Programs.entry(0, EntryKind.DELAY, rig.position, 3));
        rig.real(rig.position, 500);
        rig.ticks(5);
        rig.real(rig.position, 7);
        rig.arm();
        rig.real(rig.position, 9);
        assertEquals(list(7, 7, 7, 9), told(rig.position, 4));
    }

    @Test
    void delayTakesNothingFromTheProgramBefore() {
        rig.real(rig.position, 500);
        arm(Programs.entry(0, EntryKind.DELAY, rig.position, 2));
        rig.ticks(5);
        rig.letGo();
        rig.keep();
        rig.real(rig.position, 7);
        arm(Programs.entry(0, EntryKind.DELAY, rig.position, 2));
        rig.real(rig.position, 9);
        assertEquals(list(7, 7, 9), told(rig.position, 3));
    }

    @Test
    void delayKeepsTheLastValueOfAChannelThatIsNotRead() {
        arm(Programs.entry(0, EntryKind.DELAY, rig.position, 1));
        rig.real(rig.position, 5);
        rig.tick();
        rig.leftOut[rig.position.index()] = true;
        rig.real(rig.position, 99);
        rig.tick();
        rig.leftOut[rig.position.index()] = false;
        rig.tick();
        assertEquals(5, rig.told(rig.position));
    }

    @Test
    void replayGoesOnInASafeStop() {
        arm(
                Programs.entry(0, EntryKind.REPLAY, rig.position, 0),
                new Point(0, 1, 10),
                new Point(0, 2, 20),
                new Point(0, 3, 30));
        rig.stop.asksUntilStopped = 3;
        rig.send(new LetGo());
        assertEquals(list(0, 10, 20, 30, 0), told(rig.position, 5));
    }

    @Test
    void pointsOfSeveralEntriesMayComeMixed() {
        arm(
                Programs.entry(0, EntryKind.REPLAY, rig.position, 0),
                Programs.follower(1, 0, EntryKind.REPLAY, rig.wide, 0, 0, 0),
                new Point(1, 0, 100),
                new Point(0, 1, 10),
                new Point(1, 1, 200),
                new Point(0, 2, 20));
        List<Integer> positions = new ArrayList<>();
        List<Integer> wides = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            rig.tick();
            positions.add(rig.told(rig.position));
            wides.add(rig.told(rig.wide));
        }
        assertEquals(list(0, 10, 20), positions);
        assertEquals(list(100, 200, 200), wides);
    }

    @Test
    void theGateGoesOnInASafeStop() {
        arm(Programs.entry(0, EntryKind.STUCK_AT, rig.position, 5), new Timing(0, 0, 0, 5000, 5000, 1, 1));
        rig.stop.asksUntilStopped = 3;
        rig.send(new LetGo());
        assertEquals(list(5, 0, 5, 0, 0), told(rig.position, 5));
    }

    @Test
    void behindItsGateAnEntryIsActiveButForcesNothing() {
        arm(Programs.entry(0, EntryKind.DROPOUT, rig.position, 0), new Timing(0, 0, 0, 5000, 5000, 1, 1));
        for (int i = 0; i < 4; i++) {
            rig.replies.clear();
            rig.tick();
            Record record = rig.all(Record.class).get(0);
            int open = i % 2 == 0 ? 1 : 0;
            int position = 1 << rig.position.index();
            assertEquals(1, record.active);
            assertEquals(open * position, record.forced);
            assertEquals(open * position, record.absent);
            assertEquals(open == 1 ? -999 : 0, rig.told(rig.position));
        }
    }

    @Test
    void aFollowerMayBeIntermittentByItself() {
        arm(
                Programs.entry(0, EntryKind.STUCK_AT, rig.position, 5),
                Programs.follower(1, 0, EntryKind.STUCK_AT, rig.current, 7, 0, 0),
                new Timing(1, 0, 0, 5000, 5000, 1, 1));
        for (int i = 0; i < 4; i++) {
            rig.tick();
            assertEquals(5, rig.told(rig.position));
            assertEquals(i % 2 == 0 ? 7 : 0, rig.told(rig.current));
        }
    }

    @Test
    void anActuatorIsGivenWhatIsWantedWhileTheGateIsClosed() {
        rig.real(rig.motor, -800);
        arm(Programs.entry(0, EntryKind.SCALE, rig.motor, 1 << 15), new Timing(0, 0, 0, 5000, 5000, 1, 1));
        assertEquals(list(-400, -800, -400), told(rig.motor, 3));
    }

    @Test
    void anActuatorIsNeverDrivenByItsRange() {
        arm(Programs.entry(0, EntryKind.STUCK_AT, rig.pump, 0));
        for (int wanted : new int[] {500, 1, 0, -1, -500}) {
            rig.real(rig.pump, wanted);
            rig.tick();
            assertEquals(Math.max(0, Math.min(wanted, rig.pump.lowest())), rig.told(rig.pump));
        }
    }

    @Test
    void anOverrideCanEndWhenToldAndRealHaveMet() {
        rig.real(rig.position, 0);
        arm(
                Programs.entry(0, EntryKind.FREEZE, rig.position, 0),
                Programs.when(0, rig.trigger, Comparison.RISES_TO, 1),
                Programs.term(0, TermRole.UNTIL, rig.position, Comparison.AGREES, 3));
        rig.tick();
        rig.real(rig.position, 50);
        rig.real(rig.trigger, 1);
        rig.tick();
        int before = rig.tick;
        for (int real : new int[] {60, 54, 46, 53, 53}) {
            rig.real(rig.position, real);
            rig.tick();
        }
        assertEquals(list(1), agesOf(before, EventKind.ENTRY_ON));
        // 54 and 46 are 4 away from 50, 53 is 3 away: the fourth tick settles it, the fifth is free.
        assertEquals(list(5), agesOf(before, EventKind.ENTRY_OFF));
        assertEquals(53, rig.told(rig.position));
    }

    private List<Integer> agesOf(int from, EventKind kind) {
        List<Integer> ages = new ArrayList<>();
        for (String event : rig.events(kind, from)) {
            ages.add(Integer.valueOf(event.split(":", -1)[0]));
        }
        return ages;
    }

    @Test
    void theFarthestReadingsDoNotAgree() {
        rig.real(rig.wide, Integer.MIN_VALUE);
        arm(
                Programs.entry(0, EntryKind.STUCK_AT, rig.wide, Integer.MAX_VALUE),
                Programs.term(0, TermRole.UNTIL, rig.wide, Comparison.AGREES, Integer.MAX_VALUE));
        rig.ticks(3);
        assertTrue(rig.events(EventKind.ENTRY_OFF, 0).isEmpty());
        rig.real(rig.wide, 0);
        rig.ticks(2);
        assertEquals(1, rig.events(EventKind.ENTRY_OFF, 0).size());
    }

    @Test
    void constantsDisturbancesInhibitionsAndCommandsAreForcedByPlainEntries() {
        rig.real(rig.gain, 12);
        arm(
                Programs.entry(0, EntryKind.SCALE, rig.gain, 2 << 16),
                Programs.entry(1, EntryKind.STUCK_AT, rig.jam, 1),
                Programs.entry(2, EntryKind.STUCK_AT, rig.fs2.inhibition(), 1),
                Programs.entry(3, EntryKind.STUCK_AT, rig.start, 3, Programs.FOREVER, Entry.ONE_TICK));
        rig.tick();
        assertEquals(24, rig.told(rig.gain));
        assertEquals(1, rig.told(rig.jam));
        assertEquals(0, rig.told(rig.fs1.inhibition()));
        assertEquals(1, rig.told(rig.fs2.inhibition()));
        assertEquals(3, rig.told(rig.start));
        rig.letGo();
        assertEquals(12, rig.told(rig.gain));
        assertEquals(0, rig.told(rig.jam));
        assertEquals(0, rig.told(rig.fs2.inhibition()));
    }
}
