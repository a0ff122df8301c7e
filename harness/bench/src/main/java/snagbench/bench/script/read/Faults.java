package snagbench.bench.script.read;

import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.NoiseAmplitude;
import snagbench.bench.script.RampRate;
import snagbench.bench.script.ScaleFactor;
import snagbench.bench.script.quantity.Quantity;
import snagbench.bench.script.yaml.Shown;

/** Reads what an override does to a channel, where that is written on one line. An empty answer has been reported. */
final class Faults {
    /** The faults, as they are written. */
    static final List<String> KNOWN = List.of(
            "stuck-at",
            "freeze",
            "offset",
            "scale",
            "drift",
            "spike",
            "noise",
            "dropout",
            "delay",
            "replay",
            "intermittent");

    private static final Set<String> WITHOUT_VALUE = Set.of("freeze", "dropout");
    private static final Pattern OVER = Pattern.compile("(.*?)\\s+over\\b\\s*(.*)", Pattern.DOTALL);
    private static final Pattern FOR = Pattern.compile("(.*?)\\s+for\\b\\s*(.*)", Pattern.DOTALL);
    private static final Pattern PER = Pattern.compile("(.*?)\\s+per\\b\\s*(.*)", Pattern.DOTALL);
    private static final Pattern FIRST_WORD = Pattern.compile("(\\S+)(.*)", Pattern.DOTALL);
    private static final int LONGEST_DELAY = 65_535;

    private final Findings findings;
    private final ChannelValues values;
    private final Times times;
    private final Ticks ticks;
    private final Forceable forceable;

    Faults(Findings findings, Times times) {
        this.findings = findings;
        this.values = new ChannelValues(findings);
        this.times = times;
        this.ticks = new Ticks(findings, times);
        this.forceable = new Forceable(findings);
    }

    Optional<Fault> read(Part text, ChannelDescription channel) {
        Matcher matcher = FIRST_WORD.matcher(text.text());
        String word = matcher.matches() ? matcher.group(1) : "";
        if (!KNOWN.contains(word)) {
            unknown(text, word);
            return Optional.empty();
        }
        if (!forceable.takes(text, word, channel)) {
            return Optional.empty();
        }
        Part rest = text.from(matcher.start(2));
        if (WITHOUT_VALUE.contains(word)) {
            return withoutValue(word, rest);
        }
        if (rest.text().isEmpty()) {
            missing(rest, word, channel);
            return Optional.empty();
        }
        return switch (word) {
            case "stuck-at" -> stuckAt(rest, channel);
            case "offset" -> offset(rest, channel);
            case "scale" -> scale(rest, channel);
            case "drift" -> drift(rest, channel);
            case "spike" -> spike(rest, channel);
            case "noise" -> noise(rest, channel);
            case "delay" -> delay(rest);
            default -> ofItsOwn(text, word);
        };
    }

    /** A value at which a channel is stuck. */
    Optional<Fault> stuckAt(Part value, ChannelDescription channel) {
        OptionalInt raw = values.raw(value, channel, Rounding.NONE);
        if (raw.isEmpty() || !forceable.takesValue(value, raw.getAsInt(), channel)) {
            return Optional.empty();
        }
        warnOutside(value, raw.getAsInt(), channel);
        return Optional.of(new Fault.StuckAt(raw.getAsInt()));
    }

    /** Warns of a value that will be cut to a channel's range. */
    void warnOutside(Part value, int raw, ChannelDescription channel) {
        if (raw < channel.lowest() || raw > channel.highest()) {
            findings.warning(
                    value.at(),
                    value.text() + " is outside the range of " + channel.name() + " and will be cut to it",
                    ChannelValues.range(channel));
        }
    }

    private Optional<Fault> withoutValue(String word, Part rest) {
        if (!rest.text().isEmpty()) {
            boolean freeze = word.equals("freeze");
            findings.error(
                    rest.at(),
                    word + " takes no value, and there is " + Shown.quoted(rest.text()),
                    (freeze
                                    ? "it keeps the last good value"
                                    : "the control code is told what the channel has for \"no" + " reading\"")
                            + "; for a value of your own write \"stuck-at " + rest.text() + "\"");
            return Optional.empty();
        }
        return Optional.of(word.equals("freeze") ? new Fault.Freeze() : new Fault.Dropout());
    }

