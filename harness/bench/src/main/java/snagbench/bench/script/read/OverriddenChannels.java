package snagbench.bench.script.read;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import snagbench.bench.script.Injection;

/**
 * Checks that a condition on a channel that the script overrides says which reading it means.
 *
 * <p>Where only the override that a "when" itself starts changes the channel, both readings are the same until then, and
 * nothing needs to be said.
 */
final class OverriddenChannels {
    private OverriddenChannels() {}

    static void check(List<Injection> injections, List<Mention> mentions, Findings findings) {
        Map<Integer, Set<Integer>> byChannel = new HashMap<>();
        for (int injection = 0; injection < injections.size(); injection++) {
            for (Injection.Forcing forcing : injections.get(injection).forcings()) {
                byChannel
                        .computeIfAbsent(forcing.channel().index(), channel -> new HashSet<>())
                        .add(injection);
            }
        }
        for (Mention mention : mentions) {
            Set<Integer> by = byChannel.getOrDefault(mention.channel().index(), Set.of());
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
