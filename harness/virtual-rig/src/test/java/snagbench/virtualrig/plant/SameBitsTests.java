package snagbench.virtualrig.plant;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Everything else on a virtual rig is integers: if these bits are the same on every JDK, so are its traces. */
class SameBitsTests {
    /**
     * Folded from 200,000 steps under changing duties, with turns, stops and stiction. Kept from a first run on JDK 17; who
     * changes the equations or the order of their operations on purpose puts in what this test then finds.
     */
    @Test
    void hasTheSameBitsOnEveryJdk() {
        SplitMix64 random = new SplitMix64(2024);
        MotorSlide slide = new MotorSlide(new DcMotor(1.45, 0.02, 1e-5), 0.65e-3, 1.5);
        slide.setFriction(new Friction(30, 24, 10));
        slide.setStops(-0.005, 0.425);
        Battery battery = new Battery(0.08, 4e-5);
        battery.reset(12.6);
        AnalogueInput input = new AnalogueInput(0.01, 0.012, -3000, 3000);
        long folded = 0;
        double duty = 0;
        for (int i = 0; i < 200_000; i++) {
            if (i % 20 == 0) {
                duty = random.between(-1, 1);
            }
            double step = i % 21 == 20 ? random.between(1e-6, 250e-6) : 250e-6;
            battery.draw(slide.advance(step, duty, battery.openVolts(), 0.08));
            double amperes = slide.motorAmperes(duty, battery.openVolts(), 0.08);
            folded = fold(folded, Double.doubleToLongBits(slide.position()));
            folded = fold(folded, Double.doubleToLongBits(slide.speed()));
            folded = fold(folded, Double.doubleToLongBits(battery.drawnCoulombs()));
            folded = fold(folded, input.read(amperes, random));
        }
        assertEquals("53ad3b6b0279b338", Long.toHexString(folded));
    }

    private static long fold(long folded, long bits) {
        return (Long.rotateLeft(folded, 7) ^ bits) * 0x9E3779B97F4A7C15L;
    }
}