    private Optional<Fault> offset(Part rest, ChannelDescription channel) {
        Matcher over = OVER.matcher(rest.text());
        boolean ramped = over.matches();
        OptionalInt raw = added(ramped ? rest.between(0, over.end(1)) : rest, channel);
        Part time = ramped ? rest.from(over.start(2)) : rest;
        long micros = ramped ? times.micros(time, "the time of a ramp") : 0;
        if (raw.isEmpty() || isTooSteep(raw.getAsInt(), micros, time)) {
            return Optional.empty();
        }
        return Optional.of(new Fault.Offset(raw.getAsInt(), micros));
    }

    /** No ramp is too slow: the slowest that can be written, one step in {@link Times#MOST_ON_THE_RIG}, has a rate. */
    private boolean isTooSteep(int raw, long micros, Part time) {
        if (RampRate.of(raw, micros).isPresent()) {
            return false;
        }
        long shortest = RampRate.shortestMicros(raw);
        String longer = shortest > Times.MOST_ON_THE_RIG ? "" : "give it at least " + shortest + " us, or ";
        findings.error(
                time.at(),
                "a ramp over " + time.text() + " is steeper than the rig's probe can reckon",
                longer + "leave \"over\" out: then all of it is added at once");
        return true;
    }

    private Optional<Fault> scale(Part rest, ChannelDescription channel) {
        if (!channel.valueNames().isEmpty()) {
            return values.inSteps(rest, channel, "scale").flatMap(none -> Optional.empty());
        }
        Optional<Quantity> quantity = Quantity.parse(rest.text())
                .filter(one -> one.unit().isEmpty() || one.unit().equals("%"));
        if (quantity.isEmpty()) {
            return wrong(
                    rest,
                    Shown.quoted(rest.text()) + " is no factor",
                    "write a figure without a unit, or with %: \"scale 0.5\" and \"scale 50 %\" are the same");
        }
        boolean percent = quantity.get().unit().equals("%");
        BigDecimal number = quantity.get().number();
        BigDecimal factor = plain(percent ? number.movePointLeft(2) : number);
        if (ScaleFactor.of(factor).isEmpty()) {
            return wrong(rest, "a factor of " + rest.text(), "it lies from -32768 to below 32768");
        }
        if (factor.compareTo(BigDecimal.ONE) == 0) {
            findings.warning(rest.at(), "a factor of 1 changes nothing", "");
        }
        return forceable.takesFactor(rest, factor, channel) ? Optional.of(new Fault.Scale(factor)) : Optional.empty();
    }

    private Optional<Fault> drift(Part rest, ChannelDescription channel) {
        Matcher per = PER.matcher(rest.text());
        if (!per.matches() || !per.group(2).equals("s")) {
            String value = per.matches() ? per.group(1) : rest.text();
            return wrong(rest, "a drift says how fast: so much per second", "write \"drift " + value + " per s\"");
        }
        Part value = rest.between(0, per.end(1));
        Optional<BigDecimal> steps = values.inSteps(value, channel, "drift").map(Faults::plain);
        if (steps.isEmpty()) {
            return Optional.empty();
        }
        if (RampRate.perSecond(steps.get()).isEmpty()) {
            return wrong(
                    value,
                    "a drift of " + rest.text() + " is faster than the rig's probe can reckon",
                    "at most " + channel.show(RampRate.mostStepsPerSecond()) + " per s");
        }
        if (steps.get().signum() == 0) {
            findings.warning(value.at(), "a drift of " + value.text() + " per s changes nothing", "");
        }
        return Optional.of(new Fault.Drift(steps.get()));
    }

