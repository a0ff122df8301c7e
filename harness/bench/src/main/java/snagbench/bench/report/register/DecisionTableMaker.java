package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.Source;

/** Lays the register's symptoms side by side, step by step, and tells what is alike in several steps once. */
public final class DecisionTableMaker {
    /** Boxes of all symptoms together; a rig of a dozen fail-safes has fewer than a hundred. */
    private static final int MOST_BOXES = 10_000;

    /** Places that are told, of all overlaps and holes together. */
    private static final int MOST_PLACES = 3_000;

    private final Axis step;
    private final List<String> order;
    private final List<Claim> claims = new ArrayList<>();
    private final Effort effort = new Effort();
    private final Set<Object> looked = new HashSet<>();
    private final Set<String> leftOut = new LinkedHashSet<>();
    private final Map<Pair, Regions> overlaps = new LinkedHashMap<>();
    private final Map<Lack, Regions> holes = new LinkedHashMap<>();
    private int places;

    private DecisionTableMaker(ChannelDescription step, List<String> order) {
        this.order = order;
        this.step = new Axis(step, Source.REAL);
    }

    /** One box of one symptom. */
    private record Claim(String failSafe, String response, Box box) {
        private Claim in(Box other) {
            return new Claim(failSafe, response, other);
        }
    }

    private record Pair(String one, String other) {}

    private record Lack(DecisionTable.Kind kind, List<String> failSafes, String channel) {}

    /** Boxes, with the steps in which each was met and a point of it. */
    private static final class Regions {
        private final Map<Box, Set<Integer>> steps = new LinkedHashMap<>();
        private final Map<Box, Box> examples = new LinkedHashMap<>();

        /** Whether it is a place more. */
        boolean add(Box where, int step, Box example) {
            steps.computeIfAbsent(where, one -> new TreeSet<>()).add(step);
            return examples.putIfAbsent(where, example) == null;
        }
    }

    /**
     * Lays the symptoms side by side.
     *
     * @param register of the rig
     * @param step the rig's step
     * @return the table
     */
    public static DecisionTable of(FailSafeRegister register, ChannelDescription step) {
        DecisionTableMaker maker = new DecisionTableMaker(
                step, register.order().stream().map(FailSafeDescription::name).toList());
        register.entries().forEach(maker::take);
        for (int value = 0; value < step.valueNames().size(); value++) {
            maker.look(value);
            if (maker.isFull()) {
                maker.leftOut.add(step.show(value)
                        + " and the steps behind it are not looked at to the end: the symptoms come to " + maker.why());
                break;
            }
        }
        return maker.table();
    }

    private void take(FailSafeRegister.Entry entry) {
        String name = entry.failSafe().name();
        if (entry.symptoms().when().isEmpty()) {
            leftOut.add(name + ": its symptoms are words alone");
        }
        for (FailSafeRegister.Symptom symptom : entry.symptoms().when()) {
            Optional<List<Box>> boxes = Alternatives.of(symptom.condition());
            int most = MOST_BOXES - claims.size();
            if (Alternatives.isPlain(symptom.condition())
                    && (boxes.isEmpty() || boxes.get().size() > most)) {
                leftOut.add(name + ": of its conditions some are left out, since all together come to more than "
                        + MOST_BOXES + " alternatives");
                continue;
            }
            if (boxes.isEmpty()) {
                leftOut.add(
                        name + ": \"" + symptom.condition().show() + "\" is more than comparisons with fixed values");
            }
            boxes.ifPresent(all -> all.forEach(box -> claims.add(new Claim(name, entry.response(), box))));
        }
    }

    private boolean isFull() {
        return effort.isUsedUp() || places >= MOST_PLACES;
    }

    private String why() {
        return places >= MOST_PLACES
                ? "more than " + MOST_PLACES + " places that two claim or none"
                : "more than " + Effort.MOST + " comparisons with each other";
    }

    private void look(int value) {
        Span only = new Span(value, value);
        List<Claim> here = claims.stream()
                .filter(claim -> claim.box().span(step).has(only))
                .map(claim -> claim.in(claim.box().without(step)))
                .toList();
        List<Box> claimed = here.stream().map(Claim::box).toList();
        for (int i = 0; i < here.size() && !isFull(); i++) {
            for (int k = i + 1; k < here.size() && !isFull(); k++) {
                Claim one = here.get(i);
                Claim other = here.get(k);
                if (!one.failSafe().equals(other.failSafe()) && !one.response().equals(other.response())) {
                    effort.take(1);
                    together(value, one, other, claimed);
                }
            }
            beside(value, here.get(i), claimed);
        }
        for (Claim claim : claims) {
            if (isFull()) {
                return;
            }
            Box signs = claim.box().without(step);
            if (!claim.box().span(step).has(only) && !signs.equals(Box.ANYTHING)) {
                add(DecisionTable.Kind.OTHER_STEP, List.of(claim.failSafe()), step, value, signs, claimed);
            }
        }
    }

