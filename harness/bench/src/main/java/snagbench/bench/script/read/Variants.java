package snagbench.bench.script.read;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import snagbench.bench.script.Variant;
import snagbench.bench.script.quantity.Quantity;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlList;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/** Reads what a file varies: all combinations of its parameters' values. */
final class Variants {
    /** Most scripts that one file may stand for. */
    static final int MOST = 1000;

    private static final String EXAMPLE = "{ at: 20 mm .. 400 mm in 8 }";
    private static final Pattern NAME = Pattern.compile("[A-Za-z][A-Za-z0-9_]*(?:-[A-Za-z][A-Za-z0-9_]*)*");
    private static final Pattern RANGE = Pattern.compile("(.*?)\\s+(in|by)\\s+(.*)", Pattern.DOTALL);

    private final Findings findings;
    private final Values values;

    private Variants(Findings findings) {
        this.findings = findings;
        this.values = new Values(findings);
    }

    /** A parameter and its values, at least one. */
    private record Parameter(String name, List<String> values) {}

    /** The variants of a file that varies something; none where that could not be read, which has been reported. */
    static List<Variant> of(YamlMapping root, Findings findings) {
        List<Variant> found = new ArrayList<>();
        root.entries().stream()
                .filter(entry -> entry.key().equals("vary"))
                .findFirst()
                .flatMap(entry -> new Variants(findings).read(entry.value()))
                .ifPresent(found::addAll);
        return findings.hasErrors() ? List.of() : found;
    }

    private Optional<List<Variant>> read(YamlNode node) {
        Optional<YamlMapping> mapping = values.mapping(node, "what is varied", EXAMPLE);
        List<Parameter> parameters = new ArrayList<>();
        for (YamlMapping.Entry entry : mapping.map(YamlMapping::entries).orElse(List.of())) {
            if (Injections.isReadable(entry)) {
                parameter(entry).ifPresent(parameters::add);
            }
        }
        if (mapping.isPresent() && mapping.get().entries().isEmpty()) {
            findings.error(node.at(), "nothing is varied", "write at least one: " + EXAMPLE);
        }
        if (mapping.isEmpty() || parameters.size() != mapping.get().entries().size() || parameters.isEmpty()) {
            return Optional.empty();
        }
        long count = 1;
        for (Parameter parameter : parameters) {
            count = Math.min(Integer.MAX_VALUE, count * parameter.values().size());
        }
        if (count > MOST) {
            findings.error(
                    node.at(),
                    "one file stands for " + MOST + " scripts at most, and this one for " + count,
                    "take fewer values, or fewer parameters at once");
            return Optional.empty();
        }
        return Optional.of(combinations(parameters));
    }

    /** All combinations; the last parameter changes fastest. */
    private static List<Variant> combinations(List<Parameter> parameters) {
        List<List<Variant.Setting>> rows = List.of(List.of());
        for (Parameter parameter : parameters) {
            List<List<Variant.Setting>> longer = new ArrayList<>();
            for (List<Variant.Setting> row : rows) {
                for (String value : parameter.values()) {
                    List<Variant.Setting> next = new ArrayList<>(row);
                    next.add(new Variant.Setting(parameter.name(), value));
                    longer.add(next);
                }
            }
            rows = longer;
        }
        return rows.stream().map(Variant::new).toList();
    }

    private Optional<Parameter> parameter(YamlMapping.Entry entry) {
        if (!NAME.matcher(entry.key()).matches()) {
            findings.error(
                    entry.at(),
                    Shown.quoted(entry.key()) + " cannot be a parameter's name",
                    "take letters, digits and dashes, such as \"at\"; it is used as $at");
            return Optional.empty();
        }
        Optional<List<String>> found = entry.value() instanceof YamlList list
                ? listed(list)
                : range(entry.value()).map(Variants::written);
        return found.map(all -> new Parameter(entry.key(), all));
    }

    private static List<String> written(List<Quantity> values) {
        return values.stream().map(Quantity::toString).toList();
    }

