package snagbench.bench.script.read;

import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snagbench.bench.script.yaml.Shown;

/**
 * Reads numbers of ticks: "10 ticks", or a time where the rig's loop time is fixed. An empty answer has been reported.
 */
final class Ticks {
    /** The longest window over which a probe compares readings; the past of each channel is kept so long. */
    static final int MOST_WINDOW = 64;

    private static final Pattern TICKS = Pattern.compile("([+-]?[0-9]+)(?:\\s*ticks?)");

    private final Findings findings;
    private final Times times;

    Ticks(Findings findings, Times times) {
        this.findings = findings;
        this.times = times;
    }

    /**
     * A number of ticks within a range.
     *
     * @param what what it is, such as "a delay"
     */
    OptionalInt read(Part part, int least, int most, String what) {
        Matcher matcher = TICKS.matcher(part.text());
        return matcher.matches() ? inRange(part, matcher.group(1), least, most, what) : ofTime(part, least, most, what);
    }

    private OptionalInt inRange(Part part, String digits, int least, int most, String what) {
        if (digits.length() <= 10) {
            long ticks = Long.parseLong(digits);
            if (ticks >= least && ticks <= most) {
                return OptionalInt.of((int) ticks);
            }
        }
        return outOfRange(part, least, most, what);
    }

    private OptionalInt outOfRange(Part part, int least, int most, String what) {
        findings.error(
                part.at(),
                what + " of " + Shown.quoted(part.text()) + " is not from " + least + " to " + most + " ticks",
                "take a number in that range");
        return OptionalInt.empty();
    }

    private OptionalInt ofTime(Part part, int least, int most, String what) {
        long loop = times.loopMicros();
        if (part.text().matches("[+-]?[0-9]+")) {
            findings.error(
                    part.at(),
                    what + " of " + Shown.quoted(part.text()) + " has no unit",
                    "write \"" + part.text() + " ticks\" if that is what you mean");
            return OptionalInt.empty();
        }
        if (loop == 0) {
            findings.error(
                    part.at(),
                    Shown.quoted(part.text())
                            + " is no number of ticks, and this rig's loop runs free: it counts ticks,"
                            + " and has no fixed time for one",
                    "write \"10 ticks\"");
            return OptionalInt.empty();
        }
        OptionalInt none = OptionalInt.empty();
        long micros = times.microsFromZero(part, what).orElse(-1);
        if (micros < 0) {
            return none;
        }
        long ticks = (micros + loop / 2) / loop;
        if (ticks < least || ticks > most) {
            return outOfRange(part, least, most, what);
        }
        if (micros % loop != 0) {
            findings.warning(
                    part.at(),
                    part.text() + " is no whole number of ticks of " + loop + " us; it is taken as " + ticks + " ticks",
                    "write \"" + ticks + " ticks\"");
        }
        return OptionalInt.of((int) ticks);
    }
}
