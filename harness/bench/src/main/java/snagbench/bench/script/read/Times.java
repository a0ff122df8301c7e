package snagbench.bench.script.read;

import java.math.BigInteger;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.quantity.Grid;
import snagbench.bench.script.quantity.Quantity;
import snagbench.bench.script.quantity.Unit;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlNode;

/** Reads times and windows. A time that could not be read has been reported and is given as 0. */
final class Times {
    /**
     * The longest time on a rig: 2^31 - 1 microseconds. Its clock has 32 bits of microseconds, and times on it are
     * compared by their signed difference.
     */
    static final long MOST_ON_THE_RIG = Integer.MAX_VALUE;

    /** The longest time that is only worked with by the harness: a day. */
    static final long MOST_ELSEWHERE = 24L * 3600 * 1_000_000;

    private static final String MOST_SHOWN = "35 min (2^31 - 1 us, half the range of the rig's clock)";

    private final Findings findings;
    private final Values values;
    private final long loopMicros;

    /** Reads times for a rig whose loop takes so long; 0 where it is not known or runs free. */
    Times(Findings findings, long loopMicros) {
        this.findings = findings;
        this.values = new Values(findings);
        this.loopMicros = loopMicros;
    }

    /** The rig's loop time; 0 where it is not known or runs free. */
    long loopMicros() {
        return loopMicros;
    }

    /** A time on the rig's clock from 0 on; empty where it could not be read, which has been reported. */
    OptionalLong microsFromZero(Part part, String what) {
        return time(part, what, MOST_ON_THE_RIG, MOST_SHOWN, false);
    }

    /** A time on the rig's clock, above 0. */
    long micros(YamlNode node, String what) {
        return values.line(node, what).map(part -> onTheRig(part, what, true)).orElse(0L);
    }

    /** A time on the rig's clock, above 0. */
    long micros(Part part, String what) {
        return onTheRig(part, what, true);
    }

    /** A time that the harness alone works with. */
    long harnessMicros(YamlNode node, String what, boolean aboveZero) {
        return values.line(node, what)
                .map(part -> time(part, what, MOST_ELSEWHERE, "24 h", aboveZero).orElse(0))
                .orElse(0L);
    }

    /** A deadline, or a window with both its edges. */
    Expectation.Window window(YamlNode node) {
        Optional<Part> part = values.line(node, "a time");
        if (part.isEmpty()) {
            return new Expectation.Window(0, 0);
        }
        Optional<Span> span = Span.of(part.get());
        if (span.isEmpty()) {
            return new Expectation.Window(0, onTheRig(part.get(), "a deadline", true));
        }
        Part lower = span.get().from();
        Part upper = span.get().to();
        long least = onTheRig(lower, "a window's lower edge", false);
        long most = onTheRig(upper, "a window's upper edge", true);
        if (least > most && most > 0) {
            findings.error(
                    part.get().at(),
                    "the window " + Shown.quoted(part.get().text()) + " ends before it begins",
                    "write the earlier time first: \"" + upper.text() + " .. " + lower.text() + "\"");
        }
        return new Expectation.Window(least, most);
    }

    private long onTheRig(Part part, String what, boolean aboveZero) {
        long micros = time(part, what, MOST_ON_THE_RIG, MOST_SHOWN, aboveZero).orElse(0);
        if (micros > 0 && micros < loopMicros) {
            findings.warning(
                    part.at(),
                    what + " of " + part.text() + " is shorter than the rig's loop time of " + loopMicros + " us",
                    "times end at the first tick whose clock has reached them: in effect this is one tick");
        }
        return micros;
    }

    private OptionalLong time(Part part, String what, long most, String mostShown, boolean aboveZero) {
        Optional<Quantity> quantity = Quantity.parse(part.text());
        if (quantity.isEmpty()) {
            return wrong(
                    part,
                    Shown.quoted(part.text()) + " is no time",
                    "write figure and unit, such as \"250 ms\" (us, ms, s, min)");
        }
        String unit = quantity.get().unit();
        if (unit.isEmpty()) {
            return wrong(
                    part,
                    what + " of " + Shown.quoted(part.text()) + " has no unit",
                    "write \"" + part.text() + " ms\" if that is what you mean (us, ms, s, min)");
        }
        if (!Grid.MICROSECONDS.takes(unit)) {
            return wrong(part, Shown.quoted(unit) + " is no unit of time", NearestName.cure(unit, Unit.fitting("us")));
        }
        BigInteger micros = Grid.MICROSECONDS.floor(quantity.get());
        if (micros.signum() < 0) {
            return wrong(part, "a time below 0: " + part.text(), "write it without the sign");
        }
        if (!Grid.MICROSECONDS.has(quantity.get())) {
            return wrong(part, part.text() + " is no whole number of microseconds", "the rig's clock counts those");
        }
        if (micros.signum() == 0 && aboveZero) {
            return wrong(part, what + " of 0 leaves no time at all", "give it more, such as \"250 ms\"");
        }
        if (micros.compareTo(BigInteger.valueOf(most)) > 0) {
            return wrong(part, what + " of " + part.text() + " is too long", "at most " + mostShown + " will do");
        }
        return OptionalLong.of(micros.longValueExact());
    }

    private OptionalLong wrong(Part part, String message, String cure) {
        findings.error(part.at(), message, cure);
        return OptionalLong.empty();
    }
}
