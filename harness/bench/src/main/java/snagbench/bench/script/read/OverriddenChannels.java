package snagbench.bench.script.read;

import java.util.List;
import java.util.Map;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;

/**
 * Checks that a condition on a channel that the script overrides says which reading it means.
 *
 * <p>Where only the override that a "when" itself starts changes the channel, both readings are the same until then, and
 * nothing needs to be said.
 */
final class OverriddenChannels {
    private OverriddenChannels() {}

    static void check(Map<ChannelDescription, Set<Integer>> overridden, List<Mention> mentions, Findings findings) {
        for (Mention mention : mentions) {
            Set<Integer> by = overridden.getOrDefault(mention.channel(), Set.of());
            if (!by.isEmpty()) {
                report(mention, by, findings);
            }
        }
    }

    private static void report(Mention mention, Set<Integer> by, Findings findings) {
        String name = mention.channel().name();
        String message = "the script overrides " + name + ", and this does not say which reading it means";
        String cure = "write \"" + name + ".real\" or \"" + name + ".told\"";
        switch (mention.use()) {
            case WAIT_FOR -> {
                // Before any injection.
            }
            case WHEN -> {
                if (!by.equals(Set.of(mention.injection()))) {
                    findings.warning(mention.at(), message + "; it is taken as the real one", cure);
                }
            }
            default -> findings.error(mention.at(), message, cure);
        }
    }
}