    private void together(int value, Claim one, Claim other, List<Box> claimed) {
        Optional<Box> both = one.box().and(other.box());
        if (both.isPresent()) {
            Regions regions =
                    overlaps.computeIfAbsent(new Pair(one.failSafe(), other.failSafe()), pair -> new Regions());
            places += regions.add(both.get(), value, both.get()) ? 1 : 0;
            return;
        }
        for (Axis axis : one.box().spans().keySet()) {
            if (!other.box().spans().containsKey(axis)
                    || !axis.channel().valueNames().isEmpty()) {
                continue;
            }
            Span low = one.box().span(axis);
            Span high = other.box().span(axis);
            if (low.least() > high.least()) {
                Span swapped = low;
                low = high;
                high = swapped;
            }
            Optional<Box> otherwise = one.box().without(axis).and(other.box().without(axis));
            Optional<Span> gap = Span.of(low.most() + 1L, high.least() - 1L);
            if (otherwise.isPresent() && gap.isPresent()) {
                add(
                        DecisionTable.Kind.BETWEEN,
                        List.of(one.failSafe(), other.failSafe()),
                        axis,
                        value,
                        otherwise.get().with(axis, gap.get()),
                        claimed);
            }
        }
    }

    private void beside(int value, Claim claim, List<Box> claimed) {
        if (claim.box().spans().size() < 2) {
            return;
        }
        claim.box().spans().forEach((axis, span) -> {
            for (Optional<Span> outside :
                    List.of(axis.whole().below(span), axis.whole().above(span))) {
                outside.ifPresent(part -> add(
                        DecisionTable.Kind.BESIDE,
                        List.of(claim.failSafe()),
                        axis,
                        value,
                        claim.box().with(axis, part),
                        claimed));
            }
        });
    }

    private void add(
            DecisionTable.Kind kind, List<String> failSafes, Axis axis, int value, Box box, List<Box> claimed) {
        if (!looked.add(List.of(kind, failSafes, axis, value, box))) {
            return;
        }
        Unclaimed.Found found = Unclaimed.in(box, claimed, effort);
        if (found.cut() && !effort.isUsedUp()) {
            leftOut.add(step.channel().show(value) + ": beside " + String.join(" and ", failSafes)
                    + " there is more than is looked at");
        }
        if (found.part().isPresent()) {
            Regions regions = holes.computeIfAbsent(new Lack(kind, failSafes, axis.name()), lack -> new Regions());
            places += regions.add(box, value, found.part().get()) ? 1 : 0;
        }
    }

    private DecisionTable table() {
        return new DecisionTable(
                overlaps.entrySet().stream()
                        .map(one -> new DecisionTable.Overlap(
                                List.of(one.getKey().one(), one.getKey().other()),
                                first(one.getKey()),
                                regions(one.getValue())))
                        .toList(),
                holes.entrySet().stream()
                        .map(one -> new DecisionTable.Hole(
                                one.getKey().kind(),
                                one.getKey().failSafes(),
                                one.getKey().channel(),
                                regions(one.getValue())))
                        .sorted(java.util.Comparator.comparing(DecisionTable.Hole::kind))
                        .toList(),
                List.copyOf(leftOut));
    }

    /** The one that the register's order has before the other. */
    private Optional<String> first(Pair pair) {
        int one = order.indexOf(pair.one());
        int other = order.indexOf(pair.other());
        return one < 0 || other < 0 ? Optional.empty() : Optional.of(one < other ? pair.one() : pair.other());
    }

    /** Those that lie in no other of them. */
    private List<DecisionTable.Region> regions(Regions regions) {
        List<DecisionTable.Region> all = new ArrayList<>();
        regions.steps.forEach((box, steps) -> {
            boolean isPart = regions.steps.entrySet().stream()
                    .anyMatch(other -> !other.getKey().equals(box)
                            && other.getKey().has(box)
                            && other.getValue().containsAll(steps));
            if (!isPart) {
                Box example = java.util.Objects.requireNonNull(regions.examples.get(box));
                all.add(new DecisionTable.Region(
                        steps.stream().map(step.channel()::show).toList(),
                        ranges(box),
                        example.spans().entrySet().stream()
                                .map(one -> point(one.getKey(), one.getValue().example()))
                                .toList()));
            }
        });
        return all;
    }

    private static List<DecisionTable.Range> ranges(Box box) {
        return box.spans().entrySet().stream()
                .map(one -> new DecisionTable.Range(
                        one.getKey().name(),
                        one.getValue().least(),
                        one.getValue().most(),
                        one.getKey().show(one.getValue())))
                .toList();
    }

    private static DecisionTable.Range point(Axis axis, int raw) {
        return new DecisionTable.Range(axis.name(), raw, raw, axis.channel().show(raw));
    }
}
