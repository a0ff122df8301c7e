package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.Place;
import snagbench.bench.script.Stretch;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/** Reads what a script expects: names first, since an expectation may be counted from one that stands further down. */
final class Expectations {
    private static final String EXAMPLE = "- answered-by: FS-01";
    private static final int MOST_TIMES = 1_000_000;
    private static final Map<String, List<String>> KEYS = keys();
    /** The kinds, as they are written. */
    static final List<String> KINDS = List.copyOf(KEYS.keySet());

    private static final Set<String> WITH_MOMENT = Set.of("answered-by", "becomes", "stays", "settles", "restart");
    private static final Set<String> MAY_COME_AGAIN = Set.of("answered-by", "becomes");

    private final Names names;
    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Conditions conditions;
    private final Anchors anchors;
    private final Stretches stretches;
    private final Measures measures;
    private final Map<String, Integer> usualNames = new HashMap<>();

    Expectations(Names names, Findings findings, Times times, Conditions conditions, Anchors anchors) {
        this.names = names;
        this.findings = findings;
        this.values = new Values(findings);
        this.times = times;
        this.conditions = conditions;
        this.anchors = anchors;
        this.stretches = new Stretches(findings, times, anchors);
        this.measures = new Measures(names, findings, conditions);
    }

    private static Map<String, List<String>> keys() {
        Map<String, List<String>> keys = new LinkedHashMap<>();
        keys.put("answered-by", List.of("answered-by", "name", "within", "after", "no-other", "time"));
        keys.put("becomes", List.of("becomes", "name", "within", "after", "time"));
        keys.put("stays", List.of("stays", "name", "for", "within", "after"));
        keys.put("settles", List.of("settles", "name", "for", "within", "after"));
        keys.put("always", over("always"));
        keys.put("never", over("never"));
        keys.put("must-not-fire", over("must-not-fire"));
        keys.put("peak", over("peak"));
        List<String> counted = new ArrayList<>(over("times"));
        counted.add("count");
        keys.put("times", counted);
        keys.put("restart", List.of("restart", "name", "within", "after"));
        keys.put("order", List.of("order", "name"));
        return keys;
    }

    private static List<String> over(String kind) {
        List<String> keys = new ArrayList<>(List.of(kind, "name"));
        keys.addAll(Stretches.KEYS);
        return keys;
    }

    /** An expectation whose kind is known; the rest is read once all names are. */
    record Draft(int index, String kind, YamlMapping mapping, Optional<Part> name) {}

    /** Gathers the names. */
    List<Draft> drafts(YamlNode node) {
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
        return drafts;
    }

    List<Expectation> read(List<Draft> drafts) {
        List<Expectation> expectations = new ArrayList<>();
        drafts.forEach(draft -> expectation(draft).ifPresent(expectations::add));
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
        Set<String> others = Set.of("name", "within", "after", "no-other", "time", "for", "from", "to", "count");
        Optional<YamlMapping.Entry> stranger = mapping.entries().stream()
                .filter(entry -> !others.contains(entry.key()))
                .findFirst();
        findings.error(
                stranger.map(YamlMapping.Entry::at).orElse(mapping.at()),
                stranger.map(entry -> "there is no expectation " + Shown.quoted(entry.key()))
                        .orElse("an expectation that expects nothing"),
                () -> NearestName.cure(stranger.map(YamlMapping.Entry::key).orElse(""), KINDS));
    }

    private void name(Draft draft) {
        if (draft.name().isPresent() && WITH_MOMENT.contains(draft.kind())) {
            anchors.expectation(draft.index(), draft.name().get(), MAY_COME_AGAIN.contains(draft.kind()));
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
            case "stays" -> stays(draft, fields);
            case "settles" -> settles(draft, fields);
            case "must-not-fire" -> mustNotFire(draft, fields);
            case "peak" -> peak(draft, fields);
            case "times" -> times(draft, fields);
            case "restart" -> restart(draft, fields);
            case "order" -> order(draft, fields);
            default -> everyTick(draft, fields);
        };
    }

