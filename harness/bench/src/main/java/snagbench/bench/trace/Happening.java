package snagbench.bench.trace;

import snagbench.wire.EventKind;

/**
 * An event, counted from arming.
 *
 * @param number the first event after arming is 1
 * @param tick in which it happened; arming is tick 0
 * @param micros start of that tick, in microseconds since the start of tick 0
 * @param kind what it tells
 * @param a first value; the kind says of what
 * @param b second value; the kind says of what
 */
public record Happening(int number, int tick, long micros, EventKind kind, int a, int b) {
    /**
     * Tells whether it is of a kind and about something.
     *
     * @param wantedKind the kind
     * @param wantedA the first value
     * @return true if both fit
     */
    public boolean is(EventKind wantedKind, int wantedA) {
        return kind == wantedKind && a == wantedA;
    }
}
