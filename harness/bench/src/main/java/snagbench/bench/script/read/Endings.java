package snagbench.bench.script.read;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Injection;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlNode;

/** Reads what ends an injection, apart from its "while". */
final class Endings {
    /** The keys of an injection that this reads, and "while". */
    static final List<String> KEYS = List.of("while", "until", "lasts", "release");

    private static final Pattern WHEN_AGREES = Pattern.compile("when-agrees\\s+within\\s+(.*)", Pattern.DOTALL);

    private final Findings findings;
    private final Values values;
    private final ChannelValues channelValues;
    private final Times times;
    private final Conditions conditions;

    Endings(Findings findings, Times times, Conditions conditions) {
        this.findings = findings;
        this.values = new Values(findings);
        this.channelValues = new ChannelValues(findings);
        this.times = times;
        this.conditions = conditions;
    }

    /** What ends it. */
    record Ending(Optional<Condition> until, Optional<Long> lasts) {}

    Ending read(Fields fields, int index, List<Injection.Forcing> forcings) {
        Optional<Condition> until = fields.optional("until").flatMap(node -> conditions.read(node, Use.UNTIL, index));
        until.ifPresent(condition -> checkAgreements(condition, forcings));
        Optional<Long> lasts = fields.optional("lasts").map(node -> times.micros(node, "a lasting time"));
        Optional<YamlNode> release = fields.optional("release");
        if (release.isPresent() && fields.has("until")) {
            findings.error(
                    fields.at("release"),
                    "\"release\" and \"until\" stand together, and each is an end of its own",
                    "keep one; in \"until\" the same is written as { channel: agrees within 2 mm }");
            return new Ending(until, lasts);
        }
        return new Ending(release.flatMap(node -> release(node, forcings)).or(() -> until), lasts);
    }

    private void checkAgreements(Condition condition, List<Injection.Forcing> forcings) {
        Set<ChannelDescription> forced = channels(forcings);
        for (Condition.Term term : condition.terms()) {
            if (term instanceof Condition.Agrees agrees && !forcings.isEmpty() && !forced.contains(agrees.channel())) {
                findings.error(
                        agrees.place(),
                        "this injection does not override " + agrees.channel().name()
                                + ", whose told and real readings agree therefore",
                        "name a channel that it overrides");
            }
        }
    }

    private Optional<Condition> release(YamlNode node, List<Injection.Forcing> forcings) {
        Optional<Part> text = values.line(node, "how it is released");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        Matcher matcher = WHEN_AGREES.matcher(text.get().text());
        if (!matcher.matches()) {
            findings.error(
                    text.get().at(),
                    Shown.quoted(text.get().text()) + " is no way to release",
                    "there is one: release: when-agrees within 2 mm");
            return Optional.empty();
        }
        List<ChannelDescription> sensors =
                channels(forcings).stream().filter(Injections::hasReading).toList();
        if (sensors.size() != 1) {
            if (!forcings.isEmpty()) {
                findings.error(
                        text.get().at(),
                        "\"when-agrees\" looks at the one sensor that is overridden, and here are " + sensors.size(),
                        "say which: until: { channel: agrees within 2 mm }");
            }
            return Optional.empty();
        }
        Part size = text.get().from(matcher.start(1));
        OptionalInt raw = channelValues.size(size, sensors.get(0), Rounding.DOWN);
        return raw.isEmpty()
                ? Optional.empty()
                : Optional.of(new Condition(
                        findings.place(node.at()),
                        List.of(new Condition.Agrees(findings.place(node.at()), sensors.get(0), raw.getAsInt()))));
    }

    private static Set<ChannelDescription> channels(List<Injection.Forcing> forcings) {
        return forcings.stream().map(Injection.Forcing::channel).collect(Collectors.toSet());
    }
}