    private Optional<Expectation> answeredBy(Draft draft, Fields fields) {
        Optional<FailSafeDescription> failSafe = failSafe(draft, fields);
        Expectation.Window window = window(fields);
        Optional<Anchor> after = after(draft, fields);
        boolean noOther = fields.optional("no-other").map(values::truth).orElse(false);
        int time = time(fields);
        if (failSafe.isEmpty() || after.isEmpty()) {
            return Optional.empty();
        }
        String name = nameOf(draft, failSafe.get().name() + " answers" + again(time));
        return Optional.of(
                new Expectation.AnsweredBy(place(draft), name, failSafe.get(), window, after.get(), noOther, time));
    }

    private Optional<Expectation> becomes(Draft draft, Fields fields) {
        Optional<Condition> condition = condition(draft, fields, Use.BECOMES);
        Expectation.Window window = window(fields);
        Optional<Anchor> after = after(draft, fields);
        int time = time(fields);
        if (condition.isEmpty() || after.isEmpty()) {
            return Optional.empty();
        }
        String name = nameOf(draft, "becomes " + condition.get().show() + again(time));
        return Optional.of(new Expectation.Becomes(place(draft), name, condition.get(), window, after.get(), time));
    }

    private static String again(int time) {
        return time == 1 ? "" : ", time " + time;
    }

    private Optional<Expectation> stays(Draft draft, Fields fields) {
        Optional<Condition> condition = condition(draft, fields, Use.STAYS);
        long held = fields.required("for", "500 ms")
                .map(node -> times.micros(node, "the time for which it must hold"))
                .orElse(0L);
        Expectation.Window window = fields.optional("within").map(times::window).orElse(new Expectation.Window(0, 0));
        Optional<Anchor> after = after(draft, fields);
        if (condition.isEmpty() || after.isEmpty()) {
            return Optional.empty();
        }
        String name = nameOf(draft, "stays " + condition.get().show());
        return Optional.of(new Expectation.Stays(place(draft), name, condition.get(), held, window, after.get()));
    }

    private Optional<Expectation> settles(Draft draft, Fields fields) {
        Optional<Condition> condition = fields.optional("settles").flatMap(measures::band);
        Optional<Long> held = fields.optional("for").map(node -> times.micros(node, "the time for which it must stay"));
        Expectation.Window window = window(fields);
        Optional<Anchor> after = after(draft, fields);
        if (condition.isEmpty() || after.isEmpty()) {
            return Optional.empty();
        }
        String name = nameOf(draft, "settles to " + condition.get().show());
        return Optional.of(new Expectation.Settles(
                place(draft),
                name,
                condition.get(),
                held.map(OptionalLong::of).orElse(OptionalLong.empty()),
                window,
                after.get()));
    }

    private Optional<Expectation> everyTick(Draft draft, Fields fields) {
        boolean always = draft.kind().equals("always");
        Optional<Condition> condition = condition(draft, fields, always ? Use.ALWAYS : Use.NEVER);
        Optional<Stretch> during = stretches.read(fields);
        if (condition.isEmpty() || during.isEmpty()) {
            return Optional.empty();
        }
        String name = nameOf(draft, draft.kind() + " " + condition.get().show());
        return Optional.of(
                always
                        ? new Expectation.Always(place(draft), name, condition.get(), during.get())
                        : new Expectation.Never(place(draft), name, condition.get(), during.get()));
    }

    private Optional<Expectation> mustNotFire(Draft draft, Fields fields) {
        Optional<FailSafeDescription> failSafe = failSafe(draft, fields);
        Optional<Stretch> during = stretches.read(fields);
        if (failSafe.isEmpty() || during.isEmpty()) {
            return Optional.empty();
        }
        String name = nameOf(draft, failSafe.get().name() + " must not fire");
        return Optional.of(new Expectation.MustNotFire(
                place(draft), name, failSafe.get(), Stretches.isWritten(fields) ? during : Optional.empty()));
    }

