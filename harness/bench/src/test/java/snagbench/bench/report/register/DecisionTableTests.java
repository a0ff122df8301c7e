package snagbench.bench.report.register;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static snagbench.bench.report.register.Registers.BEAM;
import static snagbench.bench.report.register.Registers.STEP;
import static snagbench.bench.report.register.Registers.X;
import static snagbench.bench.report.register.Registers.Y;
import static snagbench.bench.report.register.Registers.anyOf;
import static snagbench.bench.report.register.Registers.in;
import static snagbench.bench.report.register.Registers.term;
import static snagbench.bench.report.register.Registers.when;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.wire.ChannelKind;

/** Registers whose holes and overlaps are known, and random ones against a look at every point. */
class DecisionTableTests {
    private static final ChannelDescription FAR =
            Registers.channel(4, "far", ChannelKind.SENSOR, "mm", 9_999, 0, List.of());
    private static final ChannelDescription STRONG =
            Registers.channel(5, "strong", ChannelKind.SENSOR, "A", 9_999, 0, List.of());
    private static final String CUT =
            "OUT and the steps behind it are not looked at to the end: the symptoms come to more than ";
    private static final List<Relation> RELATIONS = List.of(Relation.values());

    /** One drives off from 6 on, the other stops up to 3: 4 and 5 are nobody's. */
    private static Registers withAGap() {
        return new Registers()
                .failSafe("FS-01", "stop", when(in("OUT"), term(X, Relation.AT_MOST, 3), term(Y, Relation.ABOVE, 6)))
                .failSafe("FS-02", "go", when(in("OUT"), term(X, Relation.AT_LEAST, 6), term(Y, Relation.ABOVE, 4)));
    }

    @Test
    void whatLiesBetweenTwoIsToldWithAPointOfIt() {
        List<DecisionTable.Hole> between = withAGap().table().holes(DecisionTable.Kind.BETWEEN);

        assertEquals(
                List.of(new DecisionTable.Hole(
                        DecisionTable.Kind.BETWEEN,
                        List.of("FS-01", "FS-02"),
                        "x",
                        List.of(new DecisionTable.Region(
                                List.of("OUT"),
                                List.of(
                                        new DecisionTable.Range("x", 4, 5, "4 mm .. 5 mm"),
                                        new DecisionTable.Range("y", 7, 9, "at least 7 A")),
                                List.of(
                                        new DecisionTable.Range("x", 4, 4, "4 mm"),
                                        new DecisionTable.Range("y", 7, 7, "7 A")))))),
                between);
        assertEquals(List.of(), withAGap().table().overlaps());
    }

    @Test
    void limitsThatMeetLeaveNeitherHoleNorOverlapBetweenThem() {
        DecisionTable table = new Registers()
                .failSafe("FS-01", "stop", when(in("OUT"), term(X, Relation.BELOW, 5), term(Y, Relation.ABOVE, 6)))
                .failSafe("FS-02", "go", when(in("OUT"), term(X, Relation.AT_LEAST, 5), term(Y, Relation.ABOVE, 4)))
                .table();

        assertEquals(List.of(), table.overlaps());
        assertEquals(List.of(), table.holes(DecisionTable.Kind.BETWEEN));
    }

    @Test
    void aLimitThatBothCountAsTheirsIsAnOverlapOfOnePoint() {
        Registers both = new Registers()
                .failSafe("FS-01", "stop", when(in("OUT"), term(X, Relation.AT_MOST, 5)))
                .failSafe("FS-02", "go", when(in("OUT"), term(X, Relation.AT_LEAST, 5)));

        List<DecisionTable.Range> five = List.of(new DecisionTable.Range("x", 5, 5, "5 mm"));
        assertEquals(
                List.of(new DecisionTable.Overlap(
                        List.of("FS-01", "FS-02"),
                        Optional.empty(),
                        List.of(new DecisionTable.Region(List.of("OUT"), five, five)))),
                both.table().undecided());
    }

    @Test
    void theRegistersOrderDecidesAnOverlap() {
        Registers both = new Registers()
                .failSafe("FS-01", "stop", when(in("OUT")))
                .failSafe("FS-02", "go", when(in("OUT")))
                .order("FS-02", "FS-01");

        assertEquals(List.of(), both.table().undecided());
        assertEquals(Optional.of("FS-02"), both.table().overlaps().get(0).first());
    }

