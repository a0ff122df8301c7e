package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class VerdictTests {
    /**
     * ETSI ES 201 873-1 V4.16.1 (2024-10), clause 24.1, the table of overwriting rules for verdicts: a row for the current
     * verdict, a column for the new one. Read at second hand, in quotations that agree.
     */
    @ParameterizedTest
    @CsvSource({
        "NONE, PASS, PASS",
        "NONE, INCONCLUSIVE, INCONCLUSIVE",
        "NONE, FAIL, FAIL",
        "NONE, NONE, NONE",
        "PASS, PASS, PASS",
        "PASS, INCONCLUSIVE, INCONCLUSIVE",
        "PASS, FAIL, FAIL",
        "PASS, NONE, PASS",
        "INCONCLUSIVE, PASS, INCONCLUSIVE",
        "INCONCLUSIVE, INCONCLUSIVE, INCONCLUSIVE",
        "INCONCLUSIVE, FAIL, FAIL",
        "INCONCLUSIVE, NONE, INCONCLUSIVE",
        "FAIL, PASS, FAIL",
        "FAIL, INCONCLUSIVE, FAIL",
        "FAIL, FAIL, FAIL",
        "FAIL, NONE, FAIL",
    })
    void aWorseVerdictIsNeverOverwrittenByABetter(Verdict current, Verdict found, Verdict after) {
        assertEquals(after, current.worse(found));
    }

    /** The same clause: error is set by the test system alone, and nothing overrides it. */
    @ParameterizedTest
    @EnumSource(Verdict.class)
    void nothingOverridesAnError(Verdict other) {
        assertEquals(Verdict.ERROR, Verdict.ERROR.worse(other));
        assertEquals(Verdict.ERROR, other.worse(Verdict.ERROR));
    }

    /** The words that the clause has for them. */
    @ParameterizedTest
    @CsvSource({
        "NONE, none",
        "PASS, pass",
        "INCONCLUSIVE, inconclusive",
        "FAIL, fail",
        "ERROR, error",
    })
    void eachHasItsWord(Verdict verdict, String word) {
        assertEquals(word, verdict.word());
    }
}
