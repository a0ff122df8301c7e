package snagbench.virtualrig.controller;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.LongToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import snagbench.wire.ResetCause;

/** The controller apart from any machine: in one whose supply follows a plan, with firmware that gives back what it hears. */
class VirtualControllerTests {
    private static final BrownOut BROWN_OUT = new BrownOut(7.0, 7.5, 50_000);
    private static final LoopTime LOOP = new LoopTime(5000, 200);

    /** A supply by time, and a log of what happened. */
    private static final class PlannedMachine implements Machine {
        final List<Boot> boots = new ArrayList<>();
        final List<Integer> seeds = new ArrayList<>();
        final List<Long> tickTimes = new ArrayList<>();
        final List<Integer> tickClocks = new ArrayList<>();
        final LongToDoubleFunction volts;
        long time;
        int longestStep;
        int outputsOff;
        int refusedBytes;

        PlannedMachine(LongToDoubleFunction volts) {
            this.volts = volts;
        }

        @Override
        public void reset(int seed) {
            seeds.add(seed);
        }

        @Override
        public void advance(int micros) {
            time += micros;
            longestStep = Math.max(longestStep, micros);
        }

        @Override
        public double supplyVolts() {
            return volts.applyAsDouble(time);
        }

        @Override
        public void outputsOff() {
            outputsOff++;
        }

        @Override
        public Firmware boot(Boot boot) {
            boots.add(boot);
            return () -> {
                tickTimes.add(time);
                tickClocks.add(boot.clock().micros());
                byte[] heard = new byte[64];
                int count = 0;
                int next;
                while (count < heard.length && (next = boot.line().read()) >= 0) {
                    heard[count++] = (byte) next;
                }
                refusedBytes += count - boot.line().write(heard, 0, count);
            };
        }
    }

    private static PlannedMachine steady() {
        return new PlannedMachine(time -> 12);
    }

    private static PlannedMachine lowFrom(long from, long to, double volts) {
        return new PlannedMachine(time -> time >= from && time < to ? volts : 12);
    }

    private static void runTo(VirtualController controller, long micros, List<Byte> heard) {
        byte[] buffer = new byte[16];
        while (controller.nowMicros() < micros) {
            controller.runUntil(micros);
            int count;
            while ((count = controller.receive(buffer)) > 0) {
                for (int i = 0; i < count; i++) {
                    heard.add(buffer[i]);
                }
            }
        }
    }

    @Test
    void startsAfterItsStartTimeWithItsClockAtZero() {
        PlannedMachine machine = steady();
        VirtualController controller = new VirtualController(machine, LOOP, BROWN_OUT, LineRate.UNLIMITED);
        controller.runUntil(49_999);
        assertEquals(List.of(), machine.tickTimes);
        controller.runUntil(50_000);
        assertEquals(List.of(50_000L), machine.tickTimes);
        assertEquals(List.of(0), machine.tickClocks);
        assertEquals(ResetCause.POWER_ON, machine.boots.get(0).cause());
        assertEquals(1, machine.boots.get(0).id());
    }

    @Test
    void runsFreeWithinItsLoopTime() {
        PlannedMachine machine = steady();
        VirtualController controller = new VirtualController(machine, LOOP, BROWN_OUT, LineRate.UNLIMITED);
        controller.runUntil(60_000_000);
        long least = Long.MAX_VALUE;
        long most = 0;
        for (int i = 1; i < machine.tickTimes.size(); i++) {
            long loop = machine.tickTimes.get(i) - machine.tickTimes.get(i - 1);
            least = Math.min(least, loop);
            most = Math.max(most, loop);
            assertEquals(loop, machine.tickClocks.get(i) - machine.tickClocks.get(i - 1));
        }
        assertEquals(5000, least);
        assertEquals(5200, most);
        assertEquals(250, machine.longestStep);
    }

    @Test
    void beginsItsUnevennessAnewWhenArmed() {
        List<List<Long>> loops = new ArrayList<>();
        for (long armAfter : new long[] {100_000, 777_777}) {
            PlannedMachine machine = steady();
            VirtualController controller = new VirtualController(machine, LOOP, BROWN_OUT, LineRate.UNLIMITED);
            controller.runUntil(armAfter);
            machine.boots.get(0).arming().armed(42);
            int from = machine.tickTimes.size();
            controller.runUntil(armAfter + 1_000_000);
            List<Long> after = new ArrayList<>();
            for (int i = from + 1; i < from + 150; i++) {
                after.add(machine.tickTimes.get(i) - machine.tickTimes.get(i - 1));
            }
            loops.add(after);
            assertEquals(List.of(0, 42), machine.seeds);
        }
        assertEquals(loops.get(0), loops.get(1));
    }

