package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Source;

/** A reading against a limit, which itself may not be known exactly. */
final class Compared implements TermSignal, Slack {
    private final ChannelDescription channel;
    private final String name;
    private final Cells cells;
    private final Relation relation;
    private final long leastLimit;
    private final long greatestLimit;
    private final boolean up;

    Compared(
            ChannelDescription channel,
            Source source,
            Cells cells,
            Relation relation,
            long leastLimit,
            long greatestLimit) {
        this.channel = channel;
        this.name = Readings.name(channel, source);
        this.cells = cells;
        this.relation = relation;
        this.leastLimit = leastLimit;
        this.greatestLimit = greatestLimit;
        this.up = relation == Relation.AT_LEAST || relation == Relation.ABOVE;
    }

    @Override
    public int at(int tick) {
        return Truth.of(relation, 0, cells.least(tick) - greatestLimit, cells.greatest(tick) - leastLimit);
    }

    @Override
    public int somewhere(int row, int first, int last) {
        int found = TermSignal.super.somewhere(row, first, last);
        for (long value : cells.seenIn(row)) {
            int truth = Truth.of(relation, 0, value - greatestLimit, value - leastLimit);
            found |= truth == Truth.UNKNOWN ? 0 : truth;
        }
        return found;
    }

    @Override
    public String reading(int tick) {
        return Readings.of(channel, name, cells, tick);
    }

    @Override
    public boolean isState() {
        return !channel.valueNames().isEmpty();
    }

    @Override
    public int firstTick() {
        return cells.firstTick();
    }

    @Override
    public Optional<Slack> slack() {
        boolean hasSize = relation != Relation.IS
                && relation != Relation.IS_NOT
                && channel.valueNames().isEmpty();
        return hasSize ? Optional.of(this) : Optional.empty();
    }

    @Override
    public ChannelDescription channel() {
        return channel;
    }

    @Override
    public boolean isOpen(int tick) {
        return cells.isOpen(tick);
    }

    @Override
    public long least(int tick) {
        return up ? cells.least(tick) - greatestLimit : leastLimit - cells.greatest(tick);
    }

    @Override
    public long greatest(int tick) {
        return up ? cells.greatest(tick) - leastLimit : greatestLimit - cells.least(tick);
    }

    @Override
    public String value(int tick, boolean nearest) {
        return Readings.show(channel, up == nearest ? cells.least(tick) : cells.greatest(tick));
    }

    @Override
    public String name() {
        return name;
    }
}
