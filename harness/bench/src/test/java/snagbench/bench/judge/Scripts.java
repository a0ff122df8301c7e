package snagbench.bench.judge;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Function;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Condition.Term;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Expectation.Window;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Place;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stage;
import snagbench.bench.script.Trigger;
import snagbench.bench.trace.SyntheticTrace;
import snagbench.wire.ChannelKind;
import snagbench.wire.GuardKind;

/** Fault scripts for the rig of {@link SyntheticTrace}. */
final class Scripts {
    static final Anchor INJECTION = new Anchor.OfInjection(0, "injection 1");
    static final Anchor BEGIN = new Anchor.OfBegin();

    private final List<Expectation> expectations = new ArrayList<>();
    private final List<FailSafeDescription> failSafes = new ArrayList<>();
    private final List<Stage> begin = new ArrayList<>();
    private final List<Injection> injections = new ArrayList<>();
    private final List<DerivedChannel> derived = new ArrayList<>();
    private Optional<FaultScript.End> end = Optional.empty();
    private int line = 20;

    /** A rig with a guard, that settles in some time. */
    static RigFile rig(long settlingMillis) {
        RigFile.GuardSpec guard = new RigFile.GuardSpec(
                place(3), "reach travel", GuardKind.TRAVEL, SyntheticTrace.POSITION, -40, 4050, 0, 0, Optional.empty());
        return new RigFile(
                place(1),
                "shuttle",
                Optional.empty(),
                500,
                settlingMillis * 1000,
                Optional.empty(),
                List.of(guard),
                Map.of(),
                Path.of("rig.snapshot.json"));
    }

    static Place place(int line) {
        return new Place(Path.of("test-plans", "shuttle", "reach-blocked.fault.yaml"), line, 5);
    }

    static Term step(String name) {
        return new Condition.Compares(
                place(9),
                SyntheticTrace.STEP,
                Source.REAL,
                Relation.IS,
                SyntheticTrace.STEP.valueNames().indexOf(name));
    }

    static Term term(ChannelDescription channel, Relation relation, int raw) {
        return new Condition.Compares(place(9), channel, Source.REAL, relation, raw);
    }

    static Condition when(Term... terms) {
        return new Condition(place(9), List.of(terms));
    }

    static Window within(long mostMillis) {
        return new Window(0, mostMillis * 1000);
    }

    static Window within(long leastMillis, long mostMillis) {
        return new Window(leastMillis * 1000, mostMillis * 1000);
    }

    static Anchor after(int expectation, String name) {
        return new Anchor.OfExpectation(expectation, name);
    }

    Scripts failSafe(FailSafeDescription one) {
        failSafes.add(one);
        return this;
    }

    Scripts waitFor(Condition condition, long millis) {
        begin.add(new Stage.WaitFor(place(7), condition, millis * 1000));
        return this;
    }

    Scripts send(ChannelDescription command, int raw) {
        begin.add(new Stage.Send(place(6), command, raw));
        return this;
    }

    Scripts inject(Condition condition, Fault fault) {
        return inject(condition, fault, OptionalLong.empty());
    }

    Scripts inject(Condition condition, Fault fault, OptionalLong lastsMicros) {
        injections.add(new Injection(
                place(12),
                "injection " + (injections.size() + 1),
                condition,
                List.of(new Injection.Forcing(place(13), SyntheticTrace.POSITION, fault)),
                Optional.empty(),
                Optional.empty(),
                lastsMicros));
        return this;
    }

    /** An injection that strikes so often at most. */
    Scripts injectTimes(int times) {
        injections.add(new Injection(
                place(12),
                "injection " + (injections.size() + 1),
                new Trigger(BEGIN, when(step("REACHING")), 0, 0, 1, times),
                List.of(new Injection.Forcing(place(13), SyntheticTrace.POSITION, new Fault.Freeze())),
                Optional.empty(),
                Optional.empty(),
                OptionalLong.empty()));
        return this;
    }

    /** An injection with a trigger and overrides of its own. */
    Scripts inject(Trigger trigger, Injection.Forcing... forcings) {
        injections.add(new Injection(
                place(12),
                "injection " + (injections.size() + 1),
                trigger,
                List.of(forcings),
                Optional.empty(),
                Optional.empty(),
                OptionalLong.empty()));
        return this;
    }

    /** What an injection does to one channel. */
    static Injection.Forcing freezes(ChannelDescription channel) {
        return new Injection.Forcing(place(13), channel, new Fault.Freeze());
    }

    Scripts answeredBy(String name, FailSafeDescription failSafe, Window within, Anchor after) {
        expectations.add(new Expectation.AnsweredBy(place(line++), name, failSafe, within, after, false));
        return this;
    }

    Scripts answeredByNoOther(String name, FailSafeDescription failSafe, Window within) {
        expectations.add(new Expectation.AnsweredBy(place(line++), name, failSafe, within, INJECTION, true));
        return this;
    }

    Scripts becomes(String name, Condition condition, Window within, Anchor after) {
        expectations.add(new Expectation.Becomes(place(line++), name, condition, within, after));
        return this;
    }

    Scripts always(Condition condition) {
        expectations.add(new Expectation.Always(place(line++), "always " + condition.show(), condition));
        return this;
    }

    Scripts never(Condition condition) {
        expectations.add(new Expectation.Never(place(line++), "never " + condition.show(), condition));
        return this;
    }

    Scripts mustNotFire(FailSafeDescription failSafe) {
        expectations.add(new Expectation.MustNotFire(place(line++), failSafe.name() + " stays silent", failSafe));
        return this;
    }

    /** Any other expectation, at a place of its own. */
    Scripts expect(Function<Place, Expectation> expectation) {
        expectations.add(expectation.apply(place(line++)));
        return this;
    }

    /** How many expectations there are. */
    int size() {
        return expectations.size();
    }

    /** A derived channel; its index is the next behind those of the rig. */
    Scripts derive(ChannelDescription channel, DerivedChannel.Formula formula) {
        derived.add(new DerivedChannel(place(6), channel, formula));
        return this;
    }

    /** A derived channel's description: a plain quantity. */
    static ChannelDescription quantity(int nth, String name, String unit, int stepMultiplier, int stepExponent) {
        return new ChannelDescription(
                SyntheticTrace.rig().channels().size() + nth,
                name,
                ChannelKind.SENSOR,
                unit,
                stepMultiplier,
                stepExponent,
                Integer.MIN_VALUE,
                Integer.MAX_VALUE,
                0,
                0,
                List.of());
    }

    /** A derived channel's description: no or yes. */
    static ChannelDescription yesOrNo(int nth, String name) {
        return new ChannelDescription(
                SyntheticTrace.rig().channels().size() + nth,
                name,
                ChannelKind.STATE,
                "",
                1,
                0,
                0,
                1,
                0,
                0,
                List.of("no", "yes"));
    }

    Scripts end(long millis, Anchor after) {
        end = Optional.of(new FaultScript.End(place(30), millis * 1000, after));
        return this;
    }

    FaultScript script() {
        if (injections.isEmpty()) {
            inject(when(step("REACHING")), new Fault.Freeze());
        }
        return new FaultScript(
                place(1),
                "reach blocked",
                failSafes,
                "",
                Set.of(),
                begin,
                injections,
                expectations,
                end,
                List.of(),
                derived,
                Optional.empty());
    }
}
