package snagbench.bench.script.read;

import java.util.Optional;

/**
 * Two ends with ".." between them, such as "80 ms .. 250 ms".
 *
 * @param from what stands before
 * @param to what stands behind
 */
record Span(Part from, Part to) {
    private static final String DOTS = "..";

    /** Takes a text apart; empty where it has no dots. */
    static Optional<Span> of(Part text) {
        int dots = text.text().indexOf(DOTS);
        return dots < 0
                ? Optional.empty()
                : Optional.of(new Span(text.between(0, dots), text.from(dots + DOTS.length())));
    }
}
