package snagbench.bench.script.read;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.Shown;
import snagbench.bench.script.yaml.YamlMapping;
import snagbench.bench.script.yaml.YamlNode;

/** What the times of a script may be counted from. Names are gathered first, since a script may name a later one. */
final class Anchors {
    private static final String BEGIN = "begin";
    private static final int MOST_TIMES = 1_000_000;

    private final Findings findings;
    private final Values values;
    private final Map<String, Anchor> byName = new LinkedHashMap<>();
    private final Set<String> countable = new HashSet<>();
    private final Set<String> momentless = new HashSet<>();
    private final Set<String> unreadable = new HashSet<>();
    private final Map<String, Position> taken = new LinkedHashMap<>();
    private final Map<Node, Link> links = new LinkedHashMap<>();

    Anchors(Findings findings) {
        this.findings = findings;
        this.values = new Values(findings);
        byName.put(BEGIN, new Anchor.OfBegin());
    }

    /** What is counted from something else. */
    private record Node(boolean isInjection, int index) {}

    private record Link(Node to, Position at) {}

    void injection(int index, Part name) {
        if (isFree(name)) {
            byName.put(name.text(), new Anchor.OfInjection(index, name.text()));
            countable.add(name.text());
        }
    }

    /** An expectation that is met at some moment; what it waits for may come about several times. */
    void expectation(int index, Part name, boolean mayComeAgain) {
        if (isFree(name)) {
            byName.put(name.text(), new Anchor.OfExpectation(index, name.text()));
            if (mayComeAgain) {
                countable.add(name.text());
            }
        }
    }

    /** An expectation over a whole stretch of time, from which nothing can be counted. */
    void stretch(Part name) {
        if (isFree(name)) {
            momentless.add(name.text());
        }
    }

    /** An expectation that could not be read: what is counted from it is not reported on top. */
    void unreadable(Part name) {
        if (isFree(name)) {
            unreadable.add(name.text());
        }
    }

    private boolean isFree(Part name) {
        if (name.text().equals(BEGIN)) {
            findings.error(name.at(), "the name \"begin\" is taken: it is the script's beginning", "take another one");
            return false;
        }
        Position first = taken.putIfAbsent(name.text(), name.at());
        if (first == null) {
            return true;
        }
        findings.error(
                name.at(),
                "the name " + Shown.quoted(name.text()) + " is taken in line " + first.line(),
                "names of injections and expectations differ: take another one");
        return false;
    }

    /** What an expectation is counted from where it does not say. */
    Anchor usual() {
        return byName.values().stream()
                .filter(anchor -> anchor instanceof Anchor.OfInjection)
                .findFirst()
                .orElse(new Anchor.OfBegin());
    }

    /** The injection whose first tick is meant where none is named; empty where there is none. */
    Optional<Anchor.OfInjection> firstInjection() {
        return usual() instanceof Anchor.OfInjection injection ? Optional.of(injection) : Optional.empty();
    }

    /** An anchor as a file has it: its name, or {@code { of: NAME, time: 2 }}. An empty answer has been reported. */
    Optional<Anchor> find(YamlNode node) {
        if (!(node instanceof YamlMapping mapping)) {
            return values.line(node, "the name of what it is counted from").flatMap(this::find);
        }
        Fields fields = Fields.of(mapping, "an anchor", List.of("of", "time"), Set.of(), findings);
        Optional<Part> name =
                fields.required("of", "NAME").flatMap(of -> values.line(of, "the name of what it is counted from"));
        Optional<Part> time = fields.required("time", "2").flatMap(written -> values.line(written, "which time"));
        Optional<Anchor> anchor = name.flatMap(this::find);
        if (anchor.isEmpty() || time.isEmpty()) {
            return Optional.empty();
        }
        int which = WholeNumber.read(time.get(), 1, MOST_TIMES, "a time", findings);
        if (which > 1 && !countable.contains(name.orElseThrow().text())) {
            findings.error(
                    time.get().at(),
                    Shown.quoted(name.orElseThrow().text()) + " comes about once only",
                    "leave \"time\" out; injections, answered-by and becomes have several times");
            return Optional.empty();
        }
        return Optional.of(timed(anchor.get(), which));
    }

    private static Anchor timed(Anchor anchor, int time) {
        if (anchor instanceof Anchor.OfInjection injection) {
            return new Anchor.OfInjection(injection.index(), injection.name(), time);
        }
        if (anchor instanceof Anchor.OfExpectation expectation) {
            return new Anchor.OfExpectation(expectation.index(), expectation.name(), time);
        }
        return anchor;
    }

    /** Finds an anchor by its name; an empty answer has been reported. */
    Optional<Anchor> find(Part name) {
        Anchor anchor = byName.get(name.text());
        if (anchor == null && !unreadable.contains(name.text())) {
            boolean stretch = momentless.contains(name.text());
            findings.error(
                    name.at(),
                    stretch
                            ? Shown.quoted(name.text()) + " has no moment from which to count"
                            : "nothing here is named " + Shown.quoted(name.text()),
                    () -> NearestName.cure(name.text(), List.copyOf(byName.keySet())));
        }
        return Optional.ofNullable(anchor);
    }

    /** Notes what an expectation is counted from. */
    void linkExpectation(int expectation, Anchor to, Position at) {
        link(new Node(false, expectation), to, at);
    }

    /** Notes what an injection is counted from. */
    void linkInjection(int injection, Anchor to, Position at) {
        link(new Node(true, injection), to, at);
    }

    private void link(Node from, Anchor to, Position at) {
        if (to instanceof Anchor.OfExpectation other) {
            links.put(from, new Link(new Node(false, other.index()), at));
        } else if (to instanceof Anchor.OfInjection other) {
            links.put(from, new Link(new Node(true, other.index()), at));
        }
    }

    /** Reports what is counted from each other in a circle. */
    void reportCircles() {
        Set<Node> done = new HashSet<>();
        links.forEach((start, first) -> {
            Set<Node> path = new HashSet<>();
            Optional<Node> at = Optional.of(start);
            while (at.isPresent() && !done.contains(at.get()) && path.add(at.get())) {
                at = Optional.ofNullable(links.get(at.get())).map(Link::to);
            }
            if (at.isPresent() && !done.contains(at.get())) {
                findings.error(
                        first.at(),
                        path.stream().anyMatch(Node::isInjection)
                                ? "these are counted from each other in a circle"
                                : "these expectations are counted from each other in a circle",
                        "count one of them from an injection or from begin");
            }
            done.addAll(path);
        });
    }
}
