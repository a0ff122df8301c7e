package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static snagbench.bench.judge.Scripts.INJECTION;
import static snagbench.bench.judge.Scripts.after;
import static snagbench.bench.judge.Scripts.step;
import static snagbench.bench.judge.Scripts.when;
import static snagbench.bench.judge.Scripts.within;
import static snagbench.bench.trace.SyntheticTrace.FS_01;
import static snagbench.bench.trace.SyntheticTrace.FS_02;
import static snagbench.bench.trace.SyntheticTrace.POSITION;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Stretch;
import snagbench.bench.trace.SyntheticTrace;

/** How often something came about in a stretch: what is asked, what is found, and how it reads. The fault strikes in tick 40. */
class CountTests {
    private static final Stretch WINDOW = new Stretch(INJECTION, Optional.of(within(50, 100)), Optional.empty());

    private static SyntheticTrace struck() {
        return new SyntheticTrace(200)
                .step(20, "REACHING")
                .told(POSITION, tick -> 1)
                .on(40, 0);
    }

    private static Scripts answers(int least, OptionalInt most, Stretch stretch) {
        return new Scripts()
                .expect(at -> new Expectation.Times(
                        at, "counted", when(new Condition.Answers(at, FS_02)), least, most, stretch));
    }

    private static Finding judge(Scripts script, SyntheticTrace trace) {
        return Judge.judge(script.script(), trace.trace(), Scripts.rig(100))
                .findings()
                .get(script.size() - 1);
    }

    private static String fact(Finding finding, String label) {
        return finding.facts().stream()
                .filter(one -> one.label().equals(label))
                .map(Fact::text)
                .findFirst()
                .orElse("");
    }

    @ParameterizedTest
    @CsvSource({
        "1, , FS-02 answers at least 1 times", "0, 2, FS-02 answers at most 2 times",
                "1, 3, FS-02 answers 1 to 3 times",
        "1, 1, FS-02 answers 1 time", "2, 2, FS-02 answers 2 times", "0, 0, FS-02 answers 0 times"
    })
    void whatIsAskedReadsAsItWasMeant(int least, Integer most, String words) {
        OptionalInt mostOrNone = most == null ? OptionalInt.empty() : OptionalInt.of(most);
        String expected = fact(judge(answers(least, mostOrNone, WINDOW), struck()), "expected");

        assertEquals(words, expected.substring(0, words.length()));
    }

    /** The window's ticks are 50 to 60, both included. */
    @ParameterizedTest
    @CsvSource({
        "0, once, FAIL, -1",
        "49, 0 times, FAIL, -1",
        "50, once, PASS, 0",
        "60, once, PASS, 0",
        "61, 0 times, FAIL, -1"
    })
    void bothEdgesOfAWindowBelongToIt(int tick, String words, Verdict verdict, int times) {
        SyntheticTrace trace = tick == 0 ? struck() : struck().answered(tick, 2);
        Finding finding = judge(answers(1, OptionalInt.of(1), WINDOW), trace);

        assertEquals(verdict, finding.verdict());
        if (tick > 0) {
            assertEquals(words, fact(finding, verdict == Verdict.PASS ? "reached" : "but was"));
        }
        assertEquals(times, finding.marginValue().orElseThrow().steps());
    }

    @ParameterizedTest
    @CsvSource({"0, FAIL, -2", "1, FAIL, -1", "2, PASS, 0", "3, PASS, 1", "4, PASS, 0", "5, FAIL, -1"})
    void theMarginIsHowManyMoreOrFewerItMayBe(int answers, Verdict verdict, int times) {
        SyntheticTrace trace = struck();
        for (int i = 0; i < answers; i++) {
            trace.answered(51 + i, 2);
        }
        Finding finding = judge(answers(2, OptionalInt.of(4), WINDOW), trace);

        assertEquals(verdict, finding.verdict());
        assertEquals(times, finding.marginValue().orElseThrow().steps());
    }