    /** Figures, or texts: steps, fail-safes, whole faults. A text among figures is a slip. */
    private Optional<List<String>> listed(YamlList list) {
        List<Part> items = new ArrayList<>();
        for (YamlNode item : values.list(list, "a list of values", "- 20 mm").orElse(List.of())) {
            values.line(item, "a value").ifPresent(items::add);
        }
        if (items.isEmpty() || items.size() < list.items().size()) {
            return Optional.empty();
        }
        if (items.stream().noneMatch(item -> isFigure(item.text()))) {
            return Optional.of(items.stream().map(Part::text).toList());
        }
        List<Quantity> found = new ArrayList<>();
        items.forEach(item -> quantity(item).ifPresent(found::add));
        return found.size() < items.size() ? Optional.empty() : Optional.of(written(found));
    }

    private static boolean isFigure(String text) {
        return Quantity.parse(text).isPresent() || text.matches("[-+.]?[0-9].*");
    }

    private Optional<Quantity> quantity(Part part) {
        Optional<Quantity> quantity = Quantity.parse(part.text());
        if (quantity.isEmpty()) {
            findings.error(
                    part.at(),
                    Shown.quoted(part.text()) + " is no figure with a unit",
                    "write it as: 20 mm .. 400 mm in 8, or by 50 mm, or as a list: [20 mm, 50 mm]");
        }
        return quantity;
    }

    private Optional<List<Quantity>> range(YamlNode node) {
        Optional<Part> text = values.line(node, "the values of a parameter");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        Matcher matcher = RANGE.matcher(text.get().text());
        Optional<Span> span = matcher.matches() ? Span.of(text.get().between(0, matcher.end(1))) : Optional.empty();
        if (span.isEmpty()) {
            if (Span.of(text.get()).isPresent() || matcher.matches()) {
                findings.error(
                        text.get().at(),
                        Shown.quoted(text.get().text()) + " does not say how many values",
                        "write it as: 20 mm .. 400 mm in 8, or: 20 mm .. 400 mm by 50 mm");
                return Optional.empty();
            }
            return quantity(text.get()).map(List::of);
        }
        Optional<Quantity> from = quantity(span.get().from());
        Optional<Quantity> to = quantity(span.get().to());
        if (from.isEmpty() || to.isEmpty()) {
            return Optional.empty();
        }
        if (!from.get().unit().equals(to.get().unit())
                || from.get().number().compareTo(to.get().number()) >= 0) {
            findings.error(
                    text.get().at(),
                    "the range " + Shown.quoted(text.get().text()) + " does not lead from a smaller value to a greater"
                            + " one in the same unit",
                    "write it as: 20 mm .. 400 mm in 8");
            return Optional.empty();
        }
        Part last = text.get().from(matcher.start(3));
        return matcher.group(2).equals("in")
                ? inParts(from.get(), to.get(), last)
                : inSteps(from.get(), to.get(), last);
    }

    /** So many values, both ends among them, rounded to the decimals that are written. */
    private Optional<List<Quantity>> inParts(Quantity from, Quantity to, Part count) {
        int many = WholeNumber.read(count, 2, MOST, "a number of values", findings);
        int decimals = Math.max(from.number().scale(), to.number().scale());
        BigDecimal span = to.number().subtract(from.number());
        List<Quantity> found = new ArrayList<>();
        for (int i = 0; i < many; i++) {
            BigDecimal part = span.multiply(BigDecimal.valueOf(i))
                    .divide(BigDecimal.valueOf(many - 1L), decimals, RoundingMode.HALF_UP);
            Quantity value = new Quantity(from.number().add(part), from.unit());
            if (!found.contains(value)) {
                found.add(value);
            }
        }
        if (found.size() < many) {
            findings.error(
                    count.at(),
                    "between " + from + " and " + to + " there are not " + many + " values with so few decimals",
                    "write more decimals, such as \"20.0 mm\", or take fewer values");
            return Optional.empty();
        }
        return Optional.of(found);
    }

    private Optional<List<Quantity>> inSteps(Quantity from, Quantity to, Part written) {
        Optional<Quantity> step = quantity(written);
        if (step.isEmpty()) {
            return Optional.empty();
        }
        if (!step.get().unit().equals(from.unit()) || step.get().number().signum() <= 0) {
            findings.error(
                    written.at(),
                    "a step of " + step.get() + " does not lead from " + from + " to " + to,
                    "write a step above 0 in the same unit");
            return Optional.empty();
        }
        List<Quantity> found = new ArrayList<>();
        for (BigDecimal at = from.number();
                at.compareTo(to.number()) <= 0 && found.size() <= MOST;
                at = at.add(step.get().number())) {
            found.add(new Quantity(at, from.unit()));
        }
        return Optional.of(found);
    }
}
