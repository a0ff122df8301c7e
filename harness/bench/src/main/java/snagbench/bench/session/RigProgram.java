package snagbench.bench.session;

import java.util.List;
import snagbench.wire.ProgramDigest;
import snagbench.wire.RequestBody;

/**
 * A fault script as the rig holds it: messages to be loaded in order.
 *
 * @param entries how many entries it has
 * @param messages entries with their terms, in order
 * @param digest over the messages
 */
record RigProgram(int entries, List<RequestBody> messages, int digest) {
    RigProgram {
        messages = List.copyOf(messages);
    }

    static int digestOf(List<? extends RequestBody> messages) {
        ProgramDigest digest = new ProgramDigest();
        messages.forEach(digest::add);
        return digest.value();
    }
}
