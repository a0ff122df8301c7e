package snagbench.bench.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.EntryEnd;
import snagbench.wire.EventKind;

/** What a script says strikes, acts and ends so on the rig: the whole way, from the file to the probe in the control code. */
class LanguageOnTheRigTests {
    private static final RigDescription RIG = Shuttle.description();
    private static final RigFile RIG_FILE = Shuttle.file();
    private static final String QUIET = "expect:\n  - never: { step: PARKING }\nend: 9 s after begin\n";

    /** The trace of a script, from arming on. */
    private static Trace run(FaultScript script, long seconds) throws Exception {
        VirtualLink link = Shuttle.link("standard");
        try (RigSession session =
                RigSession.open(link, SessionSettings.usual(1, 5000, () -> false), Optional.of(RIG))) {
            session.makeReady(RIG_FILE.ready().orElseThrow(), false);
            TraceRecorder recorder = session.arm(script, 1);
            long end = session.nowMicros() + seconds * 1_000_000;
            while (session.nowMicros() < end) {
                session.work(end);
            }
            session.endRecording();
            return recorder.trace();
        }
    }

    private static Trace run(String failSafe, String rest, long seconds) throws Exception {
        return run(Shuttle.script("a test", failSafe, rest), seconds);
    }

    private static List<Happening> of(Trace trace, EventKind kind, int a) {
        return trace.events().stream().filter(one -> one.is(kind, a)).toList();
    }

    private static int channel(String name) {
        return RIG.channel(name).orElseThrow().index();
    }

    @Test
    void strikesEveryTimeAsOftenAsItMay() throws Exception {
        String script = """
                inject:
                  - when: { step: DRAWING_BACK }
                    %s
                    channels: { reach.current: offset 0.1 A }
                    lasts: 50 ms
                """;

        Trace twice = run("FS-09", script.formatted("at-most-times: 2") + QUIET, 22);
        Trace always = run("FS-09", script.formatted("every-time: true") + QUIET, 22);
        Trace third = run("FS-09", script.formatted("count: 2") + QUIET, 22);

        assertEquals(2, of(twice, EventKind.ENTRY_ON, 2).size());
        assertTrue(of(always, EventKind.ENTRY_ON, 2).size() > 2);
        assertEquals(1, of(third, EventKind.ENTRY_ON, 2).size());
        assertEquals(
                of(always, EventKind.ENTRY_ON, 2).get(0).tick(),
                of(twice, EventKind.ENTRY_ON, 2).get(0).tick());
        assertTrue(of(third, EventKind.ENTRY_ON, 2).get(0).tick()
                > of(twice, EventKind.ENTRY_ON, 2).get(0).tick());
    }

    @Test
    void anInjectionWaitsForAnExpectationThatIsMetInTheVeryTickOfTheAnswer() throws Exception {
        FaultScript script = Shuttle.script("a test", "FS-02", """
                inject:
                  - name: blocked
                    when: { step: REACHING, reach.position: at least 150 mm }
                    channels: { reach.position: freeze, reach.current: stuck-at 4.2 A }
                    until: { failsafe: FS-02 }
                    lasts: 900 ms
                  - name: later
                    after: draws back
                    delay: 30 ms
                    channels: { reach.current: offset 1 A }
                    lasts: 50 ms
                expect:
                  - name: sees it
                    answered-by: FS-02
                    within: 500 ms
                  - name: draws back
                    becomes: { step: DRAWING_BACK }
                    within: 500 ms
                    after: sees it
                """);
        Trace trace = run(script, 4);

        int first = script.firstEntryOfInjection(0);
        int later = script.firstEntryOfInjection(1);
        Happening answer = of(trace, EventKind.ANSWERED, 2).get(0);
        Happening state = of(trace, EventKind.STATE, channel("step")).stream()
                .filter(one -> one.tick() >= answer.tick())
                .findFirst()
                .orElseThrow();
        assertEquals(answer.tick(), state.tick(), "the shuttle answers and draws back in one tick");
        Happening on = of(trace, EventKind.ENTRY_ON, later).get(0);
        assertEquals(2, first);
        assertEquals(6, later, "behind the two entries that wait");
        long after = on.micros() - state.micros();
        assertTrue(after >= 30_000 && after <= 30_000 + 3 * 5_300, "30 ms later, and two ticks: " + after);
    }

