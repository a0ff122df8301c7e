package snagbench.bench.run;

import java.util.Optional;

/**
 * Whether a plan noticed one change of the control code.
 *
 * @param kind what was changed
 * @param name of the fail-safe, or of the constant
 * @param from the constant as built; empty for a fail-safe
 * @param to the constant as changed; empty for a fail-safe
 * @param runs how many scripts were run with it for this alone; 0 where an inhibited run had settled it before
 * @param rigMicros how long these took on the rig's clock
 * @param noticedBy the script that did not pass with it; empty where all that were tried passed
 * @param how what that script came to, and why
 * @param notPossible why it could not be tried; empty where it was
 */
public record ChangeResult(
        Kind kind,
        String name,
        String from,
        String to,
        int runs,
        long rigMicros,
        Optional<String> noticedBy,
        String how,
        Optional<String> notPossible) {
    /** What was changed. */
    public enum Kind {
        /** A fail-safe was left out. */
        FAILSAFE,
        /** A constant was another. */
        CONSTANT
    }

    /**
     * The change as people read it.
     *
     * @return such as "without FS-02" or "reach.current-limit 4.50 A -> 4.95 A"
     */
    public String words() {
        return kind == Kind.FAILSAFE ? "without " + name : name + (from.isEmpty() ? "" : " " + from + " -> " + to);
    }
}
