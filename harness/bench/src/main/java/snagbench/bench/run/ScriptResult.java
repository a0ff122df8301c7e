package snagbench.bench.run;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import snagbench.bench.judge.Judgement;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Place;
import snagbench.bench.trace.Trace;
import snagbench.wire.ChannelKind;

/**
 * What came of one run of one script.
 *
 * @param index its place in the plan, from 0; control runs are numbered behind the plan, in the order in which they were made
 * @param script the script's name
 * @param place where the script is written
 * @param repeat the how-manieth run of it, from 1
 * @param repeats how many runs of it were planned
 * @param seed with which it ran
 * @param failSafes names of the fail-safes that it is evidence for
 * @param evidence told by override, physical by disturbance, or both
 * @param judgement verdict, findings, times and reasons
 * @param rigMicros how long it ran on the rig's clock, from arming on, in microseconds
 * @param loops loop times seen
 * @param gapTicks ticks of which nothing was recorded
 * @param trace file of the trace, from the journal's folder on, with slashes; empty where there is none
 * @param variant which of the scripts of its file it is, where the file varies something
 * @param control what it is a control of; empty for a fault run
 */
public record ScriptResult(
        int index,
        String script,
        Place place,
        int repeat,
        int repeats,
        int seed,
        List<String> failSafes,
        Evidence evidence,
        Judgement judgement,
        long rigMicros,
        LoopTimes loops,
        long gapTicks,
        Optional<String> trace,
        Optional<Variation> variant,
        Optional<Control> control) {
    /** Copies the list. */
    public ScriptResult {
        failSafes = List.copyOf(failSafes);
    }

    /**
     * A fault run.
     *
     * @param index its place in the plan, from 0
     * @param script the script's name
     * @param place where the script is written
     * @param repeat the how-manieth run of it, from 1
     * @param repeats how many runs of it were planned
     * @param seed with which it ran
     * @param failSafes names of the fail-safes that it is evidence for
     * @param evidence told by override, physical by disturbance, or both
     * @param judgement verdict, findings, times and reasons
     * @param rigMicros how long it ran on the rig's clock, from arming on, in microseconds
     * @param loops loop times seen
     * @param gapTicks ticks of which nothing was recorded
     * @param trace file of the trace; empty where there is none
     * @param variant which of the scripts of its file it is, where the file varies something
     */
    public ScriptResult(
            int index,
            String script,
            Place place,
            int repeat,
            int repeats,
            int seed,
            List<String> failSafes,
            Evidence evidence,
            Judgement judgement,
            long rigMicros,
            LoopTimes loops,
            long gapTicks,
            Optional<String> trace,
            Optional<Variation> variant) {
        this(
                index,
                script,
                place,
                repeat,
                repeats,
                seed,
                failSafes,
                evidence,
                judgement,
                rigMicros,
                loops,
                gapTicks,
                trace,
                variant,
                Optional.empty());
    }

    /**
     * What the run was for.
     *
     * @return {@link Role#FAULT} for the script as it is written
     */
    public Role role() {
        return control.map(Control::role).orElse(Role.FAULT);
    }

    /**
     * The fault run that a control run belongs to.
     *
     * @return that run's index; empty for a fault run
     */
    public OptionalInt controlOf() {
        return control.map(one -> OptionalInt.of(one.of())).orElse(OptionalInt.empty());
    }

    /**
     * The run as people read it.
     *
     * @return the script's name, with what it varies, and with the repeat where there are several
     */
    public String title() {
        String name = script + variant.map(one -> ", " + one.setting()).orElse("");
        return repeats == 1 ? name : name + " (" + repeat + " of " + repeats + ")";
    }

    /** What came of a planned run; without an outcome where it was left out. */
    static ScriptResult of(
            int index,
            PlannedRun run,
            Judgement judgement,
            Optional<ScriptRunner.Outcome> outcome,
            Optional<Variation> variation) {
        Optional<Trace> trace = outcome.flatMap(ScriptRunner.Outcome::trace);
        return new ScriptResult(
                index,
                run.script().name(),
                run.script().place(),
                run.repeat(),
                run.repeats(),
                run.seed(),
                run.script().failSafes().stream().map(FailSafeDescription::name).toList(),
                Evidence.of(run.script()),
                judgement,
                outcome.map(ScriptRunner.Outcome::lastedMicros).orElse(0L),
                trace.map(LoopTimes::of).orElse(new LoopTimes(0, 0)),
                trace.map(ScriptRun::gapTicks).orElse(0L),
                outcome.flatMap(ScriptRunner.Outcome::traceFile),
                variation,
                run.control());
    }

    /** The same with another judgement. */
    ScriptResult with(Judgement other) {
        return new ScriptResult(
                index, script, place, repeat, repeats, seed, failSafes, evidence, other, rigMicros, loops, gapTicks,
                trace, variant, control);
    }

    /**
     * One of the scripts that one file stands for.
     *
     * @param setting what the parameters were, such as "at 20 mm"
     * @param number its place among the runs of that file's scripts, from 1
     * @param of how many runs of that file's scripts were planned, one behind the other
     */
    public record Variation(String setting, int number, int of) {}

    /** What made the machine believe in the fault. */
    public enum Evidence {
        /** Readings were overridden: they cause no sag, heat or force. */
        TOLD,
        /** The rig made the fault itself. */
        PHYSICAL,
        /** Some of both. */
        TOLD_AND_PHYSICAL;

        static Evidence of(FaultScript script) {
            List<Injection.Forcing> forcings = script.injections().stream()
                    .flatMap(injection -> injection.forcings().stream())
                    .toList();
            long physical = forcings.stream()
                    .filter(forcing -> forcing.channel().kind() == ChannelKind.DISTURBANCE)
                    .count();
            if (physical == 0) {
                return TOLD;
            }
            return physical == forcings.size() ? PHYSICAL : TOLD_AND_PHYSICAL;
        }
    }

    /**
     * Loop times seen, in microseconds; 0 where none was.
     *
     * @param medianMicros half of the loops were no longer
     * @param longestMicros the longest
     */
    public record LoopTimes(long medianMicros, long longestMicros) {
        static LoopTimes of(Trace trace) {
            return trace.rows() == 0
                    ? new LoopTimes(0, 0)
                    : new LoopTimes(trace.medianLoopMicros(), trace.longestLoopMicros());
        }
    }
}