    @Test
    void anInjectionStrikesAtOnceAfterAnother() throws Exception {
        FaultScript script = Shuttle.script("a test", "FS-01", """
                inject:
                  - name: second
                    after: first
                    channels: { battery.voltage: scale 90 % }
                    lasts: 50 ms
                  - name: first
                    when: { step: REACHING, reach.position: rises to 150 mm }
                    channels: { reach.current: offset 0.1 A, reach.position: noise 0.5 mm }
                    lasts: 500 ms
                """ + QUIET);
        Trace trace = run(script, 3);

        Happening first =
                of(trace, EventKind.ENTRY_ON, script.firstEntryOfInjection(1)).get(0);
        Happening second =
                of(trace, EventKind.ENTRY_ON, script.firstEntryOfInjection(0)).get(0);
        assertEquals(first.tick() + 2, second.tick(), "looked at from the tick after the strike on, active one later");
    }

    @Test
    void letsGoWhenToldAndRealHaveMet() throws Exception {
        Trace trace = run("FS-01", """
                inject:
                  - when: { step: REACHING, reach.position: at least 150 mm }
                    channels: { reach.position: stuck-at 200 mm }
                    release: when-agrees within 2 mm
                    lasts: 2 s
                """ + QUIET, 3);

        Happening off = of(trace, EventKind.ENTRY_OFF, 2).get(0);
        assertEquals(EntryEnd.UNTIL.code(), off.b());
        int row = trace.rowAtOrAfter(off.tick() - 1);
        int gap = Math.abs(2000 - trace.real(row, channel("reach.position")));
        assertTrue(gap <= 20, "0.1 mm apart: " + gap);
        assertEquals(2000, trace.told(row, channel("reach.position")));
    }

    @Test
    void faultsOfAListActInOrder() throws Exception {
        Trace trace = run("FS-01", """
                inject:
                  - when: { step: REACHING, reach.position: at least 100 mm }
                    channels:
                      reach.position: [scale 0.5, offset 10 mm]
                      front.distance: [offset 10 mm, scale 0.5]
                    lasts: 100 ms
                """ + QUIET, 2);

        int on = of(trace, EventKind.ENTRY_ON, 2).get(0).tick();
        int row = trace.rowAtOrAfter(on + 3);
        int real = trace.real(row, channel("reach.position"));
        assertEquals(Math.floorDiv(real + 1, 2) + 100, trace.told(row, channel("reach.position")), "real " + real);
        int front = trace.real(row, channel("front.distance"));
        assertEquals(Math.floorDiv(front + 100 + 1, 2), trace.told(row, channel("front.distance")), "real " + front);
    }

    @Test
    void aFailSafeThatIsLeftOutFromArmingOnKeepsQuiet() throws Exception {
        String blocked = """
                inject:
                  - when: { step: REACHING, reach.position: at least 150 mm }
                    channels: { reach.position: freeze, reach.current: stuck-at 4.2 A }
                    lasts: 600 ms
                """ + QUIET;

        Trace with = run("FS-02", blocked, 3);
        Trace without = run("FS-02", "inhibit: FS-02\n" + blocked, 3);

        assertFalse(of(with, EventKind.ANSWERED, 2).isEmpty());
        assertTrue(of(without, EventKind.ANSWERED, 2).isEmpty());
        int inhibition = channel("inhibit FS-02");
        assertEquals(1, without.told(without.rows() - 1, inhibition));
    }

    @Test
    void aDriftClimbsWithTheRigsClock() throws Exception {
        Trace trace = run("FS-01", """
                inject:
                  - when: { step: REACHING, reach.position: at least 60 mm }
                    channels: { front.distance: drift -40 mm per s }
                    lasts: 500 ms
                """ + QUIET, 2);

        Happening on = of(trace, EventKind.ENTRY_ON, 2).get(0);
        int front = channel("front.distance");
        for (int row = trace.rowAtOrAfter(on.tick()); row < trace.rowAtOrAfter(on.tick() + 80); row++) {
            long elapsed = trace.micros(row) - on.micros();
            int added = trace.told(row, front) - trace.real(row, front);
            // 400 steps of 0.1 mm a second, downwards, and never slower than asked for.
            assertTrue(
                    added <= -(400 * elapsed / 1_000_000) && added >= -(400 * elapsed / 1_000_000) - 1,
                    () -> elapsed + " us: " + added);
        }
    }
}
