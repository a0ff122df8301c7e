package snagbench.bench.report.register;

import java.util.Optional;

/**
 * Values on a channel's grid, from one to another.
 *
 * @param least in the channel's steps
 * @param most in the channel's steps, not below the least
 */
record Span(int least, int most) {
    Optional<Span> and(Span other) {
        return of(Math.max(least, other.least), Math.min(most, other.most));
    }

    /** The part of it that lies below another. */
    Optional<Span> below(Span other) {
        return of(least, Math.min(most, other.least - 1L));
    }

    /** The part of it that lies above another. */
    Optional<Span> above(Span other) {
        return of(Math.max(least, other.most + 1L), most);
    }

    boolean has(Span other) {
        return least <= other.least && other.most <= most;
    }

    /** Empty where there is no such value. */
    static Optional<Span> of(long least, long most) {
        return least <= most ? Optional.of(new Span((int) least, (int) most)) : Optional.empty();
    }

    /** A value of it to show: as near 0 as there is one. */
    int example() {
        return least > 0 ? least : Math.min(most, 0);
    }
}
