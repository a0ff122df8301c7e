package snagbench.probe;

import java.util.List;

/**
 * Makes virtual rigs of one kind; found by {@link java.util.ServiceLoader}, so that a user's own virtual rig plugs in by
 * lying on the class path.
 */
public interface VirtualRigProvider {
    /**
     * The name by which a rig's file asks for it.
     *
     * @return a name that no other provider has
     */
    String name();

    /**
     * The builds of the control code that it can run, the usual one first.
     *
     * @return names, at least one
     */
    List<String> builds();

    /**
     * Makes a rig, just switched on.
     *
     * @param build one of {@link #builds()}
     * @return the rig
     * @throws IllegalArgumentException if it has no such build
     */
    VirtualRig create(String build);

    /**
     * Makes a rig on a line of some speed: what it cannot put on the line in time it has to drop itself, as a controller
     * does. A provider that does not care gives the same rig at any speed.
     *
     * @param build one of {@link #builds()}
     * @param baud bits a second, ten a byte
     * @return the rig
     * @throws IllegalArgumentException if it has no such build
     */
    default VirtualRig create(String build, int baud) {
        return create(build);
    }
}
