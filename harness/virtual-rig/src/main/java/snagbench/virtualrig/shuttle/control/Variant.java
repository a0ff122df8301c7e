package snagbench.virtualrig.shuttle.control;

/** How the sequence goes by the sensors that are left; in the order of the values, which start at 0. */
enum Variant {
    NORMAL,
    /** Grips where the arm stands at the rack under current. */
    NO_GRIPPER_BEAM,
    /** Does without the looks into the throat. */
    NO_THROAT_BEAM,
    /** Folds the arm in by time and current, and parks. */
    NO_ENCODER;

    static String[] names() {
        Variant[] variants = values();
        String[] names = new String[variants.length];
        for (int i = 0; i < variants.length; i++) {
            names[i] = variants[i].name();
        }
        return names;
    }
}
