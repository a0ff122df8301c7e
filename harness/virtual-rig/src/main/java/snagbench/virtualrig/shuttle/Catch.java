package snagbench.virtualrig.shuttle;

/**
 * Something that the arm gets caught at on its way home, and how it comes loose: out of the throat by going out again
 * while the base moves, further out by going out again alone. Only what the arm has run into can come loose.
 */
final class Catch {
    /** From here on inwards it is the throat that holds it. */
    private static final double THROAT = 0.15;

    private static final double TOUCHES = 0.0005;
    private static final double BACK_OFF = 0.01;
    private static final double BASE_MOVES = 0.015;

    private double place = Double.NEGATIVE_INFINITY;
    private boolean touched;
    private double baseStood;

    void put(double metres) {
        place = metres;
        touched = false;
    }

    void remove() {
        put(Double.NEGATIVE_INFINITY);
    }

    boolean isThere() {
        return place != Double.NEGATIVE_INFINITY;
    }

    /** How far home the arm can come. */
    double place() {
        return place;
    }

    /** Takes where arm and base are now; true in the moment in which it comes loose. */
    boolean comesLoose(double arm, double base) {
        if (!isThere()) {
            return false;
        }
        if (!touched && arm <= place + TOUCHES) {
            touched = true;
            baseStood = base;
        }
        boolean freed =
                touched && arm >= place + BACK_OFF && (place > THROAT || Math.abs(base - baseStood) >= BASE_MOVES);
        if (freed) {
            remove();
        }
        return freed;
    }
}
