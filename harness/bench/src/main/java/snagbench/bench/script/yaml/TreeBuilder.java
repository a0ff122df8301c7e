package snagbench.bench.script.yaml;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.DocumentStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.Event.ID;
import org.snakeyaml.engine.v2.events.MappingStartEvent;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.events.SequenceStartEvent;
import org.snakeyaml.engine.v2.exceptions.Mark;

/** Makes a tree of the parser's events. It resolves no alias, so that no file grows when it is read. */
final class TreeBuilder {
    private final Iterator<Event> events;
    private final List<YamlProblem> problems;

    TreeBuilder(Iterator<Event> events, List<YamlProblem> problems) {
        this.events = events;
        this.problems = problems;
    }

    /** The first document; a further one is a problem. */
    Optional<YamlNode> document() {
        Optional<YamlNode> root = Optional.empty();
        while (events.hasNext()) {
            Event event = events.next();
            if (event instanceof DocumentStartEvent) {
                if (root.isPresent()) {
                    report(event, "a second document begins here", "one file holds one: take out this \"---\"");
                    return root;
                }
                root = Optional.of(node(events.next(), 1));
            }
        }
        return root.filter(node -> !isEmptyDocument(node));
    }

    private static boolean isEmptyDocument(YamlNode node) {
        return node instanceof YamlScalar scalar && scalar.isNothing();
    }

    private YamlNode node(Event event, int depth) {
        if (depth > YamlReader.MOST_DEPTH) {
            throw new TooDeepException(start(event));
        }
        if (event instanceof AliasEvent) {
            report(
                    event,
                    "\"*\" at the beginning of a value is an alias in YAML; aliases are not taken here",
                    "write the value out, or put it in quotes");
            return new YamlUnreadable(start(event));
        }
        if (event instanceof NodeEvent node && node.getAnchor().isPresent()) {
            report(
                    event,
                    "\"&\" at the beginning of a value is an anchor in YAML; anchors are not taken here",
                    "write values out where they are wanted, or put the text in quotes");
        }
        if (event instanceof ScalarEvent scalar) {
            return scalar(scalar);
        }
        if (event instanceof SequenceStartEvent list) {
            tag(event, list.getTag());
            return list(event, depth);
        }
        if (event instanceof MappingStartEvent mapping) {
            tag(event, mapping.getTag());
            return mapping(event, depth);
        }
        throw new IllegalStateException("no node: " + event);
    }

    private YamlNode scalar(ScalarEvent event) {
        Position at = start(event);
        if (tag(event, event.getTag())) {
            return new YamlUnreadable(at);
        }
        YamlScalar.Style style =
                switch (event.getScalarStyle()) {
                    case SINGLE_QUOTED, DOUBLE_QUOTED -> YamlScalar.Style.QUOTED;
                    case LITERAL, FOLDED -> YamlScalar.Style.BLOCK;
                    default -> YamlScalar.Style.PLAIN;
                };
        int lastLine = event.getEndMark().map(mark -> mark.getLine() + 1).orElse(at.line());
        return new YamlScalar(at, event.getValue(), style, lastLine);
    }

    private YamlNode list(Event start, int depth) {
        List<YamlNode> items = new ArrayList<>();
        for (Event next = events.next(); next.getEventId() != ID.SequenceEnd; next = events.next()) {
            items.add(node(next, depth + 1));
        }
        return new YamlList(start(start), items);
    }

    private YamlNode mapping(Event start, int depth) {
        List<YamlMapping.Entry> entries = new ArrayList<>();
        Map<String, Position> seen = new HashMap<>();
        Set<String> twice = new HashSet<>();
        for (Event next = events.next(); next.getEventId() != ID.MappingEnd; next = events.next()) {
            YamlNode key = node(next, depth + 1);
            YamlNode value = node(events.next(), depth + 1);
            if (key instanceof YamlScalar name) {
                Position first = seen.putIfAbsent(name.text(), name.at());
                if (first == null) {
                    entries.add(new YamlMapping.Entry(name.at(), name.text(), value));
                } else {
                    twice(name, first, twice.add(name.text()));
                }
            } else if (!(key instanceof YamlUnreadable)) {
                problems.add(new YamlProblem(
                        key.at(), key.words() + " stands where a key is wanted", "a key is a text, such as \"when:\""));
            }
        }
        return new YamlMapping(start(start), entries);
    }

    /** Told at both places; at the first one once, however often the key comes again. */
    private void twice(YamlScalar key, Position first, boolean anew) {
        String name = Shown.quoted(key.text());
        String cure = "keep one of the two; in a list, each item starts with \"- \"";
        if (anew) {
            problems.add(new YamlProblem(
                    first,
                    name + " stands twice in the same mapping: again in line "
                            + key.at().line(),
                    cure));
        }
        problems.add(new YamlProblem(
                key.at(), name + " stands twice in the same mapping: first in line " + first.line(), cure));
    }

    /** Reports a tag, if one is written. */
    private boolean tag(Event event, Optional<String> tag) {
        if (tag.isEmpty()) {
            return false;
        }
        if (tag.get().equals("!=")) {
            report(event, "an unquoted \"!=\" is a tag in YAML", "write \"is not\" and the value");
        } else {
            report(
                    event,
                    "\"!\" at the beginning of a value is a tag in YAML; tags are not taken here",
                    "take it out, or put the text in quotes");
        }
        return true;
    }

    private void report(Event event, String message, String cure) {
        problems.add(new YamlProblem(start(event), message, cure));
    }

    private static Position start(Event event) {
        return event.getStartMark().map(TreeBuilder::position).orElse(Position.START);
    }

    static Position position(Mark mark) {
        return new Position(mark.getLine() + 1, mark.getColumn() + 1);
    }

    /** Too many lists and mappings in each other. */
    static final class TooDeepException extends RuntimeException {
        private static final long serialVersionUID = 1L;
        private final transient Position at;

        TooDeepException(Position at) {
            this.at = at;
        }

        Position at() {
            return at;
        }
    }
}
