package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.Place;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/** Reads what a script expects. */
final class Expectations {
    private static final String EXAMPLE = "- answered-by: FS-01";
    private static final List<String> KINDS = List.of("answered-by", "becomes", "always", "never", "must-not-fire");
    private static final Set<String> LATER_KINDS = Set.of("stays", "settles", "times", "restart");
    private static final Map<String, List<String>> KEYS = Map.of(
            "answered-by", List.of("answered-by", "name", "within", "after", "no-other"),
            "becomes", List.of("becomes", "name", "within", "after"),
            "always", List.of("always", "name"),
            "never", List.of("never", "name"),
            "must-not-fire", List.of("must-not-fire", "name"));

    private final Names names;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Conditions conditions;
    private final Anchors anchors;
    private final Map<String, Integer> usualNames = new HashMap<>();

    Expectations(Names names, Findings findings, Times times, Conditions conditions, Anchors anchors) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.times = times;
        this.conditions = conditions;
        this.anchors = anchors;
    }

    /** An expectation whose kind is known; the rest is read once all names are. */
    private record Draft(int index, String kind, YamlMapping mapping, Optional<Part> name) {
        boolean hasMoment() {
            return kind.equals("answered-by") || kind.equals("becomes");
        }
    }

    List<Expectation> read(YamlNode node) {
        List<YamlNode> items =
                values.list(node, "a list of expectations", EXAMPLE).orElse(List.of());
        List<Draft> drafts = new ArrayList<>();
        for (int index = 0; index < items.size(); index++) {
            int place = index;
            values.mapping(items.get(index), "an expectation", EXAMPLE)
                    .flatMap(mapping -> draft(place, mapping))
                    .ifPresent(drafts::add);
        }
        drafts.forEach(this::name);
        List<Expectation> expectations = new ArrayList<>();
        drafts.forEach(draft -> expectation(draft).ifPresent(expectations::add));
        anchors.reportCircles();
        return expectations;
    }

    private Optional<Draft> draft(int index, YamlMapping mapping) {
        List<String> kinds = mapping.entries().stream()
                .map(YamlMapping.Entry::key)
                .filter(KINDS::contains)
                .toList();
        Optional<Part> name = mapping.entries().stream()
                .filter(entry -> entry.key().equals("name"))
                .findFirst()
                .flatMap(entry -> values.line(entry.value(), "a name"));
        if (kinds.size() == 1) {
            return Optional.of(new Draft(index, kinds.get(0), mapping, name));
        }
        name.ifPresent(anchors::unreadable);
        if (kinds.isEmpty()) {
            noKind(mapping);
        } else {
            findings.error(
                    mapping.at(),
                    "one expectation holds " + String.join(" and ", kinds),
                    "put \"- \" before the second one: an expectation of its own");
        }
        return Optional.empty();
    }

    private void noKind(YamlMapping mapping) {
        for (YamlMapping.Entry entry : mapping.entries()) {
            if (LATER_KINDS.contains(entry.key())) {
                findings.error(
                        entry.at(),
                        Shown.quoted(entry.key()) + " is not in this version",
                        "an expectation is one of: " + String.join(", ", KINDS));
                return;
            }
        }
        Set<String> others = Set.of("name", "within", "after", "no-other");
        Optional<YamlMapping.Entry> stranger = mapping.entries().stream()
                .filter(entry -> !others.contains(entry.key()))
                .findFirst();
        findings.error(
                stranger.map(YamlMapping.Entry::at).orElse(mapping.at()),
                stranger.map(entry -> "there is no expectation " + Shown.quoted(entry.key()))
                        .orElse("an expectation that expects nothing"),
                NearestName.cure(stranger.map(YamlMapping.Entry::key).orElse(""), KINDS));
    }

    private void name(Draft draft) {
        if (draft.name().isPresent() && draft.hasMoment()) {
            anchors.expectation(draft.index(), draft.name().get());
        } else {
            draft.name().ifPresent(anchors::stretch);
        }
    }

    private Optional<Expectation> expectation(Draft draft) {
        List<String> keys = KEYS.getOrDefault(draft.kind(), List.of());
        Fields fields = Fields.of(draft.mapping(), "\"" + draft.kind() + "\"", keys, Set.of(), findings);
        return switch (draft.kind()) {
            case "answered-by" -> answeredBy(draft, fields);
            case "becomes" -> becomes(draft, fields);
            case "must-not-fire" ->
                failSafe(draft, fields)
                        .map(failSafe -> new Expectation.MustNotFire(
                                place(draft), nameOf(draft, failSafe.name() + " must not fire"), failSafe));
            case "always" ->
                condition(draft, fields, Use.ALWAYS)
                        .map(condition -> new Expectation.Always(
                                place(draft), nameOf(draft, "always " + condition.show()), condition));
            default ->
                condition(draft, fields, Use.NEVER)
                        .map(condition -> new Expectation.Never(
                                place(draft), nameOf(draft, "never " + condition.show()), condition));
        };
    }

    private Optional<Expectation> answeredBy(Draft draft, Fields fields) {
        Optional<FailSafeDescription> failSafe = failSafe(draft, fields);
        Expectation.Window window = window(fields);
        Optional<Anchor> after = after(draft, fields);
        boolean noOther = fields.optional("no-other").map(values::truth).orElse(false);
        if (failSafe.isEmpty() || after.isEmpty()) {
            return Optional.empty();
        }
        String name = nameOf(draft, failSafe.get().name() + " answers");
        return Optional.of(
                new Expectation.AnsweredBy(place(draft), name, failSafe.get(), window, after.get(), noOther));
    }

    private Optional<Expectation> becomes(Draft draft, Fields fields) {
        Optional<Condition> condition = condition(draft, fields, Use.BECOMES);
        Expectation.Window window = window(fields);
        Optional<Anchor> after = after(draft, fields);
        if (condition.isEmpty() || after.isEmpty()) {
            return Optional.empty();
        }
        String name = nameOf(draft, "becomes " + condition.get().show());
        return Optional.of(new Expectation.Becomes(place(draft), name, condition.get(), window, after.get()));
    }

    private Optional<FailSafeDescription> failSafe(Draft draft, Fields fields) {
        return fields.optional(draft.kind())
                .flatMap(node -> values.line(node, "a fail-safe's name"))
                .flatMap(names::failSafe);
    }

    private Optional<Condition> condition(Draft draft, Fields fields, Use use) {
        return fields.optional(draft.kind()).flatMap(node -> conditions.read(node, use));
    }

    private Expectation.Window window(Fields fields) {
        return fields.required("within", "250 ms").map(times::window).orElse(new Expectation.Window(0, 0));
    }

    private Optional<Anchor> after(Draft draft, Fields fields) {
        Optional<YamlNode> written = fields.optional("after");
        if (written.isEmpty()) {
            return Optional.of(anchors.usual());
        }
        Optional<Part> name = values.line(written.get(), "the name of what it is counted from");
        Optional<Anchor> anchor = name.flatMap(anchors::find);
        anchor.ifPresent(
                found -> anchors.link(draft.index(), found, name.orElseThrow().at()));
        return anchor;
    }

    private Place place(Draft draft) {
        return findings.place(draft.mapping().at());
    }

    /** The name that is written, or the usual one; a second one of the usual ones gets a number. */
    private String nameOf(Draft draft, String usual) {
        if (draft.name().isPresent()) {
            return draft.name().get().text();
        }
        int number = usualNames.merge(usual, 1, Integer::sum);
        return number == 1 ? usual : usual + " (" + number + ")";
    }
}
