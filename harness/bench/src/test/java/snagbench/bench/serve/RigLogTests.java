package snagbench.bench.serve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import snagbench.probe.VirtualRig;
import snagbench.wire.Arm;
import snagbench.wire.Do;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.EventKind;
import snagbench.wire.Keep;
import snagbench.wire.ProgramDigest;
import snagbench.wire.RequestBody;
import snagbench.wire.Watch;

/** What the shuttle does is in its own log, whether anybody listens or not. */
class RigLogTests {
    private static final Pattern LINE = Pattern.compile(" *\\d+\\.\\d{6} +\\d+ +\\d+  \\S.*");

    private final List<String> lines = new ArrayList<>();
    private final RigLog log = new RigLog(lines::add);

    /** Place of the first line from a place on that holds a text; fails where there is none. */
    private int find(String text, int from) {
        for (int i = from; i < lines.size(); i++) {
            if (lines.get(i).contains(text)) {
                return i;
            }
        }
        throw new AssertionError("no \"" + text + "\" after line " + from + " of:\n" + String.join("\n", lines));
    }

    private static void arm(WireHost host, RequestBody... program) {
        ProgramDigest digest = new ProgramDigest();
        for (RequestBody body : program) {
            host.done(body);
            digest.add(body);
        }
        host.done(new Arm(program.length, digest.value(), 0, new ProgramDigest().value(), 5));
    }

    @Test
    void showsThatAMachineWhoseHarnessIsGoneStopsThenLatchesAndOnlyThenDropsItsOverrides() {
        VirtualRig rig = log.around(Shuttle.create());
        WireHost host = WireHost.on(rig, 7);
        host.open();
        host.done(new Watch(1, 0, Shuttle.STEP, Shuttle.POSITION, Shuttle.CURRENT));
        host.keep();
        host.done(new Do(Do.RELEASE_LATCH, -1, 0));
        host.done(new Do(Do.COMMAND, Shuttle.READY, 1));
        host.keepUntil(() -> host.isInStep(1));
        host.keep();
        arm(
                host,
                new Entry(
                        0, EntryKind.STUCK_AT.code(), Shuttle.START_RUN, 1, 0, -1, -1, 0, Entry.ONE_TICK | Entry.STAGE),
                new Entry(1, EntryKind.STUCK_AT.code(), Shuttle.CURRENT, 3, 0, -1, 0, 0, 0));
        host.keepUntil(() -> host.hasSeen(EventKind.ENTRY_ON, 1));

        // Nobody says anything any more.
        long silent = rig.nowMicros();
        byte[] buffer = new byte[4096];
        while (rig.nowMicros() < silent + 8_000_000) {
            rig.runUntil(silent + 8_000_000);
            rig.receive(buffer);
        }

        int on = find(": entry 1 on", find("armed, entries 2, seed 5", 0));
        int ranOut = find(": lease ran out", on);
        int begun = find(": safe stop begun, lease", ranOut);
        int latched = find(": latched", begun);
        int done = find(": safe stop done, lease", latched);
        int off = find(": entry 1 off, released", done);
        assertEquals(off, find(": entry 1 off", on), "the override was dropped once, after the stop");
        assertEquals(ranOut, find("lease ran out", 0));
        assertTrue(find(": active entries: none", off) > off);
    }

    @Test
    void beginsWithItsColumnsAndHasATimeAndBytesInEveryLine() {
        VirtualRig rig = log.around(Shuttle.create());
        WireHost host = WireHost.on(rig, 7);
        host.open();
        assertEquals("     plant s  bytes in bytes out  what happened", lines.get(0));
        lines.stream().skip(1).forEach(line -> assertTrue(LINE.matcher(line).matches(), line));
        assertTrue(lines.get(1).startsWith("    0.050000 "), lines.get(1));
        assertTrue(lines.get(1).contains("boot 1, power on, build "), lines.get(1));
        assertTrue(lines.get(2).endsWith("session 7 opened"), lines.get(2));
    }

    @Test
    void tellsAnEventOnceHoweverOftenItIsSent() {
        VirtualRig rig = log.around(Shuttle.create());
        WireHost host = WireHost.on(rig, 7);
        host.open();
        for (int i = 0; i < 5; i++) {
            // As if no event had been seen: the rig sends them all again.
            host.done(new Keep(1000, 0));
            long until = rig.nowMicros() + 50_000;
            host.until(() -> rig.nowMicros() >= until);
        }
        assertTrue(host.all(snagbench.wire.Event.class).size() > 1, "it was sent more than once");
        assertEquals(
                1, lines.stream().filter(line -> line.contains("lease taken")).count());
    }

    @Test
    void changesNothingAboutTheRig() {
        VirtualRig logged = log.around(Shuttle.create());
        VirtualRig bare = Shuttle.create();
        byte[] here = new byte[512];
        byte[] there = new byte[512];
        while (bare.nowMicros() < 300_000) {
            logged.runUntil(300_000);
            bare.runUntil(300_000);
            assertEquals(bare.nowMicros(), logged.nowMicros());
            assertEquals(bare.receive(there), logged.receive(here));
            assertEquals(java.util.Arrays.toString(there), java.util.Arrays.toString(here));
        }
    }
}
