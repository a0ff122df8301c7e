package snagbench.bench.script.read;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.RampRate;
import snagbench.bench.script.yaml.Shown;
import snagbench.wire.ChannelKind;

/** Reads what an override does to a channel. An empty answer has been reported. */
final class Faults {
    private static final List<String> KNOWN = List.of("stuck-at", "freeze", "offset", "spike");
    private static final Set<String> LATER =
            Set.of("scale", "drift", "noise", "dropout", "delay", "intermittent", "replay");
    private static final Pattern OVER = Pattern.compile("(.*?)\\s+over\\b\\s*(.*)", Pattern.DOTALL);
    private static final Pattern FOR = Pattern.compile("(.*?)\\s+for\\b\\s*(.*)", Pattern.DOTALL);
    private static final Pattern FIRST_WORD = Pattern.compile("(\\S+)(.*)", Pattern.DOTALL);

    private final Findings findings;
    private final ChannelValues values;
    private final Times times;

    Faults(Findings findings, Times times) {
        this.findings = findings;
        this.values = new ChannelValues(findings);
        this.times = times;
    }

    Optional<Fault> read(Part text, ChannelDescription channel) {
        Matcher matcher = FIRST_WORD.matcher(text.text());
        if (!matcher.matches() || !KNOWN.contains(matcher.group(1))) {
            unknown(text, matcher.matches() ? matcher.group(1) : "");
            return Optional.empty();
        }
        if (!mayBeForced(text, matcher.group(1), channel)) {
            return Optional.empty();
        }
        Part rest = text.from(matcher.start(2));
        return switch (matcher.group(1)) {
            case "stuck-at" -> stuckAt(rest, channel);
            case "freeze" -> freeze(rest);
            case "offset" -> offset(rest, channel);
            default -> spike(rest, channel);
        };
    }

    private Optional<Fault> stuckAt(Part value, ChannelDescription channel) {
        if (isMissing(value, "stuck-at", channel)) {
            return Optional.empty();
        }
        OptionalInt raw = values.raw(value, channel, Rounding.NONE);
        if (raw.isEmpty()) {
            return Optional.empty();
        }
        if (channel.kind() == ChannelKind.INHIBITION && raw.getAsInt() != 1) {
            findings.error(value.at(), "an inhibition is switched on or left alone", "write \"stuck-at 1\"");
            return Optional.empty();
        }
        if (raw.getAsInt() < channel.lowest() || raw.getAsInt() > channel.highest()) {
            findings.warning(
                    value.at(),
                    value.text() + " is outside the range of " + channel.name() + " and will be cut to it",
                    ChannelValues.range(channel));
        }
        return Optional.of(new Fault.StuckAt(raw.getAsInt()));
    }

    private Optional<Fault> freeze(Part rest) {
        if (!rest.text().isEmpty()) {
            findings.error(
                    rest.at(),
                    "freeze takes no value, and there is " + Shown.quoted(rest.text()),
                    "it keeps the last good value; for a value of your own write \"stuck-at " + rest.text() + "\"");
            return Optional.empty();
        }
        return Optional.of(new Fault.Freeze());
    }

    private Optional<Fault> offset(Part rest, ChannelDescription channel) {
        if (isMissing(rest, "offset", channel)) {
            return Optional.empty();
        }
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

    private Optional<Fault> spike(Part rest, ChannelDescription channel) {
        if (isMissing(rest, "spike", channel)) {
            return Optional.empty();
        }
        Matcher lasting = FOR.matcher(rest.text());
        boolean timed = lasting.matches();
        OptionalInt raw = added(timed ? rest.between(0, lasting.end(1)) : rest, channel);
        OptionalLong micros = timed
                ? OptionalLong.of(times.micros(rest.from(lasting.start(2)), "the time of a spike"))
                : OptionalLong.empty();
        return raw.isEmpty() ? Optional.empty() : Optional.of(new Fault.Spike(raw.getAsInt(), micros));
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

    private boolean isMissing(Part value, String fault, ChannelDescription channel) {
        if (value.text().isEmpty()) {
            findings.error(
                    value.at(),
                    fault + " lacks its value",
                    "write it behind, such as \"" + fault + " " + channel.show(channel.highest()) + "\"");
        }
        return value.text().isEmpty();
    }

    private void unknown(Part text, String word) {
        if (LATER.contains(word)) {
            findings.error(
                    text.at(),
                    "the fault " + word + " is not in this version",
                    "there are: " + String.join(", ", KNOWN));
        } else if (text.text().startsWith("stuck at")) {
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
            findings.error(text.at(), "there is no fault " + Shown.quoted(word), NearestName.cure(word, KNOWN));
        }
    }

    private boolean mayBeForced(Part text, String fault, ChannelDescription channel) {
        String what = channel.name() + " is " + Names.words(channel.kind());
        return switch (channel.kind()) {
            case SENSOR -> true;
            case DISTURBANCE, INHIBITION, CONSTANT ->
                fault.equals("stuck-at")
                        || refuse(text, what + " and has no reading for \"" + fault + "\" to work on", "take stuck-at");
            case ACTUATOR ->
                refuse(text, what + ", and weakening one is not in this version", "force what the sensors say");
            case COMMAND ->
                refuse(
                        text,
                        what + ", and commands are given at the beginning only",
                        "write \"- send: " + channel.name() + "\" under begin");
            case STATE, COUNTER ->
                refuse(
                        text,
                        what + " of the control code itself and cannot be forced",
                        "force what the control code looks at: a sensor");
        };
    }

    private boolean refuse(Part text, String message, String cure) {
        findings.error(text.at(), message, cure);
        return false;
    }
}
