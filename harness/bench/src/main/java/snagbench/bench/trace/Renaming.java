package snagbench.bench.trace;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.RigDescription;
import snagbench.wire.EventKind;

/** From the channels and fail-safes of one description to those of the same names in another. */
final class Renaming {
    private final RigDescription from;
    private final RigDescription to;
    private final int[] channels;

    private Renaming(RigDescription from, RigDescription to, int[] channels) {
        this.from = from;
        this.to = to;
        this.channels = channels;
    }

    static Renaming between(RigDescription from, RigDescription to) {
        int[] channels = new int[from.channels().size()];
        Arrays.fill(channels, -1);
        for (ChannelDescription one : from.channels()) {
            Optional<ChannelDescription> other = to.channel(one.name());
            if (other.isPresent() && isSame(one, other.get())) {
                channels[one.index()] = other.get().index();
            }
        }
        return new Renaming(from, to, channels);
    }

    /** Whether a figure of one is the same figure of the other. */
    private static boolean isSame(ChannelDescription one, ChannelDescription other) {
        return one.kind() == other.kind()
                && one.unit().equals(other.unit())
                && one.stepMultiplier() == other.stepMultiplier()
                && one.stepExponent() == other.stepExponent()
                && one.valueNames().equals(other.valueNames());
    }

    Trace of(Trace trace) {
        List<Happening> events = new ArrayList<>();
        for (Happening one : trace.events()) {
            int a = one.a();
            if (one.kind() == EventKind.STATE) {
                a = one.a() >= 0 && one.a() < channels.length ? channels[one.a()] : -1;
            } else if (one.kind() == EventKind.ANSWERED) {
                a = failSafe(one.a());
            }
            events.add(new Happening(one.number(), one.tick(), one.micros(), one.kind(), a, one.b()));
        }
        return trace.renamed(to, channels, List.copyOf(events));
    }

    private int failSafe(int number) {
        return from.failSafes().stream()
                .filter(one -> one.number() == number)
                .findFirst()
                .flatMap(one -> to.failSafe(one.name()))
                .map(FailSafeDescription::number)
                .orElse(-1);
    }
}
