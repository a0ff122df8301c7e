package snagbench.bench.run;

/**
 * How a run ended.
 *
 * @param cause why it went no further
 * @param reason a sentence, empty where all was run
 */
public record RunEnd(Cause cause, String reason) {
    /** Why a run went no further. */
    public enum Cause {
        /** All was run. */
        COMPLETE,
        /** The user wanted it to stop. */
        CANCELLED,
        /** The rig or the line to it failed. */
        RIG
    }

    static RunEnd complete() {
        return new RunEnd(Cause.COMPLETE, "");
    }
}
