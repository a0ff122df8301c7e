package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import snagbench.bench.evidence.ClaimOutcome.Standing;
import snagbench.bench.evidence.Repeats;
import snagbench.bench.judge.Verdict;
import snagbench.bench.link.Link;
import snagbench.bench.script.Between;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Claim;
import snagbench.bench.script.Condition;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Place;
import snagbench.bench.script.Source;
import snagbench.bench.session.Shuttle;

/** Repeats on the virtual shuttle: what they show together, when they stop, and what holds between them. */
class RepeatedRunTests {
    private static final Claim NINETY = new Claim(0.9, 0.9, 0);

    /** Friction and charge differ with the seed, and so does the time until the arm reaches again: seed 4 is the first beyond 1180 ms. */
    private static FaultScript tight() throws IOException {
        return Shuttle.script("tight", "FS-02", """
                inject:
                  - when: { step: REACHING, reach.position: at least 180 mm }
                    channels:
                      reach.position: freeze
                      reach.current: stuck-at 4.2 A
                    until: { failsafe: FS-02 }
                    lasts: 900 ms
                expect:
                  - name: sees it
                    answered-by: FS-02
                    within: 250 ms
                  - name: tries again
                    becomes: { step: REACHING }
                    within: 1180 ms
                    after: sees it
                """);
    }

    private static ClaimedScript claimed(FaultScript script, Claim claim, int runs) {
        return new ClaimedScript(script.place(), claim, runs);
    }

    private static Conclusion only(RunRecord run) {
        List<Conclusion> rows = Conclusions.of(run).rows();
        assertEquals(1, rows.size(), rows::toString);
        return rows.get(0);
    }

    @Test
    void twentyTwoPassesMeetTheClaim() throws Exception {
        FaultScript script = Shuttle.script("reach-blocked-midway");
        RunRecord run = Runs.on("standard")
                .repeated(script, 22)
                .claiming(claimed(script, NINETY, 22))
                .run();

        Conclusion row = only(run);
        Repeats repeats = row.repeats().orElseThrow();
        assertEquals(Standing.MET, repeats.claim().orElseThrow().standing());
        assertEquals(Verdict.PASS, row.verdict());
        assertEquals(22, repeats.recovery().orElseThrow().bound().orElseThrow().rank());
        assertEquals(
                run.results().stream()
                        .mapToLong(one -> one.judgement().recoveryMicros().orElseThrow())
                        .max()
                        .orElseThrow(),
                repeats.recovery().orElseThrow().worstMicros());
        assertEquals(List.of(), repeats.warnings(), "seeds make the runs differ");
    }

    @Test
    void theRestIsNotRunOnceTheClaimCannotBeMetAnyMoreAndTheNextScriptIs() throws Exception {
        FaultScript script = tight();
        FaultScript next = Shuttle.script("reach-stopped-short-in-the-rack-zone");
        RunRecord run = Runs.on("standard")
                .repeated(script, 22)
                .of(1, next)
                .claiming(claimed(script, NINETY, 22))
                .run();

        List<Verdict> verdicts =
                run.results().stream().map(one -> one.judgement().verdict()).toList();
        assertEquals(List.of(Verdict.PASS, Verdict.PASS, Verdict.PASS, Verdict.FAIL), verdicts.subList(0, 4));
        assertTrue(verdicts.subList(4, 22).stream().allMatch(Verdict.NONE::equals), verdicts::toString);
        assertEquals(Verdict.PASS, verdicts.get(22));
        assertEquals(
                List.of(
                        "not run: claim cannot be met any more: 90 % reliability at 90 % confidence (3 of 4 passed, and all 22"
                                + " had to)"),
                run.results().get(4).judgement().reasons());
        assertEquals(RunEnd.complete(), run.end().orElseThrow());

        Conclusion row = Conclusions.of(run).rows().get(0);
        assertEquals(Verdict.FAIL, row.verdict());
        assertTrue(row.inconsistent());
        assertEquals(22, row.runs().size());
        Repeats repeats = row.repeats().orElseThrow();
        assertEquals(Standing.OUT_OF_REACH, repeats.claim().orElseThrow().standing());
        assertEquals(4, repeats.runs());
        assertEquals(Optional.empty(), Conclusions.of(run).rows().get(1).repeats());
    }

    @Test
    void aFailureThatIsAllowedDoesNotStopThem() throws Exception {
        FaultScript script = tight();
        RunRecord run = Runs.on("standard")
                .repeated(script, 5)
                .claiming(claimed(script, new Claim(0.2, 0.6, 1), 5))
                .run();

        Repeats repeats = only(run).repeats().orElseThrow();
        assertEquals(5, repeats.runs());
        assertTrue(only(run).inconsistent());
        assertEquals(Standing.MET, repeats.claim().orElseThrow().standing());
        assertEquals(Verdict.FAIL, only(run).verdict(), "what failed is never averaged away");
    }

    @Test
    void withoutAClaimAllAreRunWhateverTheyComeTo() throws Exception {
        RunRecord run = Runs.on("standard").repeated(tight(), 6).run();
        Repeats repeats = only(run).repeats().orElseThrow();
        assertEquals(6, repeats.runs());
        assertEquals(Optional.empty(), repeats.claim());
        assertTrue(only(run).inconsistent());
    }

