package snagbench.virtualrig.shuttle.control;

/** How the sequence goes by the sensors that are left; in the order of the values, which start at 0. */
enum Variant {
    NORMAL(0),
    /** Grips where the arm stands at the rack under current. */
    NO_GRIPPER_BEAM(1),
    /** Does without the looks into the throat. */
    NO_THROAT_BEAM(2),
    /** Folds the arm in by time and current, and parks. */
    NO_ENCODER(3);

    private final int value;

    Variant(int value) {
        this.value = value;
    }

    /** What the variant's channel has for it. */
    int value() {
        return value;
    }

    static String[] names() {
        Variant[] variants = values();
        String[] names = new String[variants.length];
        for (int i = 0; i < variants.length; i++) {
            names[variants[i].value] = variants[i].name();
        }
        return names;
    }
}
