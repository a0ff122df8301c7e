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

    /** An order that is given when something was seen cannot have been given in the tick behind it. */
    @Test
    void whoPollsComesLate() throws Exception {
        assertTrue(PollingComparison.polled(Duration.ofMillis(100)).lateTicks() > 0);
    }
}
