package snagbench.probe;

/** The bench's leave to force things, for a bounded time on the controller's clock. */
final class Lease {
    private boolean lives;
    private int untilMicros;

    void keep(int tickMicros, int millis) {
        lives = true;
        untilMicros = tickMicros + millis * 1000;
    }

    boolean lives() {
        return lives;
    }

    boolean hasRunOut(int tickMicros) {
        return lives && tickMicros - untilMicros >= 0;
    }

    int millisLeft(int tickMicros) {
        return lives ? Math.max(0, (untilMicros - tickMicros + 999) / 1000) : 0;
    }

    void end() {
        lives = false;
    }
}
