package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import snagbench.bench.script.Condition.Relation;

/** Three values, against the plain reading of them: all that can be, gathered one by one. */
class TruthTests {
    private static final int[] ALL = {Truth.FALSE, Truth.TRUE, Truth.UNKNOWN};

    /** All that a comparison comes to while the reading goes through an interval. */
    private static int plainly(Relation relation, int raw, LongStream readings) {
        return readings.mapToInt(reading -> relation.holds((int) reading, raw) ? Truth.TRUE : Truth.FALSE)
                .reduce(0, (one, other) -> one | other);
    }

    @ParameterizedTest
    @EnumSource(Relation.class)
    void aComparisonIsWhatItIsForAnyReadingOfAnInterval(Relation relation) {
        for (int least = -3; least <= 3; least++) {
            for (int greatest = least; greatest <= 3; greatest++) {
                for (int raw = -4; raw <= 4; raw++) {
                    String words = relation + " " + raw + " of " + least + " to " + greatest;
                    assertEquals(
                            plainly(relation, raw, LongStream.rangeClosed(least, greatest)),
                            Truth.of(relation, raw, least, greatest),
                            words);
                    assertEquals(
                            plainly(
                                    relation,
                                    raw,
                                    LongStream.rangeClosed(least, greatest).map(Math::abs)),
                            Truth.ofDistance(relation, raw, least, greatest),
                            "distance " + words);
                }
            }
        }
    }

    @Test
    void conjunctionAndDisjunctionAreKleenes() {
        for (int one : ALL) {
            for (int other : ALL) {
                int and = 0;
                int or = 0;
                for (int a = Truth.FALSE; a <= Truth.TRUE; a++) {
                    for (int b = Truth.FALSE; b <= Truth.TRUE; b++) {
                        if ((one & a) != 0 && (other & b) != 0) {
                            and |= Truth.of(a == Truth.TRUE && b == Truth.TRUE);
                            or |= Truth.of(a == Truth.TRUE || b == Truth.TRUE);
                        }
                    }
                }
                assertEquals(and, Truth.and(one, other), one + " and " + other);
                assertEquals(or, Truth.or(one, other), one + " or " + other);
            }
        }
    }
}
