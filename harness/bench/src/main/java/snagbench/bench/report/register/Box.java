package snagbench.bench.report.register;

import java.util.Collections;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * All combinations of values of which each lies in a span of its own; what is not named may be anything. A condition without
 * alternatives is one of these.
 *
 * @param spans by their readings, none of them the whole range
 */
record Box(SortedMap<Axis, Span> spans) {
    static final Box ANYTHING = new Box(Collections.emptySortedMap());

    Box {
        spans = Collections.unmodifiableSortedMap(new TreeMap<>(spans));
    }

    Span span(Axis axis) {
        Span own = spans.get(axis);
        return own == null ? axis.whole() : own;
    }

    /** What of it lies in a span too; empty where nothing does. */
    Optional<Box> and(Axis axis, Span span) {
        return span(axis).and(span).map(both -> with(axis, both));
    }

    /** What of it lies in another; empty where nothing does. */
    Optional<Box> and(Box other) {
        Optional<Box> both = Optional.of(this);
        for (Map.Entry<Axis, Span> one : other.spans.entrySet()) {
            both = both.flatMap(box -> box.and(one.getKey(), one.getValue()));
        }
        return both;
    }

    /** Whether any of it lies in another. */
    boolean meets(Box other) {
        for (Map.Entry<Axis, Span> one : other.spans.entrySet()) {
            Span own = spans.get(one.getKey());
            if (own != null
                    && (own.most() < one.getValue().least()
                            || own.least() > one.getValue().most())) {
                return false;
            }
        }
        return true;
    }

    /** With another span in place of the one that it has there. */
    Box with(Axis axis, Span span) {
        TreeMap<Axis, Span> others = new TreeMap<>(spans);
        if (span.has(axis.whole())) {
            others.remove(axis);
        } else {
            others.put(axis, span);
        }
        return new Box(others);
    }

    /** With anything there. */
    Box without(Axis axis) {
        return with(axis, axis.whole());
    }

    /** Whether all of another lies in it. */
    boolean has(Box other) {
        return spans.entrySet().stream().allMatch(one -> one.getValue().has(other.span(one.getKey())));
    }
}
