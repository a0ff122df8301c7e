package snagbench.bench.report.register;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.Place;
import snagbench.bench.script.Source;
import snagbench.wire.ChannelKind;
import snagbench.wire.Item;

/** Small registers, written by hand: three steps, two figures from 0 to 9, and a beam. */
final class Registers {
    static final Place PLACE = new Place(Path.of("failsafes.yaml"), 1, 1);
    static final ChannelDescription STEP =
            channel(0, "step", ChannelKind.STATE, "", 2, Item.STEP, List.of("OUT", "HOME", "REST"));
    static final ChannelDescription X = channel(1, "x", ChannelKind.SENSOR, "mm", 9, 0, List.of());
    static final ChannelDescription Y = channel(2, "y", ChannelKind.SENSOR, "A", 9, 0, List.of());
    static final ChannelDescription BEAM = channel(3, "beam", ChannelKind.SENSOR, "", 1, 0, List.of("clear", "broken"));

    private final List<FailSafeRegister.Entry> entries = new ArrayList<>();
    private final List<FailSafeDescription> order = new ArrayList<>();

    static ChannelDescription channel(
            int index, String name, ChannelKind kind, String unit, int highest, int flags, List<String> values) {
        return new ChannelDescription(index, name, kind, unit, 1, 0, 0, highest, 0, flags, values);
    }

    static Condition.Term term(ChannelDescription channel, Relation relation, int raw) {
        return new Condition.Compares(PLACE, channel, Source.TOLD, relation, raw);
    }

    static Condition.Term in(String step) {
        return term(STEP, Relation.IS, STEP.valueNames().indexOf(step));
    }

    static Condition when(Condition.Term... terms) {
        return new Condition(PLACE, List.of(terms));
    }

    static Condition.Term anyOf(Condition... conditions) {
        return new Condition.AnyOf(PLACE, List.of(conditions));
    }

    static FailSafeDescription failSafe(String name) {
        return new FailSafeDescription(Integer.parseInt(name.substring(3)), name, OptionalInt.empty());
    }

    Registers failSafe(String name, String response, Condition... when) {
        List<FailSafeRegister.Symptom> symptoms = new ArrayList<>();
        for (Condition condition : when) {
            symptoms.add(new FailSafeRegister.Symptom(condition, 100_000, 0));
        }
        entries.add(new FailSafeRegister.Entry(
                PLACE,
                failSafe(name),
                "a fail-safe",
                "a cause",
                "an effect",
                FailSafeRegister.Severity.III,
                new FailSafeRegister.Symptoms("in words", symptoms, "", List.of()),
                response,
                new FailSafeRegister.Recovery(STEP, List.of(2), 1_000_000),
                new FailSafeRegister.Costs(Optional.empty(), ""),
                List.of("a part"),
                List.of()));
        return this;
    }

    Registers order(String... names) {
        for (String name : names) {
            order.add(failSafe(name));
        }
        return this;
    }

    FailSafeRegister register() {
        return new FailSafeRegister(PLACE, "a rig", "", order, entries);
    }

    DecisionTable table() {
        return DecisionTableMaker.of(register(), STEP);
    }
}
