package snagbench.virtualrig.shuttle.control;

/** Whether something has held without a break for a time. */
final class Debounce {
    private final int micros;
    private boolean holds;
    private int sinceMicros;

    Debounce(int micros) {
        this.micros = micros;
    }

    /** Takes what is so in this tick. */
    boolean hasHeld(boolean condition, int nowMicros) {
        if (!condition) {
            holds = false;
            return false;
        }
        if (!holds) {
            holds = true;
            sinceMicros = nowMicros;
        }
        return nowMicros - sinceMicros >= micros;
    }

    void restart() {
        holds = false;
    }
}
