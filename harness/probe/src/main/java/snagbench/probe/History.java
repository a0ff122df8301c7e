package snagbench.probe;

/** Past real readings for the delays of a program: each delay has a ring as long as it is, cut from one store. */
final class History {
    private final int[] store;
    private int taken;

    History(int ticks) {
        store = new int[ticks];
    }

    void clear() {
        taken = 0;
    }

    boolean hasRoomFor(int ticks) {
        return ticks <= store.length - taken;
    }

    /** The past of one delay, from tick 0 of the program on. */
    final class Ring {
        private int first;
        private int length;
        private int next;
        private boolean full;

        /** Takes its part of the store; there must be room. */
        void take(int ticks) {
            first = taken;
            length = ticks;
            taken += ticks;
        }

        void arm() {
            next = 0;
            full = false;
        }

        /** Keeps the real reading of a tick, at the tick's end. */
        void keep(int real) {
            store[first + next] = real;
            next++;
            if (next == length) {
                next = 0;
                full = true;
            }
        }

        /** The reading of so many ticks ago; as long as it does not reach back so far, that of tick 0. */
        int oldest() {
            return store[first + (full ? next : 0)];
        }
    }
}
