package snagbench.bench.script.read;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Source;

/** Which values of each reading the terms of a condition allow: from one to another, less some. */
final class Intervals {
    private final Map<Reading, Allowed> byReading = new HashMap<>();

    /** A reading of a channel. */
    record Reading(ChannelDescription channel, Source source) {}

    /** Values from least to most, both among them, without some. */
    private record Allowed(long least, long most, Set<Integer> without) {
        boolean isEmpty() {
            long inside =
                    without.stream().filter(raw -> raw >= least && raw <= most).count();
            return most - least + 1 <= inside;
        }
    }

    private Intervals() {}

    /** What the comparisons of a condition allow; what else stands in it is passed over. */
    static Intervals of(List<Condition.Term> terms) {
        Intervals intervals = new Intervals();
        for (Condition.Term term : terms) {
            if (term instanceof Condition.Compares one) {
                intervals.narrow(new Reading(one.channel(), one.source()), one.relation(), one.raw());
            } else if (term instanceof Condition.Crosses one) {
                Condition.Relation relation = one.rises() ? Condition.Relation.AT_LEAST : Condition.Relation.AT_MOST;
                intervals.narrow(new Reading(one.channel(), one.source()), relation, one.raw());
            }
        }
        return intervals;
    }

    private void narrow(Reading reading, Condition.Relation relation, int raw) {
        Allowed was = byReading.getOrDefault(
                reading,
                new Allowed(reading.channel().lowest(), reading.channel().highest(), Set.of()));
        Set<Integer> without = new HashSet<>(was.without());
        long least = was.least();
        long most = was.most();
        switch (relation) {
            case AT_LEAST -> least = Math.max(least, raw);
            case ABOVE -> least = Math.max(least, raw + 1L);
            case AT_MOST -> most = Math.min(most, raw);
            case BELOW -> most = Math.min(most, raw - 1L);
            case IS -> {
                least = Math.max(least, raw);
                most = Math.min(most, raw);
            }
            case IS_NOT -> without.add(raw);
        }
        byReading.put(reading, new Allowed(least, most, without));
    }

    /** A channel of which no value is allowed. */
    Optional<ChannelDescription> impossible() {
        return byReading.entrySet().stream()
                .filter(entry -> entry.getValue().isEmpty())
                .map(entry -> entry.getKey().channel())
                .findFirst();
    }

    /** Whether a reading may have a value. */
    boolean allows(Reading reading, int raw) {
        Allowed allowed = byReading.get(reading);
        return allowed == null
                || (raw >= allowed.least()
                        && raw <= allowed.most()
                        && !allowed.without().contains(raw));
    }

    /** The least value that a reading may have. */
    long least(Reading reading) {
        Allowed allowed = byReading.get(reading);
        return allowed == null ? reading.channel().lowest() : allowed.least();
    }

    /** The greatest value that a reading may have. */
    long most(Reading reading) {
        Allowed allowed = byReading.get(reading);
        return allowed == null ? reading.channel().highest() : allowed.most();
    }

    /** The readings that are narrowed. */
    Set<Reading> readings() {
        return Set.copyOf(byReading.keySet());
    }
}
