package snagbench.virtualrig.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class SensorTests {
    @Test
    void countsWholeIncrementsPassed() {
        Encoder encoder = new Encoder(1e-4);
        assertEquals(0, encoder.read(0));
        assertEquals(0, encoder.read(0.99e-4));
        assertEquals(1, encoder.read(1.01e-4));
        assertEquals(-1, encoder.read(-0.01e-4));
        assertEquals(3679, encoder.read(0.36795));
    }

    @Test
    void roundsToItsStepAndStaysInItsRange() {
        AnalogueInput quiet = new AnalogueInput(0.01, 0, 0, 3000);
        SplitMix64 noise = new SplitMix64(1);
        assertEquals(580, quiet.read(5.8, noise));
        assertEquals(580, quiet.read(5.8049, noise));
        assertEquals(581, quiet.read(5.8051, noise));
        assertEquals(0, quiet.read(-0.2, noise));
        assertEquals(3000, quiet.read(1e9, noise));
    }

    @Test
    void isNoisyByItsDeviationAroundTheQuantity() {
        AnalogueInput input = new AnalogueInput(0.01, 0.05, 0, 3000);
        SplitMix64 noise = new SplitMix64(5);
        double sum = 0;
        double squares = 0;
        int draws = 50_000;
        for (int i = 0; i < draws; i++) {
            double deviation = input.read(5, noise) - 500;
            assertTrue(Math.abs(deviation) <= 18);
            sum += deviation;
            squares += deviation * deviation;
        }
        assertEquals(0, sum / draws, 0.1);
        // 5 steps, and one step's rounding adds 1/12 to the variance.
        assertEquals(Math.sqrt(25 + 1 / 12.0), Math.sqrt(squares / draws), 0.1);
    }

    /** One draw a reading, whatever is read: what one sensor sees must not shift the next reading's noise. */
    @Test
    void drawsOnceForEachReading() {
        SplitMix64 noise = new SplitMix64(9);
        SplitMix64 beside = new SplitMix64(9);
        new AnalogueInput(0.01, 0.05, 0, 3000).read(5, noise);
        beside.nextLong();
        assertEquals(beside.nextLong(), noise.nextLong());
    }
}
