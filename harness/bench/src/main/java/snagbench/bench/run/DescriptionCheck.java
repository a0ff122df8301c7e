package snagbench.bench.run;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.RigDescription;

/** Where a connected rig differs from its stored description. */
public final class DescriptionCheck {
    private DescriptionCheck() {}

    /**
     * Compares.
     *
     * @param stored what the scripts were checked against
     * @param live what the rig tells
     * @return a sentence for each difference; empty if there is none
     */
    public static List<String> differences(RigDescription stored, RigDescription live) {
        List<String> differences = new ArrayList<>();
        if (stored.limits().real() != live.limits().real()) {
            differences.add(
                    live.limits().real()
                            ? "it is a real rig, and the stored one is virtual"
                            : "it is a virtual rig, and the stored one is real");
        }
        if (stored.digest() == live.digest()) {
            return differences;
        }
        for (ChannelDescription was : stored.channels()) {
            Optional<ChannelDescription> is = live.channel(was.name());
            if (is.isEmpty()) {
                differences.add("the rig has no channel \"" + was.name() + "\" any more");
            } else if (!is.get().equals(was)) {
                differences.add(
                        "channel \"" + was.name() + "\" is another: stored " + show(was) + ", rig " + show(is.get()));
            }
        }
        for (ChannelDescription is : live.channels()) {
            if (stored.channel(is.name()).isEmpty()) {
                differences.add("the rig has a new channel \"" + is.name() + "\"");
            }
        }
        if (!stored.failSafes().equals(live.failSafes())) {
            differences.add("its fail-safes are others: stored " + stored.failSafes() + ", rig " + live.failSafes());
        }
        if (differences.isEmpty()) {
            differences.add(String.format("its digest is %08x, stored %08x", live.digest(), stored.digest()));
        }
        return differences;
    }

    private static String show(ChannelDescription channel) {
        return "no. " + channel.index() + ", " + channel.kind() + ", " + channel.show(channel.lowest()) + " .. "
                + channel.show(channel.highest()) + ", values " + channel.valueNames();
    }
}
