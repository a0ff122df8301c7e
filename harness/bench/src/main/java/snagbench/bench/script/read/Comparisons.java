package snagbench.bench.script.read;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Place;
import snagbench.bench.script.Source;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlScalar;

/**
 * Reads comparisons: "above 7 V", "at least 180 mm", "is not READY", "at most 5 %", "READY", and the wider ones: "rises to 180
 * mm", "moves more than 2 mm in 10 ticks", "agrees within 2 mm", "at least at-injection + 10 mm".
 */
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
    private static final Pattern CROSSES = Pattern.compile("(rises|falls)\\s+to\\s+(.*)", Pattern.DOTALL);
    private static final Pattern MOVES =
            Pattern.compile("moves\\s+(more|less)\\s+than\\s+(.*?)\\s+in\\s+(.*)", Pattern.DOTALL);
    private static final Pattern AGREES = Pattern.compile("agrees\\s+within\\s+(.*)", Pattern.DOTALL);
    private static final Pattern AT_INJECTION =
            Pattern.compile("at-injection(?:\\s*\\(\\s*(.*?)\\s*\\))?\\s*(?:([+-])\\s*(.*))?", Pattern.DOTALL);
    private static final Pattern HALF_SAID = Pattern.compile("(moves|agrees|rises|falls)\\b.*", Pattern.DOTALL);
    // What people write in place of the right words.
    private static final Pattern SLIPS = Pattern.compile(
            "(?i)(over|more\\s+than|greater\\s+than|higher\\s+than|under|less\\s+than|lower\\s+than|min|minimum"
                    + "|max|maximum|up\\s+to|equals?|not|atleast|atmost|above|below|at\\s+least|at\\s+most|is\\s+not|is)"
                    + "\\s+(\\S.*)");

    private final Findings findings;
    private final Values values;
    private final ChannelValues channelValues;
    private final Ticks ticks;
    private final Anchors anchors;

    Comparisons(Findings findings, Times times, Anchors anchors) {
        this.findings = findings;
        this.values = new Values(findings);
        this.channelValues = new ChannelValues(findings);
        this.ticks = new Ticks(findings, times);
        this.anchors = anchors;
    }

    /** The terms of a comparison: one, or two for a range. None if it could not be read, which has been reported. */
    List<Condition.Term> read(YamlMapping.Entry entry, ChannelDescription channel, Source source, Use use) {
        if (isFoldedNothing(entry)) {
            return List.of();
        }
        Optional<Part> text = values.line(entry.value(), "a comparison for " + channel.name());
        if (text.isEmpty()) {
            return List.of();
        }
        Place place = findings.place(entry.at());
        Optional<Span> range = Span.of(text.get());
        return range.isPresent()
                ? range(place, channel, source, text.get(), range.get())
                : term(place, channel, source, text.get(), use).stream().toList();
    }

    /** "100 mm .. 200 mm", both ends belonging to it. */
    private List<Condition.Term> range(Place place, ChannelDescription channel, Source source, Part text, Span range) {
        if (hasNoOrder(text, channel)) {
            return List.of();
        }
        OptionalInt least = channelValues.raw(range.from(), channel, Rounding.UP);
        OptionalInt most = channelValues.raw(range.to(), channel, Rounding.DOWN);
        if (least.isEmpty() || most.isEmpty()) {
            return List.of();
        }
        if (least.getAsInt() > most.getAsInt()) {
            findings.error(
                    text.at(), "the range " + Shown.quoted(text.text()) + " is empty", "write the lower end first");
            return List.of();
        }
        return List.of(
                new Condition.Compares(place, channel, source, Relation.AT_LEAST, least.getAsInt()),
                new Condition.Compares(place, channel, source, Relation.AT_MOST, most.getAsInt()));
    }

    private Optional<Condition.Term> term(Place place, ChannelDescription channel, Source source, Part text, Use use) {
        Matcher crosses = CROSSES.matcher(text.text());
        if (crosses.matches()) {
            return crosses(place, channel, source, text, crosses, use);
        }
        Matcher moves = MOVES.matcher(text.text());
        if (moves.matches()) {
            return moves(place, channel, source, text, moves);
        }
        Matcher agrees = AGREES.matcher(text.text());
        if (agrees.matches()) {
            return agrees(place, channel, text.from(agrees.start(1)), use);
        }
        Matcher half = HALF_SAID.matcher(text.text());
        return half.matches() ? halfSaid(text, half.group(1)) : plain(place, channel, source, text, use);
    }

    private Optional<Condition.Term> halfSaid(Part text, String verb) {
        String form =
                switch (verb) {
                    case "moves" -> "moves more than 2 mm in 10 ticks\" or \"moves less than 2 mm in 10 ticks";
                    case "agrees" -> "agrees within 2 mm";
                    default -> verb + " to 180 mm";
                };
        return wrong(text, Shown.quoted(text.text()) + " is no comparison", "write it as \"" + form + "\"");
    }

    private Optional<Condition.Term> plain(Place place, ChannelDescription channel, Source source, Part text, Use use) {
        Matcher matcher = WORDS.matcher(text.text());
        Relation relation = Relation.IS;
        Part operand = text;
        if (matcher.matches()) {
            int words = matcher.group(1) == null ? 3 : 1;
            relation = relation(matcher.group(words));
            operand = text.from(matcher.start(words + 1));
        } else if (channel.valueNames().indexOf(operand.text()) < 0 && slip(operand)) {
            return Optional.empty();
        }
        Matcher atInjection = AT_INJECTION.matcher(operand.text());
        return atInjection.matches()
                ? atInjection(place, channel, source, relation, operand, atInjection, use)
                : compares(place, channel, source, relation, operand);
    }

    private Optional<Condition.Term> crosses(
            Place place, ChannelDescription channel, Source source, Part text, Matcher matcher, Use use) {
        if (!use.takesEdges()) {
            return wrong(
                    text,
                    "\"" + matcher.group(1) + " to\" holds in one tick only, and cannot stand in \"" + use.key() + "\"",
                    "write \"" + (matcher.group(1).equals("rises") ? "at least " : "at most ") + matcher.group(2)
                            + "\"");
        }
        if (hasNoOrder(text, channel)) {
            return Optional.empty();
        }
        boolean rises = matcher.group(1).equals("rises");
        OptionalInt raw = channelValues.raw(text.from(matcher.start(2)), channel, rises ? Rounding.UP : Rounding.DOWN);
        return raw.isEmpty()
                ? Optional.empty()
                : Optional.of(new Condition.Crosses(place, channel, source, rises, raw.getAsInt()));
    }

    private Optional<Condition.Term> moves(
            Place place, ChannelDescription channel, Source source, Part text, Matcher matcher) {
        if (hasNoOrder(text, channel)) {
            return Optional.empty();
        }
        boolean more = matcher.group(1).equals("more");
        Part size = text.between(matcher.start(2), matcher.end(2));
        OptionalInt raw = channelValues.size(size, channel, more ? Rounding.DOWN : Rounding.UP);
        OptionalInt window = ticks.read(text.from(matcher.start(3)), 1, Ticks.MOST_WINDOW, "a window");
        if (raw.isEmpty() || window.isEmpty()) {
            return Optional.empty();
        }
        if (!more && raw.getAsInt() == 0) {
            findings.warning(size.at(), "nothing moves less than " + size.text() + ": this can never hold", "");
        }
        return Optional.of(new Condition.Moves(place, channel, source, more, raw.getAsInt(), window.getAsInt()));
    }

    private Optional<Condition.Term> agrees(Place place, ChannelDescription channel, Part size, Use use) {
        if (use != Use.UNTIL) {
            return wrong(
                    size,
                    "\"agrees\" compares what is told with what is real, and stands in \"until\" only",
                    "take a comparison with a value");
        }
        OptionalInt raw = channelValues.size(size, channel, Rounding.DOWN);
        return raw.isEmpty() ? Optional.empty() : Optional.of(new Condition.Agrees(place, channel, raw.getAsInt()));
    }

    private Optional<Condition.Term> atInjection(
            Place place,
            ChannelDescription channel,
            Source source,
            Relation relation,
            Part operand,
            Matcher matcher,
            Use use) {
        if (!use.isOfTrace() || use == Use.DERIVED || use == Use.SYMPTOM) {
            return wrong(
                    operand,
                    "\"at-injection\" cannot stand in \"" + use.key()
                            + "\": it is looked up in the trace, when all is over",
                    "write a value");
        }
        boolean ordered = relation != Relation.IS && relation != Relation.IS_NOT;
        if (ordered && hasNoOrder(operand, channel)) {
            return Optional.empty();
        }
        Optional<Anchor.OfInjection> injection = matcher.group(1) == null
                ? anchors.firstInjection()
                : anchors.find(operand.between(matcher.start(1), matcher.end(1)))
                        .flatMap(anchor -> injection(anchor, operand));
        int offset = 0;
        if (matcher.group(2) != null) {
            OptionalInt raw = channelValues.difference(operand.from(matcher.start(3)), channel);
            if (raw.isEmpty()) {
                return Optional.empty();
            }
            offset = matcher.group(2).equals("-") ? -raw.getAsInt() : raw.getAsInt();
        }
        int shift = offset;
        return injection.map(found -> new Condition.ComparesToStrike(place, channel, source, relation, found, shift));
    }

    private Optional<Anchor.OfInjection> injection(Anchor anchor, Part operand) {
        if (anchor instanceof Anchor.OfInjection injection) {
            return Optional.of(injection);
        }
        findings.error(operand.at(), "at-injection of something that is no injection", "name an injection in it");
        return Optional.empty();
    }

    private boolean hasNoOrder(Part at, ChannelDescription channel) {
        if (!channel.valueNames().isEmpty()) {
            findings.error(
                    at.at(),
                    "the values of " + channel.name() + " have names, and no order",
                    "write \"is NAME\" or \"is not NAME\": " + String.join(", ", channel.valueNames()));
        }
        return !channel.valueNames().isEmpty();
    }

    private Optional<Condition.Term> wrong(Part at, String message, String cure) {
        findings.error(at.at(), message, cure);
        return Optional.empty();
    }

    private Optional<Condition.Term> compares(
            Place place, ChannelDescription channel, Source source, Relation relation, Part operand) {
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
        return Optional.of(new Condition.Compares(place, channel, source, relation, raw.getAsInt()));
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
                        + "\"; there are: above, at least, at most, below, is, is not, rises to, falls to, moves more than ... in ... ticks");
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
