package snagbench.bench.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Duration;
import org.junit.jupiter.api.Test;

class SerialSettingsTests {
    /** 4096 bytes of 10 bits take 0.08192 s at 500000 baud, 4.266... s at 9600. */
    @Test
    void givesASlowLineMoreTime() {
        assertEquals(
                new SerialSettings(500_000, Duration.ofNanos(2_163_840_000L), Duration.ofNanos(1_081_920_000L)),
                SerialSettings.at(500_000));
        assertEquals(10_533, SerialSettings.at(9600).longestWrite().toMillis());
        assertEquals(5_266, SerialSettings.at(9600).lastWords().toMillis());
    }

    @Test
    void refusesFiguresWithoutSense() {
        Duration second = Duration.ofSeconds(1);
        assertThrows(IllegalArgumentException.class, () -> SerialSettings.at(0));
        assertThrows(IllegalArgumentException.class, () -> SerialSettings.at(-9600));
        assertThrows(IllegalArgumentException.class, () -> new SerialSettings(1, Duration.ZERO, second));
        assertThrows(IllegalArgumentException.class, () -> new SerialSettings(1, second.negated(), second));
        assertThrows(IllegalArgumentException.class, () -> new SerialSettings(1, second, second.negated()));
        assertEquals(Duration.ZERO, new SerialSettings(1, second, Duration.ZERO).lastWords());
    }
}