    @Test
    void restartsWhenTheSupplyGivesWay() {
        PlannedMachine machine = lowFrom(201_000, 300_000, 6.9);
        VirtualController controller = new VirtualController(machine, LOOP, BROWN_OUT, LineRate.UNLIMITED);
        controller.runUntil(1_000_000);
        assertEquals(1, machine.outputsOff);
        assertEquals(2, machine.boots.size());
        assertEquals(ResetCause.BROWN_OUT, machine.boots.get(1).cause());
        assertEquals(2, machine.boots.get(1).id());
        long down = machine.tickTimes.stream()
                .filter(time -> time > 201_250 && time < 350_000)
                .count();
        assertEquals(0, down);
        int restart = machine.tickClocks.lastIndexOf(0);
        // Seen to be there again within a step of 250 us; start 50 ms after.
        assertTrue(machine.tickTimes.get(restart) >= 350_000 && machine.tickTimes.get(restart) <= 350_250);
    }

    @Test
    void goesOnBetweenItsTwoLevelsButDoesNotStartThere() {
        PlannedMachine sags = lowFrom(201_000, 900_000, 7.2);
        new VirtualController(sags, LOOP, BROWN_OUT, LineRate.UNLIMITED).runUntil(1_000_000);
        assertEquals(1, sags.boots.size());
        assertEquals(0, sags.outputsOff);

        PlannedMachine comesBackSlowly =
                new PlannedMachine(time -> time < 201_000 ? 12 : time < 250_000 ? 5 : time < 400_000 ? 7.2 : 12);
        new VirtualController(comesBackSlowly, LOOP, BROWN_OUT, LineRate.UNLIMITED).runUntil(1_000_000);
        assertEquals(2, comesBackSlowly.boots.size());
        int restart = comesBackSlowly.tickClocks.lastIndexOf(0);
        long at = comesBackSlowly.tickTimes.get(restart);
        assertTrue(at >= 450_000 && at <= 450_250, "started at " + at);
    }

    @Test
    void hearsNothingWhileItIsDown() {
        PlannedMachine machine = lowFrom(201_000, 300_000, 5);
        VirtualController controller = new VirtualController(machine, LOOP, BROWN_OUT, LineRate.UNLIMITED);
        List<Byte> heard = new ArrayList<>();
        for (int i = 1; i <= 60; i++) {
            runTo(controller, i * 10_000L, heard);
            if (i != 20 && i != 35) {
                controller.send(new byte[] {(byte) i}, 0, 1);
            }
        }
        runTo(controller, 700_000, heard);
        List<Byte> wanted = new ArrayList<>();
        for (int i = 1; i <= 60; i++) {
            // Sent at i * 10 ms. Until 50 ms it starts, from 201 to 350 ms it is down; the edges were left out.
            if ((i >= 5 && i < 20) || i > 35) {
                wanted.add((byte) i);
            }
        }
        assertEquals(wanted, heard);
    }

    @Test
    void standsStillUntilWhatLiesReadyIsTaken() {
        PlannedMachine machine = steady();
        VirtualController controller = new VirtualController(machine, LOOP, BROWN_OUT, LineRate.UNLIMITED);
        controller.runUntil(100_000);
        controller.send(new byte[] {1, 2, 3}, 0, 3);
        controller.runUntil(1_000_000);
        long stood = controller.nowMicros();
        assertTrue(stood > 100_000 && stood <= 105_200);
        assertEquals(stood, machine.tickTimes.get(machine.tickTimes.size() - 1));
        controller.runUntil(1_000_000);
        assertEquals(stood, controller.nowMicros());
        byte[] into = new byte[2];
        assertEquals(2, controller.receive(into));
        assertArrayEquals(new byte[] {1, 2}, into);
        assertEquals(1, controller.receive(into));
        assertEquals(3, into[0]);
        assertEquals(0, controller.receive(into));
        controller.runUntil(1_000_000);
        assertEquals(1_000_000, controller.nowMicros());
    }

