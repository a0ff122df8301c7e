package snagbench.probe;

import snagbench.wire.CborWriter;
import snagbench.wire.Event;
import snagbench.wire.EventKind;

/**
 * Events, numbered from 1, kept until the bench has seen them. When there are more than it holds, the oldest are lost,
 * which is remembered.
 */
final class EventRing {
    private final int[] ticks;
    private final int[] micros;
    private final int[] kinds;
    private final int[] as;
    private final int[] bs;
    private int newest;
    private int seen;
    private int sent;
    private int armedAfter;
    private boolean lost;

    EventRing(int size) {
        ticks = new int[size];
        micros = new int[size];
        kinds = new int[size];
        as = new int[size];
        bs = new int[size];
    }

    void add(int tick, int atMicros, EventKind kind, int a, int b) {
        newest++;
        int place = place(newest);
        ticks[place] = tick;
        micros[place] = atMicros;
        kinds[place] = kind.code();
        as[place] = a;
        bs[place] = b;
        if (newest - seen > ticks.length) {
            seen = newest - ticks.length;
            if (sent - seen < 0) {
                sent = seen;
            }
            if (seen - armedAfter > 0) {
                lost = true;
            }
        }
    }

    /** The bench has seen all up to a number; what it has not, is sent again. */
    void seenUpTo(int number) {
        if (number - seen > 0 && number - newest <= 0) {
            seen = number;
        }
        sent = seen;
    }

    /** A new session begins with nothing owed to it. */
    void forget() {
        seen = newest;
        sent = newest;
        armedAfter = newest;
        lost = false;
    }

    /** What is lost of the time before arming is no loss from now on. */
    void arm() {
        armedAfter = newest;
        lost = false;
    }

    boolean hasUnsent() {
        return sent != newest;
    }

    /** Writes the next one that was not sent; it counts as sent once {@link #markSent} is called. */
    void writeNext(CborWriter out) {
        int place = place(sent + 1);
        Event.write(out, sent + 1, ticks[place], micros[place], kinds[place], as[place], bs[place]);
    }

    void markSent() {
        sent++;
    }

    int newest() {
        return newest;
    }

    boolean lost() {
        return lost;
    }

    private int place(int number) {
        return Integer.remainderUnsigned(number, ticks.length);
    }
}
