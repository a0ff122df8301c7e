package snagbench.bench.script.write;

import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Place;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stage;
import snagbench.bench.script.Stretch;
import snagbench.bench.script.Trigger;
import snagbench.wire.ChannelKind;
import snagbench.wire.Item;

/** Random scripts that a reader would let pass: of everything that the language has, and in all combinations. */
public final class RandomScripts {
    private static final Path FILE = Path.of("random.fault.yaml");
    private static final Place PLACE = new Place(FILE, 1, 1);
    private static final List<String> WORDS = List.of(
            "sees it", "draws back", "it's: odd", "{stuck}", "x", "tries # 2", "100 %", "- dash", "null", "Übung");

    private final Random random;
    private final RigDescription rig;
    private final List<ChannelDescription> figures;
    private final Set<ChannelDescription> overridden = new LinkedHashSet<>();
    private final List<DerivedChannel> derived = new ArrayList<>();
    private final List<Expectation> expectations = new ArrayList<>();
    private final List<Boolean> onTheRig = new ArrayList<>();
    private final Map<String, Integer> names = new HashMap<>();
    private int history = 900;

    private RandomScripts(long seed, RigDescription rig, RigFile rigFile) {
        this.random = new Random(seed);
        this.derived.addAll(rigFile.derived());
        this.rig = rig;
        this.figures = rig.channels().stream()
                .filter(one ->
                        one.kind() == ChannelKind.SENSOR && one.valueNames().isEmpty())
                .toList();
    }

    /** A script; the same for the same seed. */
    public static FaultScript of(long seed, RigDescription rig, RigFile rigFile) {
        return new RandomScripts(seed, rig, rigFile).script();
    }

    private <T> T any(List<T> list) {
        return list.get(random.nextInt(list.size()));
    }

    private boolean oneIn(int times) {
        return random.nextInt(times) == 0;
    }

    private String name() {
        String word = any(WORDS);
        int number = names.merge(word, 1, Integer::sum);
        return number == 1 ? word : word + " " + number;
    }

    private long micros() {
        return switch (random.nextInt(3)) {
            case 0 -> 1 + random.nextInt(2_000_000);
            case 1 -> 1000L * (1 + random.nextInt(2000));
            default -> 1_000_000L * (1 + random.nextInt(9));
        };
    }