    private Optional<Fault> spike(Part rest, ChannelDescription channel) {
        Matcher lasting = FOR.matcher(rest.text());
        boolean timed = lasting.matches();
        OptionalInt raw = added(timed ? rest.between(0, lasting.end(1)) : rest, channel);
        OptionalLong micros = timed
                ? OptionalLong.of(times.micros(rest.from(lasting.start(2)), "the time of a spike"))
                : OptionalLong.empty();
        return raw.isEmpty() ? Optional.empty() : Optional.of(new Fault.Spike(raw.getAsInt(), micros));
    }

    private Optional<Fault> noise(Part rest, ChannelDescription channel) {
        Optional<BigDecimal> steps = values.inSteps(rest, channel, "noise").map(Faults::plain);
        if (steps.isEmpty()) {
            return Optional.empty();
        }
        if (NoiseAmplitude.of(steps.get()).isEmpty()) {
            boolean little = steps.get().compareTo(BigDecimal.ONE) < 0;
            return wrong(
                    rest,
                    "noise with a standard deviation of " + rest.text() + " is " + (little ? "less" : "more")
                            + " than the rig's probe can make",
                    little ? "give it at least a tenth of " + channel.show(1) : ChannelValues.range(channel));
        }
        return Optional.of(new Fault.Noise(steps.get()));
    }

    private Optional<Fault> delay(Part rest) {
        OptionalInt count = ticks.read(rest, 1, LONGEST_DELAY, "a delay");
        return count.isEmpty() ? Optional.empty() : Optional.of(new Fault.Delay(count.getAsInt()));
    }

    private Optional<Fault> ofItsOwn(Part text, String word) {
        return word.equals("replay")
                ? wrong(text, "replay takes a curve", "write it in braces: { replay: { 0: 180 mm, 5: 181.5 mm } }")
                : wrong(
                        text,
                        "intermittent goes around another fault",
                        "write it in braces: { intermittent: freeze, on: 30 ms, off: 70 ms }");
    }

    private OptionalInt added(Part value, ChannelDescription channel) {
        OptionalInt raw = values.difference(value, channel);
        if (raw.isPresent() && raw.getAsInt() == 0) {
            findings.warning(value.at(), "adding " + value.text() + " changes nothing", "");
        }
        long span = (long) channel.highest() - channel.lowest();
        if (raw.isPresent() && Math.abs((long) raw.getAsInt()) > span) {
            findings.warning(
                    value.at(),
                    value.text() + " is more than the whole range of " + channel.name()
                            + "; every reading will be cut to its end",
                    ChannelValues.range(channel));
        }
        return raw;
    }

    private void missing(Part value, String fault, ChannelDescription channel) {
        String example =
                switch (fault) {
                    case "scale" -> "0.5";
                    case "delay" -> "10 ticks";
                    case "drift" -> channel.show(channel.highest()) + " per s";
                    default -> channel.show(channel.highest());
                };
        findings.error(
                value.at(),
                fault + " lacks its value",
                fault.equals("replay") || fault.equals("intermittent")
                        ? "it stands in braces of its own: { " + fault + ": ... }"
                        : "write it behind, such as \"" + fault + " " + example + "\"");
    }

    private void unknown(Part text, String word) {
        if (text.text().startsWith("stuck at")) {
            findings.error(
                    text.at(),
                    "there is no fault \"stuck\"",
                    "did you mean \"stuck-at" + text.text().substring(8) + "\"?");
        } else if (!word.isEmpty() && (Character.isDigit(word.charAt(0)) || "+-.".indexOf(word.charAt(0)) >= 0)) {
            findings.error(
                    text.at(),
                    Shown.quoted(text.text()) + " does not say which fault",
                    "write \"stuck-at " + text.text() + "\" or \"offset " + text.text() + "\"");
        } else {
            findings.error(text.at(), "there is no fault " + Shown.quoted(word), () -> NearestName.cure(word, KNOWN));
        }
    }

    private Optional<Fault> wrong(Part at, String message, String cure) {
        findings.error(at.at(), message, cure);
        return Optional.empty();
    }

    /** One form for each number, so that equal faults are equal. */
    private static BigDecimal plain(BigDecimal number) {
        BigDecimal stripped = number.stripTrailingZeros();
        return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
    }
}
