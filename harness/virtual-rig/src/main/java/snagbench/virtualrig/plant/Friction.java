package snagbench.virtualrig.plant;

/**
 * Friction of a slide with all that is geared to it, as felt at the slide.
 *
 * @param stictionNewtons what must be overcome to set it moving from rest; at least the Coulomb friction
 * @param coulombNewtons against the motion, whatever the speed
 * @param viscous in N*s/m, proportional to the speed
 */
public record Friction(double stictionNewtons, double coulombNewtons, double viscous) {
    /** Refuses friction that would drive. */
    public Friction {
        if (!(coulombNewtons >= 0) || !(stictionNewtons >= coulombNewtons) || !(viscous >= 0)) {
            throw new IllegalArgumentException("friction of " + stictionNewtons + " N at rest, " + coulombNewtons
                    + " N moving, " + viscous + " N*s/m; wanted none below 0, and no less at rest than moving");
        }
    }

    /**
     * The same, all of it stronger or weaker.
     *
     * @param factor 1 for no change
     * @return scaled friction
     */
    public Friction times(double factor) {
        return new Friction(stictionNewtons * factor, coulombNewtons * factor, viscous * factor);
    }
}
