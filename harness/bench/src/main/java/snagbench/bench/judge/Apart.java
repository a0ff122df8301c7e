package snagbench.bench.judge;

import java.util.function.IntPredicate;
import java.util.function.IntToLongFunction;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition.Relation;

/** How far two readings are apart, against how far they may be, or must be. */
final class Apart implements Slack {
    private final ChannelDescription channel;
    private final String name;
    private final boolean mustBeMore;
    private final long limit;
    private final IntToLongFunction least;
    private final IntToLongFunction greatest;
    private final IntPredicate open;

    /**
     * Of a difference.
     *
     * @param channel whose steps
     * @param name what is compared, in words
     * @param relation how the difference's size must be to the limit
     * @param limit at least 0
     * @param least the least that the difference can be at a tick, signed
     * @param greatest the greatest
     * @param open whether nothing bounds it there
     */
    Apart(
            ChannelDescription channel,
            String name,
            Relation relation,
            long limit,
            IntToLongFunction least,
            IntToLongFunction greatest,
            IntPredicate open) {
        this.channel = channel;
        this.name = name;
        this.mustBeMore = relation == Relation.ABOVE || relation == Relation.AT_LEAST;
        this.limit = limit;
        this.least = least;
        this.greatest = greatest;
        this.open = open;
    }

    private long nearest(int tick) {
        long low = least.applyAsLong(tick);
        long high = greatest.applyAsLong(tick);
        return low <= 0 && high >= 0 ? 0 : Math.min(Math.abs(low), Math.abs(high));
    }

    private long furthest(int tick) {
        return Math.max(Math.abs(least.applyAsLong(tick)), Math.abs(greatest.applyAsLong(tick)));
    }

    @Override
    public ChannelDescription channel() {
        return channel;
    }

    @Override
    public boolean isOpen(int tick) {
        return open.test(tick);
    }

    @Override
    public long least(int tick) {
        return mustBeMore ? nearest(tick) - limit : limit - furthest(tick);
    }

    @Override
    public long greatest(int tick) {
        return mustBeMore ? furthest(tick) - limit : limit - nearest(tick);
    }

    @Override
    public String value(int tick, boolean worst) {
        return Readings.show(channel, worst == mustBeMore ? nearest(tick) : furthest(tick));
    }

    @Override
    public String name() {
        return name;
    }
}
