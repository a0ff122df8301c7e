package snagbench.bench.script.read;

import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Trigger;
import snagbench.bench.script.yaml.YamlNode;

/** Reads what strikes an injection. An empty answer has been reported. */
final class Triggers {
    /** The keys of an injection that this reads. */
    static final List<String> KEYS = List.of("when", "for", "delay", "after", "count", "every-time", "at-most-times");

    private final Findings findings;
    private final Values values;
    private final Times times;
    private final Conditions conditions;
    private final Anchors anchors;

    Triggers(Findings findings, Times times, Conditions conditions, Anchors anchors) {
        this.findings = findings;
        this.values = new Values(findings);
        this.times = times;
        this.conditions = conditions;
        this.anchors = anchors;
    }

    Optional<Trigger> read(Fields fields, int index) {
        Optional<Anchor> after = after(fields, index);
        Optional<Condition> when = when(fields, index);
        long held = fields.optional("for")
                .map(node -> times.micros(node, "the time for which it must hold"))
                .orElse(0L);
        long delay = fields.optional("delay")
                .map(node -> times.micros(node, "a delay"))
                .orElse(0L);
        int occasion =
                fields.optional("count").map(node -> number(node, "a count")).orElse(1);
        int strikes = strikes(fields);
        if (after.isEmpty() || when.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Trigger(after.get(), when.get(), held, delay, occasion, strikes));
    }

    private Optional<Condition> when(Fields fields, int index) {
        if (fields.has("when") || !fields.has("after")) {
            return fields.required("when", "{ step: REACHING }")
                    .flatMap(node -> conditions.read(node, Use.WHEN, index));
        }
        for (String key : List.of("for", "count", "every-time", "at-most-times")) {
            if (fields.has(key)) {
                findings.error(
                        fields.at(key),
                        "\"" + key + "\" is about a condition, and there is no \"when\"",
                        key.equals("for")
                                ? "write \"delay\" for a time after " + "what stands in \"after\""
                                : "add \"when\"");
            }
        }
        return Optional.of(new Condition(findings.place(fields.at()), List.of()));
    }

    private Optional<Anchor> after(Fields fields, int index) {
        Optional<YamlNode> written = fields.optional("after");
        if (written.isEmpty()) {
            return fields.has("after") ? Optional.empty() : Optional.of(new Anchor.OfBegin());
        }
        Optional<Anchor> anchor = anchors.find(written.get());
        anchor.ifPresent(
                found -> anchors.linkInjection(index, found, written.get().at()));
        if (anchor.isPresent() && anchor.get() instanceof Anchor.OfInjection other && other.time() > 1) {
            findings.error(
                    written.get().at(),
                    "the rig can wait for the first strike of another injection, not for a later one",
                    "hang this one on an expectation, or count occasions with \"count\"");
            return Optional.empty();
        }
        return anchor;
    }

    /** How often it strikes at most; 0 for without limit. */
    private int strikes(Fields fields) {
        boolean always = fields.optional("every-time").map(values::truth).orElse(false);
        Optional<YamlNode> most = fields.optional("at-most-times");
        if (always && most.isPresent()) {
            findings.error(
                    fields.at("at-most-times"),
                    "\"every-time\" and \"at-most-times\" stand together",
                    "keep one: at-most-times alone strikes every time up to its number");
        }
        return most.map(node -> number(node, "a number of strikes")).orElse(always ? 0 : 1);
    }

    private int number(YamlNode node, String what) {
        return values.line(node, what)
                .map(part -> WholeNumber.read(part, 1, Integer.MAX_VALUE, what, findings))
                .orElse(1);
    }
}
