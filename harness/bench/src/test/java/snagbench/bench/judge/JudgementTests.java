package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import snagbench.bench.script.Place;

/** What a judgement keeps when something is added to it, or taken from it. */
class JudgementTests {
    private static final ValueMargin AMPERES = new ValueMargin("reach.current", 40, 1, -2, "A");
    private static final ValueMargin VOLTS = new ValueMargin("battery.voltage", 58, 1, -2, "V");
    private static final Split SPLIT =
            new Split(Optional.of(new Reached(7, 35_000, 30_000)), Optional.empty(), Optional.empty());

    private static Finding finding(String name, Verdict verdict, long margin, ValueMargin value) {
        return new Finding(
                name,
                new Place(Path.of("a.fault.yaml"), 3, 5),
                verdict,
                List.of(),
                OptionalLong.empty(),
                OptionalLong.empty(),
                OptionalLong.of(margin),
                Optional.of(value),
                OptionalLong.empty());
    }

    private static Judgement of(Verdict verdict, Finding... findings) {
        return new Judgement(
                verdict,
                List.of(findings),
                OptionalLong.of(30_000),
                OptionalLong.of(90_000),
                OptionalLong.of(1000),
                List.of(),
                List.of("a reason"),
                List.of(AMPERES, VOLTS),
                SPLIT,
                verdict == Verdict.FAIL ? OptionalLong.of(99) : OptionalLong.empty());
    }

    @Test
    void moreFindingsChangeTheVerdictAndNoFigure() {
        Judgement judgement = of(Verdict.PASS, finding("one", Verdict.PASS, 1000, AMPERES));
        Finding against = finding("control runs", Verdict.INCONCLUSIVE, 0, VOLTS);

        Judgement with =
                judgement.withFindings(List.of(judgement.findings().get(0), against), List.of("it may be chance"));

        assertEquals(Verdict.INCONCLUSIVE, with.verdict());
        assertEquals(List.of("it may be chance", "a reason"), with.reasons());
        assertEquals(List.of(AMPERES, VOLTS), with.valueMargins());
        assertEquals(SPLIT, with.split());
        assertEquals(OptionalLong.of(1000), with.marginMicros());
    }

    @Test
    void whenAFailWasSettledIsKeptForAFailOnly() {
        Judgement fail = of(Verdict.FAIL, finding("one", Verdict.FAIL, -1000, AMPERES));

        assertEquals(
                OptionalLong.of(99),
                fail.withFindings(fail.findings(), List.of()).settledTick());
        assertEquals(
                OptionalLong.empty(), fail.withFindings(List.of(), List.of()).settledTick());
    }

    @Test
    void withoutItsFirstFindingsItHasNeitherTheirVerdictNorTheirMargins() {
        Judgement judgement = of(
                Verdict.FAIL,
                finding("only an anchor", Verdict.FAIL, -1000, VOLTS),
                finding("asked", Verdict.PASS, 5000, AMPERES));

        Judgement rest = judgement.withoutTheFirst(1);

        assertEquals(Verdict.PASS, rest.verdict());
        assertEquals(List.of(judgement.findings().get(1)), rest.findings());
        assertEquals(OptionalLong.of(5000), rest.marginMicros());
        assertEquals(List.of(AMPERES), rest.valueMargins());
        assertEquals(OptionalLong.empty(), rest.settledTick());
        assertEquals(SPLIT, rest.split());
    }

    @Test
    void ofAFailOnlyWhatWasMissedIsItsMargin() {
        Finding missed = finding("one", Verdict.FAIL, -3000, AMPERES);
        Finding onTheEdge = finding("two", Verdict.FAIL, 0, AMPERES);
        Finding spare = finding("three", Verdict.PASS, 2000, AMPERES);

        assertEquals(OptionalLong.of(-3000), Judgement.leastMargin(List.of(spare, onTheEdge, missed)));
        assertEquals(OptionalLong.of(0), Judgement.leastMargin(List.of(spare, onTheEdge)));
        assertEquals(OptionalLong.of(2000), Judgement.leastMargin(List.of(spare)));
        assertEquals(OptionalLong.empty(), Judgement.leastMargin(List.of()));
    }

    @Test
    void anotherVerdictLeavesTheRest() {
        Judgement judgement = of(Verdict.ERROR, finding("guard", Verdict.ERROR, 1000, AMPERES));

        Judgement as = judgement.as(Verdict.FAIL);

        assertEquals(Verdict.FAIL, as.verdict());
        assertEquals(judgement.findings(), as.findings());
        assertEquals(judgement.valueMargins(), as.valueMargins());
    }
}