    private FaultScript script() {
        int count = 1 + random.nextInt(3);
        List<List<Injection.Forcing>> forcings = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            forcings.add(forcings());
        }
        derive();
        List<String> injectionNames = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            injectionNames.add(name());
        }
        for (int i = 1 + random.nextInt(6); i > 0; i--) {
            expect(injectionNames);
        }
        if (expectations.stream().noneMatch(one -> one instanceof Expectation.Timed)) {
            String name = name();
            expectations.add(new Expectation.AnsweredBy(
                    PLACE, name, any(rig.failSafes()), window(), new Anchor.OfBegin(), oneIn(2), 1));
            onTheRig.add(true);
        }
        List<Injection> injections = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            injections.add(injection(i, injectionNames, forcings.get(i)));
        }
        Optional<FaultScript.End> end = oneIn(2)
                ? Optional.of(new FaultScript.End(PLACE, micros(), first(anchor(injectionNames))))
                : Optional.empty();
        return new FaultScript(
                PLACE,
                any(WORDS),
                failSafes(),
                oneIn(3) ? "One reason: and # another.\nOn two lines." : "",
                needs(),
                begin(),
                injections,
                expectations,
                end,
                oneIn(4) ? failSafes() : List.of(),
                derived,
                Optional.empty());
    }

    private List<FailSafeDescription> failSafes() {
        List<FailSafeDescription> all = new ArrayList<>(rig.failSafes());
        Collections.shuffle(all, random);
        return all.subList(0, random.nextInt(3));
    }

    private Set<FaultScript.Need> needs() {
        Set<FaultScript.Need> needs = EnumSet.noneOf(FaultScript.Need.class);
        for (FaultScript.Need need : FaultScript.Need.values()) {
            if (oneIn(3)) {
                needs.add(need);
            }
        }
        return needs;
    }

    private List<Stage> begin() {
        List<Stage> stages = new ArrayList<>();
        for (int i = random.nextInt(3); i > 0; i--) {
            ChannelDescription start = rig.channel("start-run").orElseThrow();
            stages.add(
                    oneIn(2)
                            ? new Stage.Send(PLACE, start, 1)
                            : new Stage.WaitFor(PLACE, condition(Where.RIG), micros()));
        }
        return stages;
    }

    private List<Injection.Forcing> forcings() {
        List<Injection.Forcing> found = new ArrayList<>();
        Set<ChannelDescription> channels = new LinkedHashSet<>();
        boolean spiked = false;
        for (int i = random.nextInt(3); i >= 0; i--) {
            ChannelDescription channel = any(figures);
            if (channels.add(channel)) {
                for (int faults = oneIn(4) ? 2 : 1; faults > 0; faults--) {
                    found.add(new Injection.Forcing(PLACE, channel, fault(channel), gate()));
                }
                if (!spiked && oneIn(4)) {
                    spiked = true;
                    OptionalLong lasting = oneIn(2) ? OptionalLong.of(micros()) : OptionalLong.empty();
                    found.add(new Injection.Forcing(PLACE, channel, new Fault.Spike(raw(channel), lasting), gate()));
                }
            }
        }
        if (oneIn(3)) {
            ChannelDescription drive = any(rig.channels().stream()
                    .filter(one -> (one.flags() & Item.MAY_BE_WEAKENED) != 0)
                    .toList());
            Fault fault = oneIn(2) ? new Fault.StuckAt(0) : new Fault.Scale(new BigDecimal("0.35"));
            found.add(new Injection.Forcing(PLACE, drive, fault, gate()));
            channels.add(drive);
        }
        for (ChannelKind kind : List.of(ChannelKind.INHIBITION, ChannelKind.DISTURBANCE)) {
            if (oneIn(4)) {
                ChannelDescription channel = any(rig.channels().stream()
                        .filter(one -> one.kind() == kind)
                        .toList());
                int raw = kind == ChannelKind.INHIBITION ? 1 : channel.highest();
                found.add(new Injection.Forcing(PLACE, channel, new Fault.StuckAt(raw)));
                channels.add(channel);
            }
        }
        overridden.addAll(channels);
        return found;
    }

    private Optional<Injection.Gate> gate() {
        return oneIn(5) ? Optional.of(new Injection.Gate(micros(), micros())) : Optional.empty();
    }

    private int raw(ChannelDescription channel) {
        return channel.lowest() + random.nextInt(channel.highest() - channel.lowest() + 1);
    }

    private static BigDecimal plain(BigDecimal number) {
        BigDecimal stripped = number.stripTrailingZeros();
        return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
    }

    private Fault fault(ChannelDescription channel) {
        return switch (random.nextInt(9)) {
            case 0 -> new Fault.StuckAt(raw(channel));
            case 1 -> new Fault.Freeze();
            case 2 -> new Fault.Offset(raw(channel), oneIn(2) ? 0 : 1_000_000L + micros());
            case 3 -> new Fault.Scale(plain(BigDecimal.valueOf(random.nextInt(4001) - 2000, random.nextInt(4))));
            case 4 -> new Fault.Drift(plain(BigDecimal.valueOf(random.nextInt(400_001) - 200_000, random.nextInt(5))));
            case 5 -> new Fault.Noise(plain(BigDecimal.valueOf(1 + random.nextInt(9999), random.nextInt(3))));
            case 6 -> new Fault.Dropout();
            case 7 -> {
                int ticks = 1 + random.nextInt(Math.max(1, history / 4));
                history -= ticks;
                yield new Fault.Delay(ticks);
            }
            default -> {
                List<Fault.Point> points = new ArrayList<>();
                int ticks = random.nextInt(3);
                for (int i = random.nextInt(6); i >= 0; i--) {
                    points.add(new Fault.Point(ticks, raw(channel)));
                    ticks += 1 + random.nextInt(100);
                }
                yield new Fault.Replay(points);
            }
        };
    }

    /** Where a condition is looked at, and so what it may hold. */
    private enum Where {
        RIG,
        LASTING_ON_THE_RIG,
        TRACE,
        LASTING_IN_THE_TRACE
    }

    private Condition condition(Where where) {
        List<Condition.Term> terms = new ArrayList<>();
        List<ChannelDescription> channels = new ArrayList<>(figures);
        Collections.shuffle(channels, random);
        for (int i = random.nextInt(2); i >= 0; i--) {
            terms.addAll(terms(channels.get(i), where));
        }
        if (oneIn(2)) {
            ChannelDescription step = rig.step().orElseThrow();
            Relation relation = oneIn(2) ? Relation.IS : Relation.IS_NOT;
            terms.add(new Condition.Compares(PLACE, step, source(), relation, raw(step)));
        }
        boolean inTheTrace = where == Where.TRACE || where == Where.LASTING_IN_THE_TRACE;
        if (inTheTrace && !derived.isEmpty() && oneIn(3)) {
            ChannelDescription channel = any(derived).channel();
            Relation relation = channel.valueNames().isEmpty() ? Relation.AT_LEAST : Relation.IS;
            terms.add(new Condition.Compares(PLACE, channel, Source.REAL, relation, oneIn(2) ? 0 : 1));
        }
        if (inTheTrace && oneIn(8)) {
            terms.add(new Condition.AnyOf(PLACE, List.of(condition(where), condition(where))));
        }
        if (where == Where.RIG && oneIn(5)) {
            terms.add(new Condition.Answers(PLACE, any(rig.failSafes())));
        }
        return new Condition(PLACE, terms);
    }

    private Source source() {
        return oneIn(3) ? Source.TOLD : Source.REAL;
    }

    private List<Condition.Term> terms(ChannelDescription channel, Where where) {
        Source source = source();
        boolean lasting = where == Where.LASTING_ON_THE_RIG || where == Where.LASTING_IN_THE_TRACE;
        int which = random.nextInt(8);
        if (which == 0 && !lasting) {
            return List.of(new Condition.Crosses(PLACE, channel, source, oneIn(2), raw(channel)));
        }
        if (which == 1) {
            return List.of(
                    new Condition.Moves(PLACE, channel, source, oneIn(2), random.nextInt(50), 1 + random.nextInt(64)));
        }
        if (which == 2) {
            return List.of(
                    new Condition.Compares(PLACE, channel, source, Relation.AT_LEAST, raw(channel)),
                    new Condition.Compares(PLACE, channel, source, Relation.AT_MOST, channel.highest()));
        }
        if (which == 3) {
            return List.of(
                    new Condition.Compares(PLACE, channel, source, Relation.IS_NOT, raw(channel)),
                    new Condition.Compares(PLACE, channel, source, Relation.IS_NOT, raw(channel)));
        }
        Relation relation = any(List.of(Relation.values()));
        return List.of(new Condition.Compares(PLACE, channel, source, relation, raw(channel)));
    }

    private void derive() {
        for (int i = random.nextInt(3); i > 0; i--) {
            ChannelDescription of = any(figures);
            int index = rig.channels().size() + derived.size();
            String name = "derived." + derived.size();
            Source source = source();
            long over = micros();
            long most = (((long) of.highest() - of.lowest()) * 1_000_000) / over + 1;
            int rate = (int) Math.min(most, Integer.MAX_VALUE);
            int size = Math.max(Math.abs(of.lowest()), Math.abs(of.highest()));
            derived.add(
                    switch (random.nextInt(7)) {
                        case 0 ->
                            new DerivedChannel(
                                    PLACE,
                                    like(of, index, name, of.unit() + "/s", -rate, rate),
                                    new DerivedChannel.Rate(of, source, over));
                        case 1 ->
                            new DerivedChannel(
                                    PLACE,
                                    like(of, index, name, of.unit(), of.lowest(), of.highest()),
                                    new DerivedChannel.Mean(of, source, over));
                        case 2 ->
                            new DerivedChannel(
                                    PLACE,
                                    like(of, index, name, of.unit(), 0, size),
                                    new DerivedChannel.RootMeanSquare(of, source, over));
                        case 3 ->
                            new DerivedChannel(
                                    PLACE,
                                    like(
                                            of,
                                            index,
                                            name,
                                            of.unit(),
                                            of.lowest() - of.highest() - 1,
                                            of.highest() - of.lowest() + 1),
                                    new DerivedChannel.Difference(of, source, of, source()));
                        case 6 ->
                            new DerivedChannel(
                                    PLACE,
                                    like(of, index, name, of.unit(), 2 * of.lowest() - 1, 2 * of.highest() + 1),
                                    new DerivedChannel.Sum(of, source, of, source()));
                        case 4 ->
                            new DerivedChannel(
                                    PLACE,
                                    yesOrNo(index, name),
                                    new DerivedChannel.Stalled(
                                            of,
                                            source,
                                            1 + random.nextInt(50),
                                            over,
                                            condition(Where.LASTING_ON_THE_RIG)));
                        default ->
                            new DerivedChannel(
                                    PLACE,
                                    yesOrNo(index, name),
                                    new DerivedChannel.Debounced(condition(Where.LASTING_ON_THE_RIG), over));
                    });
        }
    }

    private static ChannelDescription like(
            ChannelDescription of, int index, String name, String unit, int lowest, int highest) {
        int absent = Math.max(lowest, Math.min(highest, 0));
        return new ChannelDescription(
                index,
                name,
                ChannelKind.SENSOR,
                unit,
                of.stepMultiplier(),
                of.stepExponent(),
                lowest,
                highest,
                absent,
                0,
                List.of());
    }

    private static ChannelDescription yesOrNo(int index, String name) {
        return new ChannelDescription(index, name, ChannelKind.STATE, "", 1, 0, 0, 1, 0, 0, List.of("no", "yes"));
    }

    private Expectation.Window window() {
        long most = micros();
        return new Expectation.Window(oneIn(2) ? 0 : most / 2, most);
    }

    /** The beginning, an injection or an expectation that has a moment. */
    private Anchor anchor(List<String> injectionNames) {
        List<Integer> moments = new ArrayList<>();
        for (int i = 0; i < expectations.size(); i++) {
            if (expectations.get(i) instanceof Expectation.Timed) {
                moments.add(i);
            }
        }
        if (!moments.isEmpty() && oneIn(2)) {
            int index = any(moments);
            Expectation expectation = expectations.get(index);
            boolean again = expectation instanceof Expectation.AnsweredBy || expectation instanceof Expectation.Becomes;
            return new Anchor.OfExpectation(index, expectation.name(), again && oneIn(4) ? 2 : 1);
        }
        return oneIn(3) ? new Anchor.OfBegin() : new Anchor.OfInjection(0, injectionNames.get(0), oneIn(5) ? 3 : 1);
    }

    private static Anchor first(Anchor anchor) {
        if (anchor instanceof Anchor.OfInjection one) {
            return new Anchor.OfInjection(one.index(), one.name());
        }
        return anchor instanceof Anchor.OfExpectation one ? new Anchor.OfExpectation(one.index(), one.name()) : anchor;
    }

    private Stretch stretch(List<String> injectionNames) {
        return switch (random.nextInt(4)) {
            case 0 -> Stretch.WHOLE;
            case 1 -> new Stretch(anchor(injectionNames), Optional.of(window()), Optional.empty());
            case 2 ->
                new Stretch(
                        anchor(injectionNames),
                        Optional.empty(),
                        Optional.of(new Anchor.OfInjection(0, injectionNames.get(0))));
            default -> new Stretch(anchor(injectionNames), Optional.empty(), Optional.empty());
        };
    }

    private void expect(List<String> injectionNames) {
        String name = name();
        Anchor after = anchor(injectionNames);
        boolean rigAnchor = !(after instanceof Anchor.OfExpectation other) || onTheRig.get(other.index());
        boolean firstStrike = !(after instanceof Anchor.OfInjection other) || other.time() == 1;
        boolean watched = false;
        Expectation made;
        switch (random.nextInt(11)) {
            case 0 -> {
                made = new Expectation.AnsweredBy(
                        PLACE, name, any(rig.failSafes()), window(), after, oneIn(2), 1 + random.nextInt(3));
                watched = true;
            }
            case 1 -> {
                boolean rigs = oneIn(2);
                Condition condition = rigs ? condition(Where.LASTING_ON_THE_RIG) : condition(Where.TRACE);
                made = new Expectation.Becomes(PLACE, name, condition, window(), after, 1 + random.nextInt(3));
                watched = rigs;
            }
            case 2 -> {
                Expectation.Window window = oneIn(2) ? new Expectation.Window(0, 0) : window();
                made = new Expectation.Stays(
                        PLACE, name, condition(Where.LASTING_IN_THE_TRACE), micros(), window, after);
            }
            case 3 -> {
                ChannelDescription channel = any(figures);
                Source source = source();
                int middle = raw(channel);
                int half = random.nextInt(100);
                Condition band = new Condition(
                        PLACE,
                        List.of(
                                new Condition.Compares(PLACE, channel, source, Relation.AT_LEAST, middle - half),
                                new Condition.Compares(PLACE, channel, source, Relation.AT_MOST, middle + half)));
                OptionalLong held = oneIn(2) ? OptionalLong.of(micros()) : OptionalLong.empty();
                made = new Expectation.Settles(PLACE, name, band, held, window(), after);
            }
            case 4 ->
                made = new Expectation.Always(PLACE, name, strikeCondition(injectionNames), stretch(injectionNames));
            case 5 -> made = new Expectation.Never(PLACE, name, condition(Where.TRACE), stretch(injectionNames));
            case 6 ->
                made = new Expectation.MustNotFire(
                        PLACE,
                        name,
                        any(rig.failSafes()),
                        oneIn(2) ? Optional.empty() : Optional.of(stretch(injectionNames)));
            case 7 -> {
                ChannelDescription channel = any(figures);
                Relation relation = any(List.of(Relation.AT_LEAST, Relation.AT_MOST, Relation.ABOVE, Relation.BELOW));
                made = new Expectation.Peak(
                        PLACE,
                        name,
                        new Condition.Compares(PLACE, channel, source(), relation, raw(channel)),
                        stretch(injectionNames));
            }
            case 8 -> {
                Condition what = oneIn(2)
                        ? condition(Where.TRACE)
                        : new Condition(PLACE, List.of(new Condition.Answers(PLACE, any(rig.failSafes()))));
                int least = random.nextInt(3);
                OptionalInt most = oneIn(2) ? OptionalInt.empty() : OptionalInt.of(least + random.nextInt(2));
                made = new Expectation.Times(PLACE, name, what, least, most, stretch(injectionNames));
            }
            case 9 -> made = new Expectation.Restart(PLACE, name, window(), after);
            default ->
                made = new Expectation.Order(
                        PLACE, name, List.of(new Anchor.OfInjection(0, injectionNames.get(0)), anchor(injectionNames)));
        }
        expectations.add(made);
        onTheRig.add(watched && rigAnchor && firstStrike);
    }

    private Condition strikeCondition(List<String> injectionNames) {
        Condition plain = condition(Where.LASTING_IN_THE_TRACE);
        if (oneIn(2) || injectionNames.get(0).contains("{")) {
            return plain;
        }
        ChannelDescription channel = any(figures);
        int offset = random.nextInt(201) - 100;
        Anchor.OfInjection first = new Anchor.OfInjection(0, injectionNames.get(0));
        return new Condition(
                PLACE,
                List.of(new Condition.ComparesToStrike(
                        PLACE, channel, source(), any(List.of(Relation.values())), first, offset)));
    }

    private Injection injection(int index, List<String> injectionNames, List<Injection.Forcing> forcings) {
        Optional<Condition> until = oneIn(3) ? Optional.of(until(forcings)) : Optional.empty();
        return new Injection(
                PLACE,
                injectionNames.get(index),
                trigger(index, injectionNames),
                forcings,
                oneIn(4) ? Optional.of(condition(Where.LASTING_ON_THE_RIG)) : Optional.empty(),
                until,
                oneIn(2) ? OptionalLong.of(micros()) : OptionalLong.empty());
    }

    private Condition until(List<Injection.Forcing> forcings) {
        ChannelDescription forced = forcings.get(0).channel();
        return oneIn(2)
                ? new Condition(PLACE, List.of(new Condition.Agrees(PLACE, forced, random.nextInt(50))))
                : condition(Where.RIG);
    }

    private Trigger trigger(int index, List<String> injectionNames) {
        Anchor after = new Anchor.OfBegin();
        if (index > 0 && oneIn(2)) {
            List<Integer> watched = new ArrayList<>();
            for (int i = 0; i < expectations.size(); i++) {
                if (onTheRig.get(i)) {
                    watched.add(i);
                }
            }
            if (watched.isEmpty() || oneIn(3)) {
                after = new Anchor.OfInjection(0, injectionNames.get(0));
            } else {
                int which = any(watched);
                after = new Anchor.OfExpectation(which, expectations.get(which).name(), oneIn(4) ? 2 : 1);
            }
        }
        long delay = oneIn(3) ? micros() : 0;
        if (oneIn(5)) {
            return new Trigger(after, new Condition(PLACE, List.of()), 0, delay, 1, 1);
        }
        return new Trigger(
                after,
                condition(Where.RIG),
                oneIn(3) ? micros() : 0,
                delay,
                1 + random.nextInt(3),
                oneIn(2) ? 1 : random.nextInt(4));
    }

    /** All that scripts are made of, by its class, so that a test can tell whether it came about. */
    static Set<Class<?>> parts(FaultScript script) {
        Set<Class<?>> found = new LinkedHashSet<>();
        script.expectations().forEach(one -> found.add(one.getClass()));
        script.derived().forEach(one -> found.add(one.formula().getClass()));
        for (Injection injection : script.injections()) {
            injection.forcings().forEach(one -> found.add(one.fault().getClass()));
            found.add(injection.trigger().after().getClass());
            injection.trigger().when().terms().forEach(term -> found.add(term.getClass()));
            injection.until().ifPresent(until -> until.terms().forEach(term -> found.add(term.getClass())));
        }
        for (Expectation expectation : script.expectations()) {
            if (expectation instanceof Expectation.Always one) {
                one.condition().terms().forEach(term -> found.add(term.getClass()));
            }
        }
        return found.stream().collect(Collectors.toSet());
    }
}
