package snagbench.bench.judge;

import java.util.Optional;

/**
 * What the time from the strike to the recovery was made of.
 *
 * @param detected the first report of the fail-safe that must answer
 * @param begun the first change of the control code's step from that report on, or from the strike on where no fail-safe must
 *     answer: the response begins
 * @param recovered the latest state that had to come about and did, behind the answer where a fail-safe must answer
 */
public record Split(Optional<Reached> detected, Optional<Reached> begun, Optional<Reached> recovered) {
    /** Nothing of it was seen. */
    public static final Split NONE = new Split(Optional.empty(), Optional.empty(), Optional.empty());
}
