package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Finds a part of a box that lies in none of some others: takes from it what each of them has. Exact; it gives up only where that
 * comes to very many pieces.
 */
final class Unclaimed {
    private static final int MOST_PIECES = 20_000;

    private final List<Box> claimed;
    private int pieces;

    private Unclaimed(List<Box> claimed) {
        this.claimed = claimed;
    }

    /**
     * A part of it that is free.
     *
     * @param part the first that was found; empty where all is claimed, or where it was cut
     * @param cut it was given up
     */
    record Found(Optional<Box> part, boolean cut) {}

    static Found in(Box box, List<Box> claimed) {
        List<Box> near = claimed.stream().filter(one -> box.meets(one)).toList();
        Unclaimed search = new Unclaimed(near);
        Optional<Box> part = search.find(box, 0);
        return new Found(part, part.isEmpty() && search.pieces > MOST_PIECES);
    }

    private Optional<Box> find(Box box, int from) {
        if (++pieces > MOST_PIECES) {
            return Optional.empty();
        }
        int next = from;
        while (next < claimed.size() && !box.meets(claimed.get(next))) {
            next++;
        }
        if (next == claimed.size()) {
            return Optional.of(box);
        }
        Box rest = box;
        for (Map.Entry<Axis, Span> limit : claimed.get(next).spans().entrySet()) {
            Axis axis = limit.getKey();
            Span own = rest.span(axis);
            List<Span> outside = new ArrayList<>();
            own.below(limit.getValue()).ifPresent(outside::add);
            own.above(limit.getValue()).ifPresent(outside::add);
            for (Span span : outside) {
                Optional<Box> found = find(rest.with(axis, span), next + 1);
                if (found.isPresent()) {
                    return found;
                }
            }
            // What is left lies within this limit, and goes on to the next.
            Optional<Box> inside = rest.and(axis, limit.getValue());
            if (inside.isEmpty()) {
                return Optional.empty();
            }
            rest = inside.get();
        }
        return Optional.empty();
    }
}