    @Test
    void twoThatDoTheSameMayClaimTheSame() {
        Registers both =
                new Registers().failSafe("FS-01", "stop", when(in("OUT"))).failSafe("FS-02", "stop", when(in("OUT")));

        assertEquals(List.of(), both.table().overlaps());
    }

    @Test
    void whatIsAlikeInSeveralStepsIsToldOnce() {
        Condition anywhere = when(term(STEP, Relation.IS_NOT, 2), term(BEAM, Relation.IS, 1));
        DecisionTable table = new Registers()
                .failSafe("FS-01", "stop", anywhere)
                .failSafe("FS-02", "go", anywhere)
                .table();

        DecisionTable.Region region = table.overlaps().get(0).regions().get(0);
        assertEquals(List.of("OUT", "HOME"), region.steps());
        assertEquals("broken", region.where().get(0).words());
        DecisionTable.Hole elsewhere =
                table.holes(DecisionTable.Kind.OTHER_STEP).get(0);
        assertEquals(List.of("REST"), elsewhere.regions().get(0).steps());
    }

    /** So deep a register was once gone through by recursion. */
    @Test
    void asManyClaimsAsLikeNeedNoDepth() throws Exception {
        List<Condition> points = new ArrayList<>();
        for (int i = 0; i <= 4000; i++) {
            points.add(when(term(FAR, Relation.IS, i)));
        }
        for (int i = 0; i <= 2000; i++) {
            points.add(when(term(STRONG, Relation.IS, i)));
        }
        Registers deep = new Registers()
                .failSafe("FS-01", "stop", points.toArray(Condition[]::new))
                .failSafe("FS-02", "stop", when(in("OUT"), term(X, Relation.BELOW, 3), term(Y, Relation.ABOVE, 4)));
        List<DecisionTable> tables = new ArrayList<>();
        Thread shallow = new Thread(null, () -> tables.add(deep.table()), "shallow", 256 * 1024);
        shallow.start();
        shallow.join();

        assertEquals(1, tables.size(), "it came to its end");
        DecisionTable.Hole beside =
                tables.get(0).holes(DecisionTable.Kind.BESIDE).get(0);
        assertEquals(
                List.of("4001 mm", "2001 A"),
                beside.regions().get(0).example().stream()
                        .filter(one -> one.channel().length() > 1)
                        .map(DecisionTable.Range::words)
                        .toList());
    }

    /** It took minutes. */
    @Test
    @Timeout(60)
    void whatComesToTooMuchIsCutAndToldOf() {
        Registers many = new Registers();
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 1; i <= 13; i++) {
            List<Condition> own = new ArrayList<>();
            for (int k = 0; k < 400; k++) {
                own.add(when(
                        term(FAR, Relation.AT_LEAST, random.nextInt(10_000)),
                        term(STRONG, Relation.AT_MOST, random.nextInt(10_000)),
                        term(X, Relation.IS, random.nextInt(10))));
            }
            many.failSafe("FS-" + i / 10 + i % 10, "response " + i, own.toArray(Condition[]::new));
        }

