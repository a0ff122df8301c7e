package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.link.PassingLink;
import snagbench.bench.script.FaultScript;
import snagbench.bench.session.Shuttle;

/** Same seed, same run: the journal's lines are the same, byte for byte. */
class SameSeedTests {
    private static final List<FaultScript> ALL = List.of(
            Shuttle.script("reach-blocked-midway"),
            Shuttle.script("reach-current-offset"),
            Shuttle.script("current-spike-too-short"),
            Shuttle.script("grip-not-there-yet"),
            Shuttle.script("obstacle-in-the-way"));

    private static List<String> lines(Runs runs) throws Exception {
        runs.run();
        return runs.resultLines();
    }

    private static Runs all(String build, int seed) {
        return Runs.on(build).of(seed, ALL.toArray(FaultScript[]::new));
    }

    @ParameterizedTest
    @ValueSource(strings = {"standard", "without-FS-02", "weak-battery"})
    void twoRunsWithTheSameSeedWriteTheSameLines(String build) throws Exception {
        List<String> first = lines(all(build, 5));

        assertEquals(ALL.size(), first.size());
        assertEquals(first, lines(all(build, 5)));
    }

    @Test
    void anotherSeedIsAnotherRun() throws Exception {
        List<String> first = lines(all("standard", 5));
        List<String> other = lines(all("standard", 6));

        for (int i = 0; i < first.size(); i++) {
            assertNotEquals(first.get(i), other.get(i).replace("\"seed\":6", "\"seed\":5"));
        }
    }

    @Test
    void whateverRanBeforeAScriptRunsAsItDoesAlone() throws Exception {
        List<String> inOrder = lines(all("standard", 5));
        List<String> alone = new ArrayList<>();
        for (FaultScript script : ALL) {
            alone.addAll(lines(Runs.on("standard").of(5, script)));
        }
        List<FaultScript> turned = new ArrayList<>(ALL);
        java.util.Collections.reverse(turned);
        List<String> backwards = new ArrayList<>(lines(Runs.on("standard").of(5, turned.toArray(FaultScript[]::new))));
        java.util.Collections.reverse(backwards);

        assertEquals(withoutIndex(inOrder), withoutIndex(alone));
        assertEquals(withoutIndex(inOrder), withoutIndex(backwards));
    }

    private static List<String> withoutIndex(List<String> lines) {
        return lines.stream()
                .map(line -> line.replaceFirst("\"index\":\\d+,", "").replaceFirst("traces/\\d+-", "traces/"))
                .toList();
    }

    @Test
    void aGuardThatTrippedBeforeLeavesNothingBehind() throws Exception {
        FaultScript stall = Shuttle.script("stalled for good", "FS-02", """
                inject:
                  - name: wall
                    when: { step: REACHING, reach.position: at least 40 mm }
                    channels:
                      obstacle.position: stuck-at 220 mm
                    lasts: 10 s
                expect:
                  - name: gives up
                    becomes: { step: GIVEN_UP }
                    within: 8 s
                """);
        List<String> after = lines(Runs.on("without-FS-02").of(5, stall, ALL.get(1)));
        List<String> alone = lines(Runs.on("without-FS-02").of(5, ALL.get(1)));

        assertEquals(true, after.get(0).contains("guard reach stall tripped"), after.get(0));
        assertEquals(withoutIndex(alone).get(0), withoutIndex(after).get(1));
    }

    /** Waits in slices of its own, or gathers all that comes until the harness's time is up. */
    private record Cut(Link line, long sliceMicros, boolean gathers) implements PassingLink {
        @Override
        public int receive(byte[] into, long untilMicros) throws LinkException {
            if (!gathers) {
                return line.receive(into, Math.min(untilMicros, line.nowMicros() + sliceMicros));
            }
            long until = Math.min(untilMicros, line.nowMicros() + sliceMicros);
            int taken = 0;
            while (line.nowMicros() < until && taken < into.length / 2) {
                byte[] some = new byte[into.length / 2];
                int bytes = line.receive(some, until);
                System.arraycopy(some, 0, into, taken, bytes);
                taken += bytes;
            }
            return taken > 0 ? taken : line.receive(into, Math.min(untilMicros, line.nowMicros()));
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {170, 1_000, 7_777, 100_000})
    void howTheWaitingIsCutChangesNothing(long sliceMicros) throws Exception {
        List<String> usual = lines(all("standard", 5));

        assertEquals(usual, lines(all("standard", 5).over(line -> new Cut(line, sliceMicros, false))));
    }

    @ParameterizedTest
    @ValueSource(longs = {20_000, 60_000})
    void aHarnessThatListensSeldomSeesTheSame(long sliceMicros) throws Exception {
        List<String> usual = lines(all("standard", 5));

        assertEquals(usual, lines(all("standard", 5).over(line -> new Cut(line, sliceMicros, true))));
    }
}
