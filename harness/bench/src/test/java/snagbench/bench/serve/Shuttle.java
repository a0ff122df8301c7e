package snagbench.bench.serve;

import java.util.ServiceLoader;
import snagbench.probe.VirtualRig;
import snagbench.probe.VirtualRigProvider;

/** The example rig, found as the product finds it, and the numbers of some of its channels. */
final class Shuttle {
    static final int STEP = 2;
    static final int START_RUN = 3;
    static final int READY = 4;
    static final int POSITION = 5;
    static final int CURRENT = 6;

    private Shuttle() {}

    static VirtualRig create() {
        for (VirtualRigProvider provider : ServiceLoader.load(VirtualRigProvider.class)) {
            if (provider.name().equals("seedling-shuttle")) {
                return provider.create(provider.builds().get(0));
            }
        }
        throw new IllegalStateException("no seedling shuttle on the class path");
    }
}
