package snagbench.probe;

import java.util.Arrays;
import java.util.Random;

/** Readings that walk about in small steps, loops of uneven times, channels now and then not read, fail-safes that answer. */
final class RandomInputs {
    private final Random random;
    private final TestRig rig;
    private final Channel[] walking;
    private boolean first = true;

    RandomInputs(Random random, TestRig rig) {
        this.random = random;
        this.rig = rig;
        walking = new Channel[] {
            rig.position, rig.current, rig.trigger, rig.step, rig.runs, rig.motor, rig.wide, rig.start
        };
    }

    /** Sets what the next tick reads; in the first one every channel is read. */
    void next() {
        for (Channel channel : walking) {
            if (first || random.nextInt(3) == 0) {
                int least = Math.max(channel.lowest(), -4);
                int most = Math.min(channel.highest(), 4);
                rig.real(channel, least + random.nextInt(most - least + 1));
            }
            rig.leftOut[channel.index()] = !first && random.nextInt(8) == 0;
        }
        if (random.nextInt(3) == 0) {
            rig.real(rig.pump, random.nextInt(9) - 4);
        }
        if (random.nextInt(40) == 0) {
            rig.real(rig.wide, random.nextInt());
        }
        if (random.nextInt(6) == 0) {
            rig.answering.add(random.nextBoolean() ? rig.fs1 : rig.fs2);
        }
        first = false;
    }

    /** Time from the start of one tick to the next, in microseconds. */
    int elapsed() {
        return switch (random.nextInt(4)) {
            case 0 -> 1 + random.nextInt(20);
            case 1 -> 1 + random.nextInt(3 * TestRig.TICK);
            default -> TestRig.TICK;
        };
    }

    static int[] allOf(int channels) {
        int[] all = new int[channels];
        Arrays.setAll(all, i -> i);
        return all;
    }
}
