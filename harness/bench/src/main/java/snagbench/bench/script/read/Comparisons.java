package snagbench.bench.script.read;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Source;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlScalar;

/** Reads comparisons: "above 7 V", "at least 180 mm", "is not READY", "at most 5 %", "READY". */
final class Comparisons {
    private static final Map<String, Relation> SIGNS = Map.of(
            ">=", Relation.AT_LEAST,
            ">", Relation.ABOVE,
            "<=", Relation.AT_MOST,
            "<", Relation.BELOW,
            "=", Relation.IS,
            "==", Relation.IS,
            "!=", Relation.IS_NOT);

    private static final Pattern WORDS = Pattern.compile(
            "(at\\s+least|above|at\\s+most|below|is\\s+not|is)\\s+(.*)|(>=|<=|!=|==|>|<|=)\\s*(.*)", Pattern.DOTALL);
    // What people write in place of the right words.
    private static final Pattern SLIPS = Pattern.compile(
            "(?i)(over|more\\s+than|greater\\s+than|higher\\s+than|under|less\\s+than|lower\\s+than|min|minimum"
                    + "|max|maximum|up\\s+to|equals?|not|atleast|atmost|above|below|at\\s+least|at\\s+most|is\\s+not|is)"
                    + "\\s+(\\S.*)");

    private final Findings findings;
    private final Values values;
    private final ChannelValues channelValues;

    Comparisons(Findings findings) {
        this.findings = findings;
        this.values = new Values(findings);
        this.channelValues = new ChannelValues(findings);
    }

    Optional<Condition.Term> read(YamlMapping.Entry entry, ChannelDescription channel, Source source) {
        if (isFoldedNothing(entry)) {
            return Optional.empty();
        }
        Optional<Part> text = values.line(entry.value(), "a comparison for " + channel.name());
        if (text.isEmpty()) {
            return Optional.empty();
        }
        Matcher matcher = WORDS.matcher(text.get().text());
        Relation relation = Relation.IS;
        Part operand = text.get();
        if (matcher.matches()) {
            int words = matcher.group(1) == null ? 3 : 1;
            relation = relation(matcher.group(words));
            operand = text.get().from(matcher.start(words + 1));
        } else if (channel.valueNames().indexOf(operand.text()) < 0 && slip(operand)) {
            return Optional.empty();
        }
        return compares(entry, channel, source, relation, operand);
    }

    private Optional<Condition.Term> compares(
            YamlMapping.Entry entry, ChannelDescription channel, Source source, Relation relation, Part operand) {
        boolean ordered = relation != Relation.IS && relation != Relation.IS_NOT;
        if (ordered && !channel.valueNames().isEmpty()) {
            findings.error(
                    operand.at(),
                    "the values of " + channel.name() + " have names, and no order",
                    "write \"is " + operand.text() + "\" or \"is not " + operand.text() + "\"");
            return Optional.empty();
        }
        Rounding rounding =
                switch (relation) {
                    case AT_LEAST, BELOW -> Rounding.UP;
                    case ABOVE, AT_MOST -> Rounding.DOWN;
                    case IS, IS_NOT -> Rounding.NONE;
                };
        OptionalInt raw = channelValues.raw(operand, channel, rounding);
        if (raw.isEmpty()) {
            return Optional.empty();
        }
        warnOfTheObvious(channel, relation, raw.getAsInt(), operand);
        return Optional.of(
                new Condition.Compares(findings.place(entry.at()), channel, source, relation, raw.getAsInt()));
    }

    /** A comparison that holds for all or for none of a channel's values. */
    private void warnOfTheObvious(ChannelDescription channel, Relation relation, int raw, Part operand) {
        boolean lowest = relation.holds(channel.lowest(), raw);
        boolean highest = relation.holds(channel.highest(), raw);
        boolean inside = raw >= channel.lowest() && raw <= channel.highest();
        boolean equality = relation == Relation.IS || relation == Relation.IS_NOT;
        if (lowest == highest && !(equality && inside)) {
            findings.warning(
                    operand.at(),
                    "\"" + channel.name() + " " + relation.words() + " " + operand.text() + "\" "
                            + (lowest ? "always holds" : "can never hold"),
                    ChannelValues.range(channel));
        }
    }

    /** The value ">5", which to YAML is an empty text, folded and indented by 5. */
    private boolean isFoldedNothing(YamlMapping.Entry entry) {
        boolean folded = entry.value() instanceof YamlScalar scalar
                && scalar.style() == YamlScalar.Style.BLOCK
                && scalar.text().isBlank();
        if (folded) {
            findings.error(
                    entry.value().at(),
                    "an unquoted \">\" or \"|\" begins a text of several lines in YAML, and here it is empty",
                    "write \"above\" or \"at least\" and the value, or put the comparison in quotes");
        }
        return folded;
    }

    private boolean slip(Part text) {
        Matcher matcher = SLIPS.matcher(text.text());
        if (!matcher.matches()) {
            return false;
        }
        findings.error(
                text.at(),
                Shown.quoted(text.text()) + " is no comparison",
                "write \"" + rightWords(matcher.group(1)) + " " + matcher.group(2)
                        + "\"; there are: above, at least, at most, below, is, is not");
        return true;
    }

    private static String rightWords(String slip) {
        return switch (slip.toLowerCase(Locale.ROOT).replaceAll("\\s+", " ")) {
            case "over", "more than", "greater than", "higher than", "above" -> "above";
            case "under", "less than", "lower than", "below" -> "below";
            case "min", "minimum", "atleast", "at least" -> "at least";
            case "max", "maximum", "up to", "atmost", "at most" -> "at most";
            case "not", "is not" -> "is not";
            default -> "is";
        };
    }

    private static Relation relation(String written) {
        Relation sign = SIGNS.get(written);
        if (sign != null) {
            return sign;
        }
        String words = written.replaceAll("\\s+", " ");
        for (Relation relation : Relation.values()) {
            if (relation.words().equals(words)) {
                return relation;
            }
        }
        throw new IllegalStateException("no relation: " + written);
    }
}
