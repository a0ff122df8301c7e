package snagbench.bench.script.write;

import java.math.BigDecimal;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Expectation;

/** Figures with their units, exactly, as a reader takes them. */
final class Figures {
    private static final BigDecimal HUNDREDTH = BigDecimal.valueOf(1, 2);

    private Figures() {}

    /** A value of a channel: its name, or figure and unit. */
    static String value(ChannelDescription channel, int raw) {
        return channel.show(raw);
    }

    /** A figure in fractions of a channel's steps. */
    static String steps(ChannelDescription channel, BigDecimal steps) {
        String figure = channel.step().multiply(steps).stripTrailingZeros().toPlainString();
        return channel.unit().isEmpty() ? figure : figure + " " + channel.unit();
    }

    /** A time, in the largest unit in which it is a whole number. */
    static String time(long micros) {
        if (micros % 1_000_000 == 0) {
            return micros / 1_000_000 + " s";
        }
        return micros % 1000 == 0 ? micros / 1000 + " ms" : micros + " us";
    }

    /** A window: its deadline alone, where it has no lower edge. */
    static String window(Expectation.Window window) {
        return window.leastMicros() == 0
                ? time(window.mostMicros())
                : time(window.leastMicros()) + " .. " + time(window.mostMicros());
    }

    static String ticks(int ticks) {
        return ticks + (ticks == 1 ? " tick" : " ticks");
    }

    /** A factor; in percent where that is a whole number of it. */
    static String factor(BigDecimal factor) {
        boolean percent = factor.remainder(HUNDREDTH).signum() == 0 && factor.signum() > 0;
        return percent ? factor.movePointRight(2).stripTrailingZeros().toPlainString() + " %" : factor.toPlainString();
    }
}