        List<String> leftOut = many.table().leftOut();
        assertTrue(leftOut.contains(CUT + "10000000 comparisons with each other"), leftOut::toString);
    }

    /** Each of the one meets each of the other in a place of its own. */
    @Test
    void placesAreLimitedToo() {
        List<Condition> one = new ArrayList<>();
        List<Condition> other = new ArrayList<>();
        for (int i = 1; i <= 60; i++) {
            one.add(when(term(FAR, Relation.ABOVE, 10 * i)));
            other.add(when(term(STRONG, Relation.ABOVE, 10 * i)));
        }
        DecisionTable table = new Registers()
                .failSafe("FS-01", "stop", one.toArray(Condition[]::new))
                .failSafe("FS-02", "go", other.toArray(Condition[]::new))
                .table();

        assertEquals(List.of(CUT + "3000 places that two claim or none"), table.leftOut());
        assertEquals(1, table.overlaps().size());
    }

    /** Three to the power of thirty would fit nowhere. */
    @Test
    void alternativesThatMultiplyAreLeftOut() {
        Condition.Term three = anyOf(
                when(term(FAR, Relation.ABOVE, 10)),
                when(term(FAR, Relation.ABOVE, 20)),
                when(term(X, Relation.IS, 1)));
        Condition often = when(java.util.Collections.nCopies(30, three).toArray(Condition.Term[]::new));

        DecisionTable table = new Registers()
                .failSafe("FS-01", "stop", often, when(term(X, Relation.IS, 1)))
                .failSafe("FS-02", "go", when(term(X, Relation.IS, 1)))
                .table();
        assertEquals(
                List.of("FS-01: of its conditions some are left out, since all together come to more than"
                        + " 10000 alternatives"),
                table.leftOut());
        assertEquals(1, table.overlaps().size(), "the others are looked at");
    }

    @Test
    void alternativesAreTakenApart() {
        DecisionTable table = new Registers()
                .failSafe(
                        "FS-01",
                        "stop",
                        when(
                                in("OUT"),
                                anyOf(when(term(X, Relation.BELOW, 2)), when(term(X, Relation.ABOVE, 7))),
                                term(Y, Relation.IS_NOT, 5)))
                .failSafe("FS-02", "go", when(in("OUT"), term(X, Relation.IS, 8), term(Y, Relation.AT_LEAST, 5)))
                .table();

        DecisionTable.Region region = table.overlaps().get(0).regions().get(0);
        assertEquals(
                List.of("x 8 mm", "y at least 6 A"),
                region.where().stream().map(DecisionTable.Range::show).toList());
    }

    @Test
    void whatIsMoreThanComparisonsIsLeftOutAndTold() {
        DecisionTable table = new Registers()
                .failSafe(
                        "FS-01",
                        "stop",
                        when(
                                in("OUT"),
                                new Condition.Moves(
                                        Registers.PLACE, X, snagbench.bench.script.Source.TOLD, false, 1, 20)))
                .failSafe("FS-02", "go")
                .table();

        assertEquals(
                List.of(
                        "FS-01: \"step (told) OUT and x (told) moves less than 1 mm in 20 ticks\" is more than"
                                + " comparisons with fixed values",
                        "FS-02: its symptoms are words alone"),
                table.leftOut());
    }

    @Test
    void theTextTellsHolesAndOverlaps() {
        List<String> lines = DecisionText.lines(withAGap().table());

        assertTrue(lines.contains("  FS-01 and FS-02, but for x"), () -> String.join("\n", lines));
        assertTrue(lines.contains("    in OUT: x 4 mm .. 5 mm, y at least 7 A"), () -> String.join("\n", lines));
        assertTrue(lines.contains("    such as x 4 mm, y 7 A"), () -> String.join("\n", lines));
        assertTrue(lines.contains("Symptoms that two fail-safes claim, with different responses: none"));
    }

    /** Every point of a small rig, by the conditions as they are written. */
    private record Point(int step, int x, int y, int beam) {
        int of(ChannelDescription channel) {
            return switch (channel.name()) {
                case "step" -> step;
                case "x" -> x;
                case "y" -> y;
                default -> beam;
            };
        }

        boolean lies(Condition condition) {
            return condition.terms().stream().allMatch(this::lies);
        }

        private boolean lies(Condition.Term term) {
            return term instanceof Condition.Compares one
                    ? one.relation().holds(of(one.channel()), one.raw())
                    : ((Condition.AnyOf) term).alternatives().stream().anyMatch(this::lies);
        }

        boolean lies(DecisionTable.Region region) {
            return region.steps().contains(STEP.valueNames().get(step))
                    && region.where().stream()
                            .allMatch(range ->
                                    range.least() <= of(range.channel()) && of(range.channel()) <= range.most());
        }

        private int of(String channel) {
            return of(List.of(STEP, X, Y, BEAM).stream()
                    .filter(one -> one.name().equals(channel))
                    .findFirst()
                    .orElseThrow());
        }
    }

    private static List<Point> points() {
        List<Point> all = new ArrayList<>();
        for (int step = 0; step < 3; step++) {
            for (int x = 0; x < 10; x++) {
                for (int y = 0; y < 10; y++) {
                    all.add(new Point(step, x, y, 0));
                    all.add(new Point(step, x, y, 1));
                }
            }
        }
        return all;
    }

    private static Condition random(SplittableRandom random) {
        List<Condition.Term> terms = new ArrayList<>();
        terms.add(term(STEP, random.nextInt(4) == 0 ? Relation.IS_NOT : Relation.IS, random.nextInt(3)));
        for (ChannelDescription channel : List.of(X, Y, BEAM)) {
            if (random.nextInt(3) > 0) {
                Condition.Term one = term(
                        channel,
                        RELATIONS.get(random.nextInt(RELATIONS.size())),
                        random.nextInt(channel.highest() + 1));
                terms.add(
                        random.nextInt(4) == 0
                                ? anyOf(when(one), when(term(X, Relation.IS, random.nextInt(10))))
                                : one);
            }
        }
        return new Condition(Registers.PLACE, terms);
    }

    private static List<String> claimants(Map<String, List<Condition>> register, Point point) {
        return register.entrySet().stream()
                .filter(one -> one.getValue().stream().anyMatch(point::lies))
                .map(Map.Entry::getKey)
                .toList();
    }

    /** Overlaps are just the points that two claim; the example of each hole is nobody's; and no near miss is left out. */
    @Test
    void isWhatALookAtEveryPointFinds() {
        List<Point> points = points();
        for (int seed = 0; seed < 300; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Registers registers = new Registers();
            Map<String, List<Condition>> conditions = new TreeMap<>();
            for (String name : List.of("FS-01", "FS-02", "FS-03")) {
                List<Condition> own = new ArrayList<>();
                for (int i = random.nextInt(3); i >= 0; i--) {
                    own.add(random(random));
                }
                conditions.put(name, own);
                registers.failSafe(name, "response of " + name, own.toArray(Condition[]::new));
            }
            DecisionTable table = registers.table();
            String told = "seed " + seed;
            assertEquals(List.of(), table.leftOut(), told);
            for (Point point : points) {
                List<String> claimants = claimants(conditions, point);
                for (DecisionTable.Overlap overlap : table.overlaps()) {
                    boolean isIn = overlap.regions().stream().anyMatch(point::lies);
                    assertEquals(
                            claimants.containsAll(overlap.failSafes()),
                            isIn,
                            () -> told + ", " + point + ", " + overlap);
                }
                if (claimants.size() > 1) {
                    assertTrue(
                            table.overlaps().stream().anyMatch(one -> claimants.containsAll(one.failSafes())),
                            () -> told + ", " + point);
                }
                if (claimants.isEmpty()) {
                    nearMissesAreTold(registers, table, point, told);
                }
            }
            for (DecisionTable.Hole hole : table.holes()) {
                for (DecisionTable.Region region : hole.regions()) {
                    exampleIsNobodys(conditions, region, told + ", " + hole);
                }
            }
        }
    }

    private static void nearMissesAreTold(Registers registers, DecisionTable table, Point point, String told) {
        registers.register().entries().forEach(entry -> entry.symptoms().when().forEach(symptom -> {
            for (Box box : Alternatives.of(symptom.condition()).orElseThrow()) {
                List<Axis> lacking = box.spans().entrySet().stream()
                        .filter(one -> !one.getValue()
                                .has(new Span(
                                        point.of(one.getKey().channel()),
                                        point.of(one.getKey().channel()))))
                        .map(Map.Entry::getKey)
                        .toList();
                boolean isStep = lacking.size() == 1 && lacking.get(0).channel().isStep();
                boolean isAlone = box.spans().keySet().stream()
                                .filter(one -> !one.channel().isStep())
                                .count()
                        < (isStep ? 1 : 2);
                if (lacking.size() == 1 && !isAlone) {
                    DecisionTable.Kind kind = isStep ? DecisionTable.Kind.OTHER_STEP : DecisionTable.Kind.BESIDE;
                    assertTrue(
                            table.holes(kind).stream()
                                    .filter(hole -> hole.failSafes()
                                                    .equals(List.of(
                                                            entry.failSafe().name()))
                                            && hole.channel()
                                                    .equals(lacking.get(0).name()))
                                    .anyMatch(hole -> hole.regions().stream().anyMatch(point::lies)),
                            () -> told + ", " + point + ", " + entry.failSafe().name() + " but for " + lacking);
                }
            }
        }));
    }

    private static void exampleIsNobodys(
            Map<String, List<Condition>> conditions, DecisionTable.Region region, String told) {
        Map<String, Integer> values = new TreeMap<>();
        region.example().forEach(one -> values.put(one.channel(), one.least()));
        for (String step : region.steps()) {
            Point point = new Point(
                    STEP.valueNames().indexOf(step),
                    values.getOrDefault("x", 0),
                    values.getOrDefault("y", 0),
                    values.getOrDefault("beam", 0));
            assertTrue(point.lies(region), () -> told + ", " + point);
            // The example is of the first of the steps.
            if (step.equals(region.steps().get(0))) {
                assertEquals(List.of(), claimants(conditions, point), () -> told + ", " + point);
            }
        }
    }
}
