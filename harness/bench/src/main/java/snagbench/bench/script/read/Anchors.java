package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.yaml.Position;
import snagbench.bench.script.yaml.Shown;

/** What the times of a script may be counted from. Names are gathered first, since a script may name a later one. */
final class Anchors {
    private static final String BEGIN = "begin";

    private final Findings findings;
    private final Map<String, Anchor> byName = new LinkedHashMap<>();
    private final Set<String> momentless = new HashSet<>();
    private final Set<String> unreadable = new HashSet<>();
    private final Map<String, Position> taken = new LinkedHashMap<>();
    private final Map<Integer, Link> links = new LinkedHashMap<>();

    Anchors(Findings findings) {
        this.findings = findings;
        byName.put(BEGIN, new Anchor.OfBegin());
    }

    /** An expectation that is counted from another. */
    private record Link(int to, Position at) {}

    void injection(int index, Part name) {
        if (isFree(name)) {
            byName.put(name.text(), new Anchor.OfInjection(index, name.text()));
        }
    }

    /** An expectation that is met at some moment. */
    void expectation(int index, Part name) {
        if (isFree(name)) {
            byName.put(name.text(), new Anchor.OfExpectation(index, name.text()));
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

    /** Finds an anchor; an empty answer has been reported. */
    Optional<Anchor> find(Part name) {
        Anchor anchor = byName.get(name.text());
        if (anchor == null && !unreadable.contains(name.text())) {
            List<String> right = new ArrayList<>(byName.keySet());
            boolean stretch = momentless.contains(name.text());
            findings.error(
                    name.at(),
                    stretch
                            ? Shown.quoted(name.text()) + " has no moment from which to count"
                            : "nothing here is named " + Shown.quoted(name.text()),
                    NearestName.cure(name.text(), right));
        }
        return Optional.ofNullable(anchor);
    }

    /** Notes what an expectation is counted from. */
    void link(int expectation, Anchor to, Position at) {
        if (to instanceof Anchor.OfExpectation other) {
            links.put(expectation, new Link(other.index(), at));
        }
    }

    /** Reports expectations that are counted from each other in a circle. */
    void reportCircles() {
        Set<Integer> done = new HashSet<>();
        links.forEach((start, first) -> {
            Set<Integer> path = new HashSet<>();
            Integer at = start;
            while (at != null && !done.contains(at) && path.add(at)) {
                Link link = links.get(at);
                at = link == null ? null : Integer.valueOf(link.to());
            }
            if (at != null && !done.contains(at)) {
                findings.error(
                        first.at(),
                        "these expectations are counted from each other in a circle",
                        "count one of them from an injection or from begin");
            }
            done.addAll(path);
        });
    }
}