    @Test
    void whatWasClaimedStandsInTheJournal() throws Exception {
        FaultScript script = tight();
        ClaimedScript claimed = claimed(script, new Claim(0.95, 0.995, 3), 4);
        RunRecord run = Runs.on("standard")
                .of(1, script)
                .claiming(claimed)
                .with(resting(1_500_000))
                .run();
        assertEquals(List.of(claimed), run.header().claims());
        assertEquals(1_500_000, run.header().restMicros());
    }

    private static Between resting(long micros) {
        return new Between(micros, Optional.empty(), Between.USUAL_GIVE_UP_MICROS);
    }

    /** Notes the line's clock at the beginning and end of each run. */
    private static final class Stopwatch implements RunListener {
        private final AtomicReference<Optional<Link>> line = new AtomicReference<>(Optional.empty());
        private final List<Long> started = new ArrayList<>();
        private final List<Long> ended = new ArrayList<>();
        private final List<String> waits = new ArrayList<>();

        Link watched(Link link) {
            line.set(Optional.of(link));
            return link;
        }

        private long now() {
            return line.get().orElseThrow().nowMicros();
        }

        @Override
        public void started(int index, PlannedRun run) {
            started.add(now());
        }

        @Override
        public void waits(int index, String why) {
            waits.add(index + " " + why);
        }

        @Override
        public void progressed(int index, long rigMicros) {
            // only the ends count
        }

        @Override
        public void ended(ScriptResult result) {
            ended.add(now());
        }
    }

    @Test
    void theRigRestsBetweenTwoRunsAndNotBeforeTheFirst() throws Exception {
        FaultScript script = Shuttle.script("reach-stopped-short-in-the-rack-zone");
        Stopwatch watch = new Stopwatch();
        RunRecord run = Runs.on("standard")
                .repeated(script, 3)
                .with(resting(20_000_000))
                .over(watch::watched)
                .run(watch);

        assertEquals(3, run.results().size());
        assertEquals(List.of("1 the rig rests for 20 s", "2 the rig rests for 20 s"), watch.waits);
        assertTrue(watch.started.get(0) < 20_000_000, watch.started::toString);
        for (int i = 1; i < 3; i++) {
            long rested = watch.started.get(i) - watch.ended.get(i - 1);
            assertTrue(rested >= 20_000_000 && rested < 35_000_000, "rested " + rested + " us before run " + i);
        }
    }

    private static Condition voltageAtLeast(String channelName, int raw) {
        ChannelDescription channel = Shuttle.description().channels().stream()
                .filter(one -> one.name().equals(channelName))
                .findFirst()
                .orElseThrow();
        Place place = new Place(java.nio.file.Path.of("a-test.plan.yaml"), 1, 1);
        return new Condition(
                place, List.of(new Condition.Compares(place, channel, Source.REAL, Condition.Relation.AT_LEAST, raw)));
    }

    @Test
    void aRigThatNeverReadsWhatIsWantedEndsThePlanWithTheReason() throws Exception {
        Stopwatch watch = new Stopwatch();
        Condition never = voltageAtLeast("battery.voltage", Integer.MAX_VALUE);
        RunRecord run = Runs.on("standard")
                .repeated(tight(), 2)
                .with(new Between(0, Optional.of(never), 3_000_000))
                .over(watch::watched)
                .run(watch);

        assertEquals(List.of(), run.results());
        assertEquals(2, run.notRun().size());
        RunEnd end = run.end().orElseThrow();
        assertEquals(RunEnd.Cause.RIG, end.cause());
        assertTrue(end.reason().startsWith("the plan starts only if battery.voltage at least "), end.reason());
        assertTrue(end.reason().contains("did not come about in 3 s (battery.voltage was 1"), end.reason());
        assertTrue(watch.now() >= 3_000_000 && watch.now() < 10_000_000, "waited until " + watch.now());
    }

    @Test
    void aRigThatReadsWhatIsWantedStartsAtOnceAndRunsTheSame() throws Exception {
        FaultScript script = Shuttle.script("reach-stopped-short-in-the-rack-zone");
        List<String> plain = resultsOf(Runs.on("standard").of(7, script));
        List<String> conditional = resultsOf(Runs.on("standard")
                .of(7, script)
                .with(new Between(0, Optional.of(voltageAtLeast("battery.voltage", 1)), 3_000_000)));
        assertEquals(plain, conditional);
    }

    private static List<String> resultsOf(Runs runs) throws Exception {
        runs.run();
        return runs.resultLines();
    }

    @Test
    void theUserStopsARestAsWell() throws Exception {
        FaultScript script = Shuttle.script("reach-stopped-short-in-the-rack-zone");
        AtomicBoolean wanted = new AtomicBoolean();
        RunListener impatient = new RunListener() {
            @Override
            public void started(int index, PlannedRun run) {
                // patient still
            }

            @Override
            public void waits(int index, String why) {
                wanted.set(true);
            }

            @Override
            public void progressed(int index, long rigMicros) {
                // patient still
            }

            @Override
            public void ended(ScriptResult result) {
                // patient still
            }
        };
        RunRecord run = Runs.on("standard")
                .repeated(script, 2)
                .with(resting(3_600_000_000L))
                .until(wanted::get)
                .run(impatient);
        assertEquals(1, run.results().size());
        assertEquals(RunEnd.Cause.CANCELLED, run.end().orElseThrow().cause());
    }
}