    private Optional<Expectation> peak(Draft draft, Fields fields) {
        Optional<Condition.Compares> reading = fields.optional("peak").flatMap(measures::peak);
        Optional<Stretch> during = stretches.read(fields);
        if (reading.isEmpty() || during.isEmpty()) {
            return Optional.empty();
        }
        String name = nameOf(draft, "peak of " + reading.get().show());
        return Optional.of(new Expectation.Peak(place(draft), name, reading.get(), during.get()));
    }

    private Optional<Expectation> times(Draft draft, Fields fields) {
        Optional<Condition> what = condition(draft, fields, Use.TIMES).filter(this::standsAlone);
        Optional<Measures.Count> count = fields.required("count", "2").flatMap(measures::count);
        Optional<Stretch> during = stretches.read(fields);
        if (what.isEmpty() || count.isEmpty() || during.isEmpty()) {
            return Optional.empty();
        }
        String name = nameOf(draft, "times " + what.get().show());
        return Optional.of(new Expectation.Times(
                place(draft), name, what.get(), count.get().least(), count.get().most(), during.get()));
    }

    private boolean standsAlone(Condition what) {
        boolean mixed =
                what.terms().size() > 1 && what.terms().stream().anyMatch(term -> term instanceof Condition.Answers);
        if (mixed) {
            findings.error(
                    what.place(),
                    "reports of a fail-safe are counted, and nothing else can be asked of them here",
                    "keep \"failsafe\" alone");
        }
        return !mixed;
    }

    private Optional<Expectation> restart(Draft draft, Fields fields) {
        Optional<Part> word = fields.optional("restart").flatMap(node -> values.line(node, "\"expected\""));
        Expectation.Window window = window(fields);
        Optional<Anchor> after = after(draft, fields);
        if (word.isPresent() && !word.get().text().equals("expected")) {
            findings.error(
                    word.get().at(),
                    Shown.quoted(word.get().text()) + " says nothing about a restart",
                    "write \"restart: expected\"; where none is expected, one fails the script anyway");
            return Optional.empty();
        }
        return word.isEmpty() || after.isEmpty()
                ? Optional.empty()
                : Optional.of(new Expectation.Restart(
                        place(draft), nameOf(draft, "the controller restarts"), window, after.get()));
    }

    private Optional<Expectation> order(Draft draft, Fields fields) {
        Optional<List<YamlNode>> items = fields.optional("order")
                .flatMap(node -> values.list(node, "a list of moments", "[sees it, draws back]"));
        if (items.isEmpty()) {
            return Optional.empty();
        }
        List<Anchor> moments = new ArrayList<>();
        items.get().forEach(item -> anchors.find(item).ifPresent(moments::add));
        if (items.get().size() < 2) {
            findings.error(fields.at("order"), "one moment has no order", "name at least two");
            return Optional.empty();
        }
        if (moments.size() < items.get().size()) {
            return Optional.empty();
        }
        String name = nameOf(
                draft,
                "order of "
                        + String.join(", ", moments.stream().map(Anchor::show).toList()));
        return Optional.of(new Expectation.Order(place(draft), name, moments));
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

    private int time(Fields fields) {
        return fields.optional("time")
                .flatMap(node -> values.line(node, "which time"))
                .map(part -> WholeNumber.read(part, 1, MOST_TIMES, "a time", findings))
                .orElse(1);
    }

    private Optional<Anchor> after(Draft draft, Fields fields) {
        Optional<YamlNode> written = fields.optional("after");
        if (written.isEmpty()) {
            Anchor usual = anchors.usual();
            anchors.linkExpectation(draft.index(), usual, draft.mapping().at());
            return Optional.of(usual);
        }
        Optional<Anchor> anchor = anchors.find(written.get());
        anchor.ifPresent(found ->
                anchors.linkExpectation(draft.index(), found, written.get().at()));
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