    @Test
    void doesNothingForATimeThatIsPast() {
        VirtualController controller = new VirtualController(steady(), LOOP, BROWN_OUT, LineRate.UNLIMITED);
        controller.runUntil(70_000);
        controller.runUntil(60_000);
        assertEquals(70_000, controller.nowMicros());
    }

    /** 8N1 at 115200 baud: 86.81 us a byte (ten bits a byte). */
    @Test
    void letsBytesTakeTheirTimeOnASerialLine() {
        PlannedMachine machine = steady();
        VirtualController controller = new VirtualController(machine, LOOP, BROWN_OUT, LineRate.serial(115_200, 256));
        controller.runUntil(100_000);
        controller.send(new byte[50], 0, 50);
        List<Long> times = new ArrayList<>();
        byte[] one = new byte[1];
        while (times.size() < 50) {
            controller.runUntil(1_000_000);
            if (controller.receive(one) == 1) {
                times.add(controller.nowMicros());
            }
        }
        // All 50 are with the rig after 4340 us; the ticks at which they came give them back then.
        assertTrue(times.get(0) >= 100_000 + 86 + 86);
        for (int i = 1; i < 50; i++) {
            long gap = times.get(i) - times.get(i - 1);
            assertTrue(gap >= 86, "gap " + gap);
        }
        assertTrue(times.get(49) >= 100_000 + 50 * 86);
        assertTrue(times.get(49) <= 100_000 + 2 * 4341 + 2 * 5200);
    }

    @Test
    void takesNoMoreThanItsTransmitBufferHolds() {
        PlannedMachine machine = steady();
        VirtualController controller = new VirtualController(machine, LOOP, BROWN_OUT, LineRate.serial(9600, 20));
        controller.runUntil(100_000);
        controller.send(new byte[60], 0, 60);
        List<Byte> heard = new ArrayList<>();
        runTo(controller, 1_000_000, heard);
        assertEquals(60, heard.size() + machine.refusedBytes);
        assertTrue(heard.size() >= 20);
    }

    /** Random input at random times, and a supply that gives way in between: the same bytes at the same times, however cut. */
    @ParameterizedTest
    @ValueSource(longs = {0, 86_805})
    void doesTheSameHoweverItsTimeIsCut(long nanosPerByte) {
        LineRate rate = new LineRate(nanosPerByte, 4096);
        for (int seed = 0; seed < 20; seed++) {
            List<Long> whole = run(rate, seed, Long.MAX_VALUE);
            assertTrue(whole.size() > 100, "seed " + seed);
            for (long cut : new long[] {1, 7, 250, 4999, 5000, 123_456}) {
                if (cut > 1 || seed == 0) {
                    assertEquals(whole, run(rate, seed, cut), "seed " + seed + ", cut " + cut);
                }
            }
        }
    }

    private static List<Long> run(LineRate rate, int seed, long cut) {
        SplittableRandom random = new SplittableRandom(seed);
        long low = random.nextLong(200_000, 300_000);
        PlannedMachine machine = lowFrom(low, low + random.nextLong(100, 100_000), 5);
        VirtualController controller = new VirtualController(machine, LOOP, BROWN_OUT, rate);
        List<Long> bytesWithTimes = new ArrayList<>();
        byte[] buffer = new byte[8];
        long sendAt = 0;
        while (controller.nowMicros() < 600_000) {
            if (controller.nowMicros() >= sendAt) {
                byte[] bytes = new byte[random.nextInt(1, 12)];
                random.nextBytes(bytes);
                controller.send(bytes, 0, bytes.length);
                sendAt = controller.nowMicros() + random.nextLong(1, 20_000);
            }
            long next = Math.min(sendAt, 600_000);
            if (cut != Long.MAX_VALUE) {
                next = Math.min(next, controller.nowMicros() + cut);
            }
            controller.runUntil(next);
            int count;
            while ((count = controller.receive(buffer)) > 0) {
                for (int i = 0; i < count; i++) {
                    bytesWithTimes.add((controller.nowMicros() << 8) | (buffer[i] & 0xFF));
                }
            }
        }
        bytesWithTimes.addAll(machine.tickTimes);
        return bytesWithTimes;
    }

    @Test
    void refusesFiguresThatMakeNoController() {
        assertThrows(IllegalArgumentException.class, () -> new BrownOut(7.5, 7.0, 50_000));
        assertThrows(IllegalArgumentException.class, () -> new LoopTime(0, 200));
        assertThrows(IllegalArgumentException.class, () -> new LineRate(-1, 100));
    }
}
