package snagbench.bench.serve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** That the comparison measures what it says; how much each is off is for the page that shows its table. */
@Tag("long")
class PollingComparisonTests {
    @Test
    void aScriptsTimesAreThoseOfTheRigsRecordsToTheMicrosecond() throws Exception {
        assertEquals(new PollingComparison.Errors(0, 0), PollingComparison.scripted(1));
    }

    /**
     * The tick in which it came about lies anywhere between two looks, 20 ticks apart, so that one run in some twenty is in time by
     * chance; that five in a row are is one chance in millions.
     */
    @Test
    void whoPollsComesLate() throws Exception {
        long late = 0;
        for (int run = 0; run < 5 && late == 0; run++) {
            late = PollingComparison.polled(Duration.ofMillis(100)).lateTicks();
            assertTrue(late >= 0, "an order cannot come before that to which it is one");
        }
        assertTrue(late > 0);
    }
}
