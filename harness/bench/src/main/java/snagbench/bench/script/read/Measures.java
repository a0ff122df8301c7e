package snagbench.bench.script.read;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Place;
import snagbench.bench.script.Source;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/** Reads what some expectations measure: bands, peaks and counts. An empty answer has been reported. */
final class Measures {
    private static final int MOST = 1_000_000;
    private static final String BAND = "{ reach.position: 180 mm +- 2 mm }";
    private static final String PEAK = "{ reach.current: at most 6 A }";
    private static final Pattern BAND_FORM = Pattern.compile("(.*?)\\s*(?:\\+-|\\+/-|\u00B1)\\s*(.*)", Pattern.DOTALL);
    private static final Pattern COUNT_FORM = Pattern.compile("(at\\s+least|at\\s+most)\\s+(.*)", Pattern.DOTALL);

    private final Names names;
    private final Findings findings;
    private final Values values;
    private final ChannelValues channelValues;
    private final Conditions conditions;

    Measures(Names names, Findings findings, Conditions conditions) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.channelValues = new ChannelValues(findings);
        this.conditions = conditions;
    }

    /** How often something may come about. */
    record Count(int least, OptionalInt most) {}

    /** A band around a value, as the condition that a reading lies in it. */
    Optional<Condition> band(YamlNode node) {
        Optional<YamlMapping.Entry> entry = single(node, "a channel with its band", BAND);
        if (entry.isEmpty()) {
            return Optional.empty();
        }
        Optional<Names.Reading> reading =
                names.reading(new Part(entry.get().at(), entry.get().key()));
        Optional<Part> text = values.line(entry.get().value(), "a band, such as \"180 mm +- 2 mm\",");
        if (reading.isEmpty() || text.isEmpty()) {
            return Optional.empty();
        }
        Source source = conditions.note(entry.get().at(), reading.get(), Use.SETTLES, -1);
        Matcher matcher = BAND_FORM.matcher(text.get().text());
        if (!matcher.matches()) {
            findings.error(
                    text.get().at(),
                    Shown.quoted(text.get().text()) + " is no band",
                    "write a value and how far from it: \"180 mm +- 2 mm\"");
            return Optional.empty();
        }
        return band(entry.get(), reading.get().channel(), source, text.get(), matcher);
    }

    private Optional<Condition> band(
            YamlMapping.Entry entry, ChannelDescription channel, Source source, Part text, Matcher matcher) {
        OptionalInt middle = channelValues.raw(text.between(0, matcher.end(1)), channel, Rounding.NONE);
        if (middle.isEmpty()) {
            return Optional.empty();
        }
        Part size = text.from(matcher.start(2));
        OptionalInt half = channelValues.size(size, channel, Rounding.DOWN);
        if (half.isEmpty()) {
            return Optional.empty();
        }
        long lower = (long) middle.getAsInt() - half.getAsInt();
        long upper = (long) middle.getAsInt() + half.getAsInt();
        if (lower != (int) lower || upper != (int) upper) {
            findings.error(text.at(), "the band lies far outside the range", ChannelValues.range(channel));
            return Optional.empty();
        }
        Place place = findings.place(entry.at());
        return Optional.of(new Condition(
                place,
                List.of(
                        new Condition.Compares(place, channel, source, Condition.Relation.AT_LEAST, (int) lower),
                        new Condition.Compares(place, channel, source, Condition.Relation.AT_MOST, (int) upper))));
    }

    /** The comparison that a peak must stand. */
    Optional<Condition.Compares> peak(YamlNode node) {
        if (single(node, "a channel with the limit of its peak", PEAK).isEmpty()) {
            return Optional.empty();
        }
        Optional<Condition> condition = conditions.read(node, Use.PEAK);
        if (condition.isEmpty()) {
            return Optional.empty();
        }
        boolean limits = condition.get().terms().size() == 1
                && condition.get().terms().get(0) instanceof Condition.Compares one
                && one.relation() != Condition.Relation.IS
                && one.relation() != Condition.Relation.IS_NOT;
        if (!limits) {
            findings.error(
                    condition.get().place(),
                    "a peak is the greatest or the least reading, and has a limit above or below it",
                    "write it as: " + PEAK + ", or with below, at least, above");
            return Optional.empty();
        }
        return Optional.of((Condition.Compares) condition.get().terms().get(0));
    }

    private Optional<YamlMapping.Entry> single(YamlNode node, String what, String example) {
        Optional<YamlMapping> mapping = values.mapping(node, what, example);
        if (mapping.isPresent() && mapping.get().entries().size() != 1) {
            findings.error(node.at(), what + " is wanted, one of them", "write it as: " + example);
            return Optional.empty();
        }
        return mapping.map(found -> found.entries().get(0)).filter(Injections::isReadable);
    }

    /** A count: "3", "at least 2", "at most 4" or "2 .. 3". */
    Optional<Count> count(YamlNode node) {
        Optional<Part> text = values.line(node, "how often");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        Optional<Span> span = Span.of(text.get());
        if (span.isPresent()) {
            int least = number(span.get().from());
            int most = number(span.get().to());
            if (least > most) {
                findings.error(
                        text.get().at(),
                        "the count " + Shown.quoted(text.get().text()) + " ends before it begins",
                        "write the smaller number first");
            }
            return Optional.of(new Count(least, OptionalInt.of(most)));
        }
        Matcher matcher = COUNT_FORM.matcher(text.get().text());
        if (matcher.matches()) {
            int number = number(text.get().from(matcher.start(2)));
            return Optional.of(
                    matcher.group(1).endsWith("least")
                            ? new Count(number, OptionalInt.empty())
                            : new Count(0, OptionalInt.of(number)));
        }
        int number = number(text.get());
        return Optional.of(new Count(number, OptionalInt.of(number)));
    }

    private int number(Part part) {
        return WholeNumber.read(part, 0, MOST, "a count", findings);
    }
}
