package snagbench.bench.judge;

import java.util.List;
import java.util.Optional;
import snagbench.bench.script.ChannelDescription;

/** The distance of one reading from the nearest of several limits that all hold for it, such as the two edges of a band. */
final class Narrowest implements Slack {
    private final List<Slack> all;

    private Narrowest(List<Slack> all) {
        this.all = List.copyOf(all);
    }

    /** That of the terms of a condition; empty where one has none, or where they are about different readings. */
    static Optional<Slack> of(List<TermSignal> terms) {
        List<Slack> found = terms.stream().flatMap(one -> one.slack().stream()).toList();
        if (found.isEmpty() || found.size() < terms.size()) {
            return Optional.empty();
        }
        Slack first = found.get(0);
        boolean isOne = found.stream()
                .allMatch(one ->
                        one.channel().equals(first.channel()) && one.name().equals(first.name()));
        if (!isOne) {
            return Optional.empty();
        }
        return Optional.of(found.size() == 1 ? first : new Narrowest(found));
    }

    @Override
    public ChannelDescription channel() {
        return all.get(0).channel();
    }

    @Override
    public boolean isOpen(int tick) {
        return all.stream().anyMatch(one -> one.isOpen(tick));
    }

    @Override
    public long least(int tick) {
        long found = Long.MAX_VALUE;
        for (Slack one : all) {
            found = Math.min(found, one.least(tick));
        }
        return found;
    }

    @Override
    public long greatest(int tick) {
        long found = Long.MAX_VALUE;
        for (Slack one : all) {
            found = Math.min(found, one.greatest(tick));
        }
        return found;
    }

    @Override
    public String value(int tick, boolean nearest) {
        Slack narrowest = all.get(0);
        for (Slack one : all) {
            boolean isLess =
                    nearest ? one.least(tick) < narrowest.least(tick) : one.greatest(tick) < narrowest.greatest(tick);
            narrowest = isLess ? one : narrowest;
        }
        return narrowest.value(tick, nearest);
    }

    @Override
    public String name() {
        return all.get(0).name();
    }
}
