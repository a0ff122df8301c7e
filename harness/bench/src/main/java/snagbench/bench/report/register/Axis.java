package snagbench.bench.report.register;

import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Source;
import snagbench.wire.ChannelKind;

/**
 * A reading that conditions look at: a channel, told or real.
 *
 * @param channel which channel
 * @param source which reading of it
 */
record Axis(ChannelDescription channel, Source source) implements Comparable<Axis> {
    /** A state has but one reading. */
    Axis(ChannelDescription channel, Source source) {
        this.channel = channel;
        this.source = channel.kind() == ChannelKind.STATE ? Source.REAL : source;
    }

    /** As the register writes it, in which the told reading is the usual one. */
    String name() {
        boolean isUsual = source == Source.TOLD || channel.kind() == ChannelKind.STATE;
        return channel.name() + (isUsual ? "" : ".real");
    }

    Span whole() {
        return new Span(channel.lowest(), channel.highest());
    }

    /** A span in words, such as "100.0 mm .. 329.9 mm", "at least 2.50 A" or "REACHING or EASING". */
    String show(Span span) {
        if (!channel.valueNames().isEmpty()) {
            StringBuilder names = new StringBuilder();
            for (int value = span.least(); value <= span.most(); value++) {
                names.append(names.isEmpty() ? "" : " or ").append(channel.show(value));
            }
            return names.toString();
        }
        if (span.least() == span.most()) {
            return channel.show(span.least());
        }
        if (span.most() >= channel.highest()) {
            return "at least " + channel.show(span.least());
        }
        return span.least() <= channel.lowest()
                ? "at most " + channel.show(span.most())
                : channel.show(span.least()) + " .. " + channel.show(span.most());
    }

    /** The step first, then as the rig has them. */
    @Override
    public int compareTo(Axis other) {
        return Integer.compare(rank(), other.rank());
    }

    private int rank() {
        return channel.isStep() ? 0 : 1 + 2 * channel.index() + (source == Source.REAL ? 0 : 1);
    }
}