    /** Events: the step, the strike, and three answers, of which the second is lost. Each carries how often there was one. */
    @Test
    void aLostReportBetweenTwoThatWereSeenIsCountedAllTheSame() {
        SyntheticTrace trace = struck().answered(51, 2)
                .answered(53, 2)
                .answered(55, 2)
                .loseTicks(52, 54)
                .loseEvent(4);

        assertEquals(
                Verdict.FAIL,
                judge(answers(0, OptionalInt.of(2), WINDOW), trace).verdict());
        assertEquals(
                Verdict.PASS,
                judge(answers(3, OptionalInt.empty(), WINDOW), trace).verdict());
        Finding open = judge(answers(3, OptionalInt.of(3), WINDOW), trace);
        assertEquals(Verdict.INCONCLUSIVE, open.verdict());
        assertEquals(
                "not known, at least 3 times: events of ticks 52 to 55 may be missing; records of ticks 52 to 54 are missing",
                sorted(fact(open, "but was")));
    }

    /** The parts of it behind the colon in alphabetical order: which is told first is of no matter. */
    private static String sorted(String text) {
        int colon = text.indexOf(": ");
        List<String> parts =
                List.of(text.substring(colon + 2).split(", ")).stream().sorted().toList();
        return text.substring(0, colon + 2) + String.join("; ", parts);
    }

    /** From the fault up to the answer of FS-01, which comes in tick 60. */
    private static Finding upToTheOther(SyntheticTrace trace) {
        Scripts script = new Scripts().answeredBy("gives up", FS_01, within(500), INJECTION);
        script.expect(at -> new Expectation.Times(
                at,
                "counted",
                when(new Condition.Answers(at, FS_02)),
                1,
                OptionalInt.of(1),
                new Stretch(INJECTION, Optional.empty(), Optional.of(after(0, "gives up")))));
        return judge(script, trace);
    }

    @Test
    void aReportInTheTickOfTheEndCountsIfItCameBeforeTheEvent() {
        assertEquals(
                Verdict.PASS,
                upToTheOther(struck().answered(60, 2).answered(60, 1)).verdict());
        assertEquals(
                Verdict.FAIL,
                upToTheOther(struck().answered(60, 1).answered(60, 2)).verdict());
        assertEquals(
                Verdict.FAIL,
                upToTheOther(struck().answered(60, 1).answered(61, 2)).verdict());
    }

    /** REACHING is there when the fault strikes, which is no coming about. */
    @ParameterizedTest
    @CsvSource({"1, 1, FAIL", "0, 0, PASS"})
    void aStateThatIsThereAlreadyHasNotComeAbout(int least, int most, Verdict verdict) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Times(
                        at, "counted", when(step("REACHING")), least, OptionalInt.of(most), WINDOW));

        assertEquals(verdict, judge(script, struck()).verdict());
    }

    @ParameterizedTest
    @CsvSource({"49, 0", "50, 1", "60, 1", "61, 0"})
    void aStateCountsInTheTickInWhichItIsEntered(int tick, int times) {
        Scripts script = new Scripts()
                .expect(at -> new Expectation.Times(
                        at, "counted", when(step("DRAWING_BACK")), times, OptionalInt.of(times), WINDOW));

        assertEquals(
                Verdict.PASS, judge(script, struck().step(tick, "DRAWING_BACK")).verdict());
    }

    @Test
    void whereTheTraceEndsBeforeTheWindowOnlyAMostThatIsPassedIsCertain() {
        SyntheticTrace cut = new SyntheticTrace(56)
                .step(20, "REACHING")
                .told(POSITION, tick -> 1)
                .on(40, 0)
                .answered(52, 2)
                .answered(54, 2);

        assertEquals(
                Verdict.FAIL, judge(answers(0, OptionalInt.of(1), WINDOW), cut).verdict());
        assertEquals(
                Verdict.INCONCLUSIVE,
                judge(answers(0, OptionalInt.of(2), WINDOW), cut).verdict());
        assertEquals(
                Verdict.PASS,
                judge(answers(2, OptionalInt.empty(), WINDOW), cut).verdict());
    }
}
