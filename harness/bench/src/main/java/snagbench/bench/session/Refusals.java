package snagbench.bench.session;

import snagbench.wire.Answer;
import snagbench.wire.Refusal;

/** What a rig's refusal means to the user. */
final class Refusals {
    private Refusals() {}

    static String words(Answer told) {
        Refusal refusal = Refusal.of(told.code);
        if (refusal == null) {
            return "refusal " + told.code + ", which this version does not know";
        }
        return switch (refusal) {
            case BUSY -> "another harness has it; its lease lives for " + told.word + " ms more";
            case UNKNOWN_REQUEST -> "its probe does not know the request";
            case OTHER_SESSION -> "it is in another session";
            case OTHER_BOOT -> "its controller has restarted since";
            case MALFORMED -> "field " + told.word + " of the request is missing or out of range";
            case UNKNOWN_KIND -> "its probe cannot do that (code " + told.word + ")";
            case MISMATCH -> "what it holds is not what was loaded";
            case LATCHED -> "a stop is latched (" + (told.word == 2 ? "a guard tripped" : "the lease ran out") + ")";
            case NO_LEASE -> "it has no lease";
            case NO_ROOM -> "it has room for " + told.word;
            case NOT_NOW -> "not while a script is armed or the safe stop runs";
            case NEEDS_GUARD ->
                "a lasting fault on channel " + told.word + ", which closes a control loop, needs a guard";
            case NOT_ENABLED -> "its physical enable is off";
            case NOT_ALLOWED -> "channel " + told.word + " may not be forced so";
        };
    }
}
