package snagbench.bench.session;

import java.util.OptionalInt;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Source;
import snagbench.wire.Record;

/** What the rig reported last of each watched channel. */
final class LiveReadings {
    private final int[] watched;
    private final int[] told;
    private final int[] real;
    private boolean any;

    LiveReadings(int[] watched, int channels) {
        this.watched = watched;
        this.told = new int[channels];
        this.real = new int[channels];
    }

    void take(Record part) {
        for (int i = 0; i < part.count() && part.first + i < watched.length; i++) {
            int channel = watched[part.first + i];
            told[channel] = part.told(i);
            real[channel] = part.real(i);
        }
        any |= (part.flags & Record.MORE) == 0;
    }

    /** Tells whether a condition held in the last record; what a single record cannot show, does not hold. */
    boolean hold(Condition condition) {
        return any
                && condition.terms().stream()
                        .allMatch(term -> term instanceof Condition.Compares compares
                                && compares.relation().holds(value(compares), compares.raw()));
    }

    OptionalInt told(ChannelDescription channel) {
        return any ? OptionalInt.of(told[channel.index()]) : OptionalInt.empty();
    }

    OptionalInt real(ChannelDescription channel) {
        return any ? OptionalInt.of(real[channel.index()]) : OptionalInt.empty();
    }

    void forget() {
        any = false;
    }

    private int value(Condition.Compares compares) {
        return (compares.source() == Source.TOLD ? told : real)
                [compares.channel().index()];
    }
}
