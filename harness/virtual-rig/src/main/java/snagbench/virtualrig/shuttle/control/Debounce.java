package snagbench.virtualrig.shuttle.control;

/** Whether something has held without a break for a time. */
final class Debounce {
    private boolean holds;
    private int sinceMicros;

    /** Takes what is so in this tick, and how long it must have been. */
    boolean hasHeld(boolean condition, int nowMicros, int micros) {
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
