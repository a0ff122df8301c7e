package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import snagbench.bench.judge.ControlReadings;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.trace.Trace;

/**
 * Lays a register against traces, one after another. A condition counts as held for its time from the first tick on of which that is
 * certain; an answer within {@link #GRACE_MICROS} of that is an answer to it. A fail-safe that is inhibited, or of whose constants
 * one is adjusted, is not looked at then.
 */
public final class AnswerChecker {
    /** A control code may take some ticks to know a speed again after it began to count anew. */
    static final long GRACE_MICROS = 50_000;

    private final FailSafeRegister register;
    private final RigFile rig;
    private final DecisionTable table;
    private final ChannelDescription step;
    private final Map<String, Axis> axes = new LinkedHashMap<>();
    private final Map<Integer, ChannelDescription> inhibitions = new LinkedHashMap<>();
    private final Map<String, Tally> tallies = new LinkedHashMap<>();
    private final List<AnswerCheck.Finding> findings = new ArrayList<>();
    private final Map<List<String>, Integer> together = new LinkedHashMap<>();
    private final List<HoleVisits.Count> visits = new ArrayList<>();
    private int traces;

    /**
     * Nothing looked at yet.
     *
     * @param register of the rig
     * @param rig the rig's file
     * @param description what the rig tells of itself; with a step
     * @param table of this register
     */
    public AnswerChecker(FailSafeRegister register, RigFile rig, RigDescription description, DecisionTable table) {
        this.register = register;
        this.rig = rig;
        this.table = table;
        this.step = description.step().orElseThrow(() -> new IllegalArgumentException("the rig has no step"));
        register.entries().forEach(entry -> {
            tallies.put(entry.failSafe().name(), new Tally());
            entry.failSafe()
                    .inhibition()
                    .ifPresent(index -> inhibitions.put(
                            entry.failSafe().number(), description.channels().get(index)));
            entry.symptoms().when().forEach(symptom -> Alternatives.of(symptom.condition())
                    .ifPresent(boxes ->
                            boxes.forEach(box -> box.spans().keySet().forEach(axis -> axes.put(axis.name(), axis)))));
        });
        table.holes().forEach(hole -> visits.add(new HoleVisits.Count()));
    }

    /** Counts of one fail-safe. */
    static final class Tally {
        int answers;
        int withSymptom;
        int beside;
        int symptoms;
        int answered;
        int gaveWay;
        int open;
    }

    /**
     * Looks at a trace.
     *
     * @param name what it is called
     * @param trace of a rig with this register's channels and fail-safes
     * @param isNominal nothing was injected
     */
    public void look(String name, Trace trace, boolean isNominal) {
        traces++;
        ControlReadings readings = new ControlReadings(trace, rig);
        new TraceAnswers(this, name, readings, isNominal).look();
    }

    FailSafeRegister register() {
        return register;
    }

    ChannelDescription step() {
        return step;
    }

    Optional<ChannelDescription> inhibition(FailSafeRegister.Entry entry) {
        return Optional.ofNullable(inhibitions.get(entry.failSafe().number()));
    }

    Tally tally(FailSafeRegister.Entry entry) {
        return java.util.Objects.requireNonNull(tallies.get(entry.failSafe().name()));
    }

    void found(AnswerCheck.Finding finding) {
        findings.add(finding);
    }

    void together(String answered, List<String> others) {
        List<String> key = new ArrayList<>(others);
        key.add(0, answered);
        together.merge(key, 1, Integer::sum);
    }

    HoleVisits holes(TickReadings readings, String name, boolean isNominal) {
        return new HoleVisits(readings, table.holes(), step, axes, visits, name, isNominal);
    }

    /**
     * What was found.
     *
     * @return of all traces that were looked at
     */
    public AnswerCheck result() {
        return new AnswerCheck(
                traces,
                tallies.entrySet().stream()
                        .map(one -> counts(one.getKey(), one.getValue()))
                        .toList(),
                findings,
                together.entrySet().stream()
                        .map(one -> new AnswerCheck.Together(
                                one.getKey().get(0),
                                one.getKey().subList(1, one.getKey().size()),
                                one.getValue()))
                        .toList(),
                visits.stream()
                        .map(one -> new AnswerCheck.Met(one.ticks, one.nominalTicks, one.first))
                        .toList());
    }

    private static AnswerCheck.Counts counts(String name, Tally tally) {
        return new AnswerCheck.Counts(
                name,
                tally.answers,
                tally.withSymptom,
                tally.beside,
                tally.symptoms,
                tally.answered,
                tally.gaveWay,
                tally.open);
    }
}
