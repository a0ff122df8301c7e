package snagbench.probe;

import snagbench.wire.Point;

/** The replay points of all entries, in the order in which they were loaded. */
final class Curve {
    private final Point[] points;
    private int count;

    Curve(int most) {
        points = new Point[most];
    }

    void clear() {
        count = 0;
    }

    boolean isFull() {
        return count == points.length;
    }

    void add(Point point) {
        points[count++] = point;
    }

    /** Tick of the last point of an entry; -1 for none. */
    int lastTicks(int entry) {
        for (int i = count - 1; i >= 0; i--) {
            if (points[i].entry == entry) {
                return points[i].ticks;
            }
        }
        return -1;
    }

    /** Where one entry stands on its points. Each point is looked at once in an activity, so a tick's work is small. */
    final class Place {
        private final int entry;
        private int ticks;
        private int next;
        private boolean reached;
        private int value;

        Place(int entry) {
            this.entry = entry;
        }

        /** The entry becomes active. */
        void begin() {
            ticks = 0;
            next = 0;
            reached = false;
            advance();
        }

        /** A later tick of the same activity starts. */
        void beginTick() {
            ticks++;
            advance();
        }

        private void advance() {
            while (next < count && (points[next].entry != entry || points[next].ticks <= ticks)) {
                if (points[next].entry == entry) {
                    reached = true;
                    value = points[next].value;
                }
                next++;
            }
        }

        /** Value of the last point reached; before the first one the value as it is. */
        long value(long before) {
            return reached ? value : before;
        }
    }
}
