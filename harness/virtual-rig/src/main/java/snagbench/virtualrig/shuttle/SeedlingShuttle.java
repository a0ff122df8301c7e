package snagbench.virtualrig.shuttle;

import java.util.Arrays;
import java.util.List;
import snagbench.probe.VirtualRig;
import snagbench.probe.VirtualRigProvider;
import snagbench.virtualrig.controller.BrownOut;
import snagbench.virtualrig.controller.LineRate;
import snagbench.virtualrig.controller.LoopTime;
import snagbench.virtualrig.controller.VirtualController;

/** Provides the seedling shuttle: a loop of 5 ms that runs free, and a controller that restarts below 7 V. */
public final class SeedlingShuttle implements VirtualRigProvider {
    private static final LoopTime LOOP_TIME = new LoopTime(5000, 200);

    /** Two of its longest frames; demo data. */
    private static final int TRANSMIT_BUFFER = 512;

    private static final BrownOut BROWN_OUT = new BrownOut(7.0, 7.5, 50_000);

    /** For {@link java.util.ServiceLoader}. */
    public SeedlingShuttle() {}

    @Override
    public String name() {
        return "seedling-shuttle";
    }

    @Override
    public List<String> builds() {
        return Arrays.stream(ShuttleBuild.values()).map(ShuttleBuild::title).toList();
    }

    @Override
    public VirtualRig create(String build) {
        return create(build, LineRate.UNLIMITED);
    }

    @Override
    public VirtualRig create(String build, int baud) {
        return create(build, LineRate.serial(baud, TRANSMIT_BUFFER));
    }

    /**
     * Makes a rig whose line takes its time.
     *
     * @param build one of {@link #builds()}
     * @param rate of the line
     * @return the rig
     * @throws IllegalArgumentException if it has no such build
     */
    public VirtualRig create(String build, LineRate rate) {
        for (ShuttleBuild known : ShuttleBuild.values()) {
            if (known.title().equals(build)) {
                return new VirtualController(new ShuttleMachine(known), LOOP_TIME, BROWN_OUT, rate);
            }
        }
        throw new IllegalArgumentException(
                "the seedling shuttle has no build \"" + build + "\"; it has " + String.join(", ", builds()));
    }
}
