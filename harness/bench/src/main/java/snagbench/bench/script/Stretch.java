package snagbench.bench.script;

import java.util.Optional;

/**
 * The ticks in which something must hold, must not hold, or is counted.
 *
 * @param from what it begins with
 * @param window the ticks in which the time since {@code from} lies within, both edges belonging to it; empty for all from
 *     {@code from} on
 * @param to what it ends with; empty for the script's end. Not together with a window
 */
public record Stretch(Anchor from, Optional<Expectation.Window> window, Optional<Anchor> to) {
    /** From the end of the script's beginning to the script's end. */
    public static final Stretch WHOLE = new Stretch(new Anchor.OfBegin(), Optional.empty(), Optional.empty());
}
