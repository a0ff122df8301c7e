package snagbench.bench.report.register;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Finds a part of a box that lies in none of some others: takes from it what each of them has. Exact; it gives up only where that
 * comes to very many pieces, or where the whole table's effort is used up.
 */
final class Unclaimed {
    private static final int MOST_PIECES = 20_000;

    private final List<Box> claimed;
    private final Effort effort;
    /** What is still to be looked at, the next one on top. It may be as deep as there are claims, so it is no recursion. */
    private final Deque<Piece> pieces = new ArrayDeque<>();

    private Unclaimed(List<Box> claimed, Effort effort) {
        this.claimed = claimed;
        this.effort = effort;
    }

    /** A part that lies in none of the claims before this one. */
    private record Piece(Box box, int from) {}

    /**
     * A part of it that is free.
     *
     * @param part the first that was found; empty where all is claimed, or where it was cut
     * @param cut it was given up
     */
    record Found(Optional<Box> part, boolean cut) {}

    static Found in(Box box, List<Box> claimed, Effort effort) {
        effort.take(claimed.size());
        List<Box> near = claimed.stream().filter(one -> box.meets(one)).toList();
        return new Unclaimed(near, effort).find(box);
    }

    private Found find(Box whole) {
        pieces.push(new Piece(whole, 0));
        for (int taken = 0; !pieces.isEmpty(); taken++) {
            if (taken >= MOST_PIECES || effort.isUsedUp()) {
                return new Found(Optional.empty(), true);
            }
            Piece piece = pieces.pop();
            int next = piece.from();
            while (next < claimed.size() && !piece.box().meets(claimed.get(next))) {
                next++;
            }
            effort.take(next - piece.from() + 1);
            if (next == claimed.size()) {
                return new Found(Optional.of(piece.box()), false);
            }
            split(piece.box(), claimed.get(next), next + 1);
        }
        return new Found(Optional.empty(), false);
    }

    /** What of a box lies outside a claim, the first part on top. */
    private void split(Box box, Box claim, int next) {
        List<Piece> outside = new ArrayList<>();
        Box rest = box;
        for (Map.Entry<Axis, Span> limit : claim.spans().entrySet()) {
            Axis axis = limit.getKey();
            Span own = rest.span(axis);
            Box before = rest;
            own.below(limit.getValue()).ifPresent(span -> outside.add(new Piece(before.with(axis, span), next)));
            own.above(limit.getValue()).ifPresent(span -> outside.add(new Piece(before.with(axis, span), next)));
            // What is left lies within this limit, and goes on to the next.
            Optional<Box> inside = rest.and(axis, limit.getValue());
            if (inside.isEmpty()) {
                break;
            }
            rest = inside.get();
        }
        for (int i = outside.size() - 1; i >= 0; i--) {
            pieces.push(outside.get(i));
        }
    }
}
