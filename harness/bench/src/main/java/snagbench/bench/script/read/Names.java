package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Stream;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.Source;
import snagbench.bench.script.yaml.Shown;
import snagbench.wire.ChannelKind;

/** Finds what names in a file mean on a rig. An empty answer has been reported. */
final class Names {
    private static final String TOLD = ".told";
    private static final String REAL = ".real";

    private final RigDescription rig;
    private final Findings findings;
    private final List<ChannelDescription> derived = new ArrayList<>();

    Names(RigDescription rig, Findings findings) {
        this.rig = rig;
        this.findings = findings;
    }

    /**
     * A channel as a condition names it.
     *
     * @param channel the channel
     * @param source which reading, where the name says so
     */
    record Reading(ChannelDescription channel, Optional<Source> source) {}

    /** Adds a quantity that is worked out from the trace; its name is free. */
    void addDerived(ChannelDescription channel) {
        derived.add(channel);
    }

    /** Whether a channel is worked out from the trace, so that the rig knows nothing of it. */
    boolean isDerived(ChannelDescription channel) {
        return channel.index() >= rig.channels().size();
    }

    /** The index of the next derived channel. */
    int nextIndex() {
        return rig.channels().size() + derived.size();
    }

    /** Whether a derived channel may be called so. */
    boolean isFree(Part name) {
        String text = name.text();
        boolean reserved =
                Set.of("step", "failsafe", "any-of").contains(text) || text.endsWith(TOLD) || text.endsWith(REAL);
        boolean taken = rig.channel(text).isPresent()
                || derived.stream().anyMatch(one -> one.name().equals(text));
        if (reserved || taken) {
            findings.error(
                    name.at(),
                    "the name " + Shown.quoted(text)
                            + (reserved ? " means something else in a condition" : " is taken by another channel"),
                    "take another one");
        }
        return !reserved && !taken;
    }

    /** A channel of any kind, by its name alone. */
    Optional<ChannelDescription> channel(Part name) {
        Optional<ChannelDescription> channel = rig.channel(name.text());
        if (channel.isEmpty()) {
            unknown(name, name.text());
        }
        return channel;
    }

    /** A channel of one of these kinds. */
    Optional<ChannelDescription> channel(Part name, Set<ChannelKind> kinds, String wanted) {
        Optional<ChannelDescription> channel = rig.channel(name.text());
        if (channel.isPresent() && kinds.contains(channel.get().kind())) {
            return channel;
        }
        List<String> right = rig.channels().stream()
                .filter(one -> kinds.contains(one.kind()))
                .map(ChannelDescription::name)
                .toList();
        findings.error(
                name.at(),
                channel.isPresent()
                        ? Shown.quoted(name.text()) + " is "
                                + words(channel.get().kind()) + ", where " + wanted + " is wanted"
                        : "the rig has no " + wanted.replaceFirst("^an? ", "") + " " + Shown.quoted(name.text()),
                () -> NearestName.cure(name.text(), right));
        return Optional.empty();
    }

    /** A channel in a condition: "step" is the rig's step, and the name may end in ".told" or ".real". */
    Optional<Reading> reading(Part name) {
        String text = name.text();
        Optional<ChannelDescription> exactly =
                text.equals("step") ? rig.step().or(() -> rig.channel(text)) : rig.channel(text);
        if (exactly.isPresent()) {
            return Optional.of(new Reading(exactly.get(), Optional.empty()));
        }
        Optional<ChannelDescription> worked =
                derived.stream().filter(one -> one.name().equals(text)).findFirst();
        if (worked.isPresent()) {
            return Optional.of(new Reading(worked.get(), Optional.empty()));
        }
        if (text.endsWith(TOLD) || text.endsWith(REAL)) {
            String stem = text.substring(0, text.length() - TOLD.length());
            Optional<ChannelDescription> channel = rig.channel(stem);
            if (channel.isEmpty()) {
                unknown(name, stem);
            }
            Source source = text.endsWith(TOLD) ? Source.TOLD : Source.REAL;
            return channel.map(found -> new Reading(found, Optional.of(source)));
        }
        unknown(name, text);
        return Optional.empty();
    }

    Optional<FailSafeDescription> failSafe(Part name) {
        Optional<FailSafeDescription> failSafe = rig.failSafe(name.text());
        if (failSafe.isEmpty()) {
            List<String> right =
                    rig.failSafes().stream().map(FailSafeDescription::name).toList();
            findings.error(
                    name.at(),
                    "the rig has no fail-safe " + Shown.quoted(name.text()),
                    () -> NearestName.cure(name.text(), right));
        }
        return failSafe;
    }

    /** The channel by which a fail-safe is left out. */
    Optional<ChannelDescription> inhibition(FailSafeDescription failSafe) {
        OptionalInt index = failSafe.inhibition();
        return index.isPresent() && index.getAsInt() < rig.channels().size()
                ? Optional.of(rig.channels().get(index.getAsInt()))
                : Optional.empty();
    }

    private void unknown(Part name, String stem) {
        List<String> right = new ArrayList<>();
        rig.channels().forEach(channel -> right.add(channel.name()));
        derived.forEach(channel -> right.add(channel.name()));
        findings.error(name.at(), "the rig has no channel " + Shown.quoted(stem), () -> withoutReading(stem, right)
                .map(channel -> "a fault is on what is told in any case: write \"" + channel + "\"")
                .orElseGet(() -> hint(stem) + NearestName.cure(stem, right)));
    }

    private static String hint(String stem) {
        if (!stem.isEmpty() && Character.isDigit(stem.charAt(0))) {
            return "figures have a decimal point: a comma parts what stands in braces; ";
        }
        return stem.contains(":") ? "a space is wanted after the colon; " : "";
    }

    /** The channel of a name with ".told" or ".real" behind it, where no reading is chosen. */
    private static Optional<String> withoutReading(String stem, List<String> right) {
        return Stream.of(".told", ".real")
                .filter(stem::endsWith)
                .map(ending -> stem.substring(0, stem.length() - ending.length()))
                .filter(right::contains)
                .findFirst();
    }

    static String words(ChannelKind kind) {
        return switch (kind) {
            case SENSOR -> "a sensor";
            case ACTUATOR -> "an actuator";
            case COMMAND -> "a command";
            case STATE -> "a state";
            case COUNTER -> "a counter";
            case DISTURBANCE -> "a disturbance";
            case INHIBITION -> "an inhibition of a fail-safe";
            case CONSTANT -> "a constant";
        };
    }
}
