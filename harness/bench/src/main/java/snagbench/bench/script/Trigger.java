package snagbench.bench.script;

/**
 * What strikes an injection, on the rig itself. It is looked at from its anchor on; an occasion is a tick in which the
 * condition has held so long and did not, or was not looked at, in the tick before.
 *
 * @param after from when on it is looked at: the beginning, a strike of another injection, or an expectation having been
 *     met
 * @param when the condition; without terms it holds at once
 * @param forMicros how long the condition must have held, on the rig's clock
 * @param delayMicros how long after the occasion it strikes, on the rig's clock
 * @param occasion which occasion strikes first, from 1
 * @param times how often it strikes at most; 0 for without limit
 */
public record Trigger(Anchor after, Condition when, long forMicros, long delayMicros, int occasion, int times) {
    /**
     * Strikes once, at the first occasion after the beginning.
     *
     * @param when the condition
     * @return the trigger
     */
    public static Trigger at(Condition when) {
        return new Trigger(new Anchor.OfBegin(), when, 0, 0, 1, 1);
    }
}
