package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.term;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.CURRENT;
import static snagbench.bench.trace.SyntheticTrace.FS_01;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;
import static snagbench.bench.trace.SyntheticTrace.VOLTAGE;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Fault;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.EntryEnd;
import snagbench.wire.EventKind;
import snagbench.wire.StopReason;

/** When a script ends, what cuts it short, and what is silent in it. Ticks are 5 ms apart; settling takes 100 ms. */
class ScriptCourseTests {
    private static final int STRIKE = 40;

    private static SyntheticTrace struck(int ticks) {
        return new SyntheticTrace(ticks).told(POSITION, tick -> 1).on(STRIKE, 0);
    }

    private static SyntheticTrace brokenAt(int tick, SyntheticTrace trace) {
        return trace.real(VOLTAGE, at -> at == tick ? 700 : 1200);
    }

    private static Judgement whole(Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(100));
    }

    /** What became of the script's last expectation. */
    private static Finding judge(Scripts script, SyntheticTrace trace) {
        return whole(script, trace).findings().get(script.size() - 1);
    }

    private static Scripts limited(Scripts script) {
        return script.always(when(term(VOLTAGE, Relation.ABOVE, 700)));
    }

    private static Condition easy() {
        return when(term(CURRENT, Relation.BELOW, 100));
    }

    private static Stretch window(long least, long most) {
        return new Stretch(INJECTION, Optional.of(within(least, most)), Optional.empty());
    }

    /** 200 ms, a window of 250 ms, 100 ms for which it must hold, and settling: 650 ms, which is tick 130. */
    @ParameterizedTest
    @CsvSource({"130, FAIL", "131, PASS"})
    void theScriptLastsUntilWhatMustHoldForATimeCanHaveDoneSo(int broken, Verdict verdict) {
        Scripts stays = limited(new Scripts()
                .expect(at -> new Expectation.Stays(at, "stays", easy(), 100_000, within(250), INJECTION)));
        Scripts settles = limited(new Scripts()
                .expect(at -> new Expectation.Settles(
                        at, "settles", easy(), OptionalLong.of(100_000), within(250), INJECTION)));

        assertEquals(verdict, judge(stays, brokenAt(broken, struck(200))).verdict());
        assertEquals(verdict, judge(settles, brokenAt(broken, struck(200))).verdict());
    }

    /** 200 ms, a window of 600 ms and settling: 900 ms, which is tick 180. */
    @ParameterizedTest
    @CsvSource({"180, FAIL", "181, PASS"})
    void theScriptLastsUntilTheWindowsOfItsStretchesHaveClosed(int broken, Verdict verdict) {
        Scripts script =
                limited(new Scripts().expect(at -> new Expectation.Always(at, "easy", easy(), window(50, 600))));

        assertEquals(verdict, judge(script, brokenAt(broken, struck(200))).verdict());
    }

    /** It settles in tick 60, at 300 ms; what hangs on that has 500 ms; with settling that is tick 180. */
    @ParameterizedTest
    @CsvSource({"180, FAIL", "181, PASS"})
    void whatHangsOnASettlingToTheEndPutsOffTheEndOfTheOthers(int broken, Verdict verdict) {
        Scripts script = limited(new Scripts()
                .expect(at ->
                        new Expectation.Settles(at, "settles", easy(), OptionalLong.empty(), within(250), INJECTION))
                .becomes("draws back", when(step("DRAWING_BACK")), within(500), after(0, "settles")));
        SyntheticTrace trace =
                struck(200).real(CURRENT, tick -> tick < 60 ? 100 : 99).step(70, "DRAWING_BACK");

        assertEquals(verdict, judge(script, brokenAt(broken, trace)).verdict());
    }

    /** The script's end is in tick 110. */
    @ParameterizedTest
    @CsvSource({"110, INCONCLUSIVE", "111, PASS"})
    void whatSettlesToTheEndHasNotDoneSoBeforeTheEndWasSeen(int ticks, Verdict verdict) {
        Scripts script = new Scripts()
                .expect(at ->
                        new Expectation.Settles(at, "settles", easy(), OptionalLong.empty(), within(250), INJECTION));

        assertEquals(verdict, judge(script, struck(ticks)).verdict());
    }

    /** It struck between tick 39 and tick 45, and lasts 200 ms: the end is behind 495 ms for certain. */
    @ParameterizedTest
    @CsvSource({"99, FAIL", "100, INCONCLUSIVE"})
    void aScriptLastsAsLongAsItsInjectionsWhereverTheyStruck(int broken, Verdict verdict) {
        Scripts script =
                limited(new Scripts().inject(when(step("REACHING")), new Fault.Freeze(), OptionalLong.of(200_000)));
        SyntheticTrace trace = new SyntheticTrace(200)
                .told(POSITION, tick -> 1)
                .on(41, 0)
                .loseEvent(1)
                .loseTicks(40, 44);

        assertEquals(verdict, judge(script, brokenAt(broken, trace)).verdict());
    }

    /** The end is written as 500 ms behind a strike that was behind 195 ms; settling, of 1000 ms, would be later. */
    @ParameterizedTest
    @CsvSource({"139, FAIL", "140, INCONCLUSIVE"})
    void aWrittenEndIsNoEarlierThanWhatItIsCountedFromAllows(int broken, Verdict verdict) {
        Scripts script = limited(new Scripts()).end(500, INJECTION);
        SyntheticTrace trace = new SyntheticTrace(200)
                .told(POSITION, tick -> 1)
                .on(41, 0)
                .loseEvent(1)
                .loseTicks(40, 44);

        Judgement judgement =
                Judge.judge(script.script(), brokenAt(broken, trace).trace(), Scripts.rig(1000));

        assertEquals(verdict, judgement.findings().get(0).verdict());
    }

    /** The first struck at 200 ms; when the second did is not known, so that the end is at 300 ms at the earliest. */
    @ParameterizedTest
    @CsvSource({"60, FAIL", "61, INCONCLUSIVE"})
    void aScriptLastsAtLeastAsLongAsWhatIsKnownOfItAsks(int broken, Verdict verdict) {
        Scripts script = limited(new Scripts()
                .inject(when(step("REACHING")), new Fault.Freeze())
                .inject(when(step("REACHING")), new Fault.Freeze()));
        SyntheticTrace trace =
                struck(200).on(101, 1).off(103, 1, EntryEnd.LASTED).loseEvent(2).loseTicks(100, 104);

        assertEquals(verdict, judge(script, brokenAt(broken, trace)).verdict());
    }

    /** The event that tells that the first stage was done is lost; that the second timed out is not. */
    @Test
    void theStageThatTimedOutIsTheOneThatIsTold() {
        Scripts script = new Scripts().waitFor(when(step("REACHING")), 500).waitFor(when(step("DRAWING_BACK")), 700);
        SyntheticTrace trace =
                new SyntheticTrace(200).stageDone(20, 0).stageTimedOut(160, 1).loseEvent(1);

        Finding finding = whole(script, trace).findings().get(0);

        assertEquals("""
                expected: step DRAWING_BACK within 700 ms
                but was: step READY at +800.0 ms from arming
                script: reach-blocked.fault.yaml:7
                trace: tick 160""", text(finding));
    }

    @Test
    void aBeginningThatWasNotDoneWhenTheTraceEndsIsTold() {
        Scripts script = new Scripts().waitFor(when(step("READY")), 500).waitFor(when(step("DRAWING_BACK")), 2000);

        Finding finding = whole(script, new SyntheticTrace(200).stageDone(20, 0))
                .findings()
                .get(0);

        assertEquals("""
                expected: step DRAWING_BACK within 2000 ms
                but was: step READY when the trace ends
                script: reach-blocked.fault.yaml:7
                trace: tick 199""", text(finding));
        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
    }

    @Test
    void aStageThatSendsSomethingIsToldByItsNumber() {
        Scripts script = new Scripts().waitFor(when(step("READY")), 500).send(POSITION, 10);

        Finding finding = whole(script, new SyntheticTrace(200).stageDone(20, 0))
                .findings()
                .get(0);

        assertEquals("""
                expected: stage 2 of the beginning is done
                but was: it was not seen to be
                script: reach-blocked.fault.yaml:6""", text(finding));
    }

    @ParameterizedTest
    @CsvSource({"-1", "1"})
    void aStageThatTheScriptDoesNotHaveIsNotTold(int stage) {
        Scripts script = new Scripts().waitFor(when(step("REACHING")), 500);

        Judgement judgement = whole(script, new SyntheticTrace(200).stageTimedOut(100, stage));

        assertEquals(
                List.of(),
                judgement.findings().stream()
                        .map(Finding::name)
                        .filter("the beginning"::equals)
                        .toList());
    }

    @Test
    void aGuardsStopIsToldOnceAndByItsGuardWhereThatIsKnown() {
        Judgement named = whole(new Scripts(), struck(200).guard(100, 0, 4100));
        Judgement unnamed = whole(new Scripts(), struck(200).stop(100, StopReason.GUARD));

        assertEquals(
                List.of("guard reach travel tripped: reach.position was really 410.0 mm, at +500.0 ms from arming;"
                        + " the rig stopped"),
                named.reasons());
        assertEquals(List.of("a guard tripped, at +500.0 ms from arming; the rig stopped"), unnamed.reasons());
        assertEquals(Verdict.ERROR, unnamed.verdict());
    }

    @Test
    void aGuardThatTheRigFileDoesNotHaveIsToldByItsNumber() {
        assertEquals(
                List.of("guard 1 tripped, at +500.0 ms from arming; the rig stopped"),
                whole(new Scripts(), struck(200).guard(100, 1, 4100)).reasons());
    }

    /** A stop is told twice: when it begins, with 0 as its second value, and when it is done, with 1. */
    @ParameterizedTest
    @CsvSource({"LEASE", "GUARD"})
    void aStopThatIsDoneIsNotASecondOne(StopReason reason) {
        Judgement judgement = whole(new Scripts(), struck(200).event(100, EventKind.STOP, reason.code(), 1));

        assertEquals(List.of(), judgement.reasons());
    }

    @Test
    void aReportIsTimedFromTheStrikeAndFromArmingWhereNoneWasSeen() {
        Scripts script = new Scripts().mustNotFire(FS_01);

        Finding finding = judge(script, struck(200).answered(60, 1));
        Finding without = judge(script, new SyntheticTrace(200).answered(20, 1));

        assertEquals("FS-01 silent to the script's end", text(finding, "expected"));
        assertEquals("FS-01 answered at +100.0 ms from the injection", text(finding, "but was"));
        assertEquals("FS-01 answered at +100.0 ms from arming", text(without, "but was"));
    }

    /** When it struck is not known, and so is when the script ended. */
    @Test
    void ofReportsThatMayLieBehindTheScriptsEndTheFirstIsTold() {
        SyntheticTrace trace = new SyntheticTrace(200)
                .told(POSITION, tick -> 1)
                .on(41, 0)
                .answered(150, 1)
                .answered(160, 1)
                .loseEvent(1)
                .loseTicks(40, 44);

        Finding finding = judge(new Scripts().mustNotFire(FS_01), trace);

        assertEquals(Verdict.INCONCLUSIVE, finding.verdict());
        assertEquals("FS-01 answered at +750.0 ms from arming", text(finding, "but was"));
        assertEquals("it is not known whether that was before the script's end", text(finding, "note"));
        assertEquals("tick 150", text(finding, "trace"));
    }

    private static Scripts silent(long least, long most) {
        return new Scripts()
                .expect(at -> new Expectation.MustNotFire(at, "quiet", FS_01, Optional.of(window(least, most))));
    }

    /** The window is from tick 50 to tick 60; what was reported before it does not count. */
    @Test
    void onlyItsOwnReportsWithinTheWindowTellHowFarItsEdgesWouldHaveToMove() {
        SyntheticTrace trace =
                struck(200).answered(45, 1).answered(52, 2).answered(58, 1).answered(70, 1);

        assertEquals(OptionalLong.of(-10_000), judge(silent(50, 100), trace).marginMicros());
    }

    @ParameterizedTest
    @CsvSource({"49, PASS", "50, INCONCLUSIVE", "60, INCONCLUSIVE", "61, PASS", "62, PASS"})
    void onlyWhatIsMissingWithinTheWindowLeavesItsSilenceOpen(int lost, Verdict verdict) {
        Finding finding = judge(silent(50, 100), struck(200).answered(lost, 2).loseEvent(2));

        assertEquals(verdict, finding.verdict());
        if (verdict == Verdict.INCONCLUSIVE) {
            assertEquals("not known: events of tick " + lost + " may be missing", text(finding, "but was"));
            assertEquals("tick 60", text(finding, "trace"));
        }
    }

    @Test
    void aWindowOfOneTickIsJudged() {
        assertEquals(Verdict.PASS, judge(silent(55, 55), struck(200)).verdict());
        assertEquals(
                Verdict.FAIL, judge(silent(55, 55), struck(200).answered(51, 1)).verdict());
    }

    @Test
    void theResponseMayBeginAndEndInTheTickOfTheReport() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("draws back", when(step("DRAWING_BACK")), within(50), after(0, "sees it"));

        Split split = whole(script, struck(200).answered(60, 2).step(60, "DRAWING_BACK"))
                .split();

        assertEquals(Optional.of(new Reached(60, 300_000, 100_000)), split.detected());
        assertEquals(Optional.of(new Reached(60, 300_000, 100_000)), split.begun());
        assertEquals(Optional.of(new Reached(60, 300_000, 100_000)), split.recovered());
    }

    @Test
    void aReportInTheTickOfTheStrikeDetectsItAtOnce() {
        Scripts script = new Scripts().answeredBy("sees it", FS_02, within(250), INJECTION);

        assertEquals(
                Optional.of(new Reached(40, 200_000, 0)),
                whole(script, struck(200).answered(40, 2)).split().detected());
    }

    /** A later report is no state, and so is no recovery. */
    @Test
    void theRecoveryIsTheLatestStateAndNoReport() {
        Scripts script = new Scripts()
                .answeredBy("sees it", FS_02, within(250), INJECTION)
                .becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION)
                .answeredBy("and then", FS_01, within(250), INJECTION);

        assertEquals(
                Optional.of(new Reached(70, 350_000, 150_000)),
                whole(
                                script,
                                struck(200)
                                        .answered(60, 2)
                                        .step(70, "DRAWING_BACK")
                                        .answered(80, 1))
                        .split()
                        .recovered());
    }

    @Test
    void whatStaysOrSettlesIsARecoveryTooFromTheTickInWhichItBegan() {
        Scripts stays =
                new Scripts().expect(at -> new Expectation.Stays(at, "stays", easy(), 100_000, within(250), INJECTION));
        Scripts settles = new Scripts()
                .expect(at -> new Expectation.Settles(
                        at, "settles", easy(), OptionalLong.of(100_000), within(250), INJECTION));
        Optional<Reached> inTick75 = Optional.of(new Reached(75, 375_000, 175_000));

        for (Scripts script : List.of(stays, settles)) {
            assertEquals(
                    inTick75,
                    whole(script, struck(200).real(CURRENT, tick -> tick < 75 ? 100 : 99))
                            .split()
                            .recovered());
        }
    }

    /** The script is evidence for FS-01, and asks for the report of another one, or only for its silence. */
    @Test
    void aFailSafeThatIsNotAskedForMustStillBeSeenToAnswer() {
        Scripts answered = new Scripts().failSafe(FS_01).answeredBy("sees it", FS_02, within(250), INJECTION);
        Scripts silent = new Scripts()
                .failSafe(FS_01)
                .mustNotFire(FS_02)
                .becomes("draws back", when(step("DRAWING_BACK")), within(250), INJECTION);
        String why = "recovery was reached by another road: FS-01 was not seen to answer";

        assertEquals(List.of(why), whole(answered, struck(200).answered(60, 2)).reasons());
        assertEquals(
                List.of(why),
                whole(silent, struck(200).step(60, "DRAWING_BACK")).reasons());
        assertEquals(
                List.of(),
                whole(answered, struck(200).answered(40, 1).answered(60, 2)).reasons());
    }

    private static String text(Finding finding) {
        return finding.facts().stream()
                .map(fact -> fact.label() + ": " + fact.text())
                .collect(Collectors.joining("\n"));
    }

    private static String text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .collect(Collectors.joining("; "));
    }
}
