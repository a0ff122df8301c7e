package snagbench.bench.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.ProgramLayout;
import snagbench.bench.script.Stage;
import snagbench.bench.script.Trigger;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.RequestBody;
import snagbench.wire.TermRole;
import snagbench.wire.Timing;

/**
 * Makes a rig's program of a fault script, in the order of its {@link ProgramLayout}. Stages of the beginning hang each on the
 * one before. The first entry of an injection carries the conditions, the others follow it, so that all strike in the same
 * tick. What an injection waits for is watched by waiting entries on the rig.
 */
final class ProgramCompiler {
    private static final int NONE = -1;

    private final FaultScript script;
    private final ProgramLayout layout;
    private final List<RequestBody> messages = new ArrayList<>();
    private int entries;

    private ProgramCompiler(FaultScript script) {
        this.script = script;
        this.layout = ProgramLayout.of(script);
    }

    static RigProgram compile(FaultScript script) {
        ProgramCompiler compiler = new ProgramCompiler(script);
        compiler.layout.parts().forEach(compiler::part);
        return new RigProgram(compiler.entries, compiler.messages, RigProgram.digestOf(compiler.messages));
    }

    private void part(ProgramLayout.Part part) {
        if (part instanceof ProgramLayout.OfStage stage) {
            stage(script.begin().get(stage.index()));
        } else if (part instanceof ProgramLayout.OfInjection injection) {
            injection(script.injections().get(injection.index()), layout.isAnchor(injection.index()));
        } else if (part instanceof ProgramLayout.Watch watch) {
            watch(watch);
        } else if (part instanceof ProgramLayout.OfInhibition inhibition) {
            inhibition(inhibition.failSafe());
        } else if (part instanceof ProgramLayout.OfAdjustment one) {
            fromArming(one.adjustment().channel().index(), one.adjustment().raw());
        }
    }

    private void stage(Stage stage) {
        int index = entries++;
        int after = index - 1;
        if (stage instanceof Stage.Send send) {
            int flags = Entry.ONE_TICK | Entry.STAGE;
            int channel = send.command().index();
            messages.add(new Entry(index, EntryKind.STUCK_AT.code(), channel, send.raw(), 0, NONE, after, 0, flags));
        } else if (stage instanceof Stage.WaitFor wait) {
            int limit = (int) wait.withinMicros();
            messages.add(new Entry(index, EntryKind.WAIT.code(), NONE, 0, 0, NONE, after, limit, Entry.STAGE));
            terms(index, TermRole.WHEN, wait.condition());
        }
    }

    private void inhibition(FailSafeDescription failSafe) {
        fromArming(failSafe.inhibition().orElseThrow(), 1);
    }

    private void fromArming(int channel, int raw) {
        messages.add(new Entry(entries++, EntryKind.STUCK_AT.code(), channel, raw, 0, NONE, NONE, 0, 0));
    }

    /** What is met is met at the moment that the judge takes: a report also in its anchor's own tick, a state when it is entered. */
    private void watch(ProgramLayout.Watch watch) {
        int index = entries++;
        Expectation.Timed expectation = watch.expectation();
        int after = layout.entryOf(expectation.after());
        messages.add(new Entry(index, EntryKind.WAIT.code(), NONE, 0, 0, NONE, after, 0, flags(expectation)));
        timing(index, 0, 0, Optional.empty(), watch.occasion(), 1);
        if (expectation instanceof Expectation.AnsweredBy answered) {
            messages.add(RigTerms.answered(index, TermRole.WHEN, answered.failSafe()));
        } else if (expectation instanceof Expectation.Becomes becomes) {
            terms(index, TermRole.WHEN, becomes.condition());
        }
    }

    /**
     * A report counts in the tick of what it is counted from, but not the very report that that is; a state that comes about
     * counts in it too, unless that is a state, or the beginning, itself.
     */
    private int flags(Expectation.Timed expectation) {
        boolean state = expectation instanceof Expectation.Becomes;
        boolean sameTick = expectation.after() instanceof Anchor.OfInjection
                || (expectation.after() instanceof Anchor.OfExpectation other
                        && script.expectations().get(other.index()) instanceof Expectation.Becomes != state);
        return Entry.STAGE | (state ? Entry.ANEW : 0) | (sameTick ? Entry.SAME_TICK : 0);
    }

    private void injection(Injection injection, boolean isAnchor) {
        int leader = entries;
        for (Injection.Forcing forcing : injection.forcings()) {
            int index = entries++;
            boolean leads = index == leader;
            long lasts = forcing.ownMicros();
            if (leads && injection.lastsMicros().isPresent()) {
                lasts = Math.min(lasts, injection.lastsMicros().getAsLong());
            }
            boolean oneTick = forcing.ownMicros() == 0;
            int lastsMicros = oneTick || lasts == Long.MAX_VALUE ? 0 : (int) lasts;
            int flags = (oneTick ? Entry.ONE_TICK : 0) | (leads && isAnchor ? Entry.STAGE : 0);
            Trigger trigger = injection.trigger();
            messages.add(RigFaults.entry(
                    index,
                    forcing,
                    leads ? NONE : leader,
                    leads ? layout.entryOf(trigger.after()) : NONE,
                    lastsMicros,
                    flags));
            if (leads) {
                timing(
                        index,
                        trigger.forMicros(),
                        trigger.delayMicros(),
                        forcing.gate(),
                        trigger.occasion(),
                        trigger.times());
            } else {
                timing(index, 0, 0, forcing.gate(), 1, 1);
            }
            messages.addAll(RigFaults.points(index, forcing.fault()));
            if (leads) {
                terms(index, TermRole.WHEN, trigger.when());
                injection.whileHolds().ifPresent(condition -> terms(index, TermRole.WHILE, condition));
                injection.until().ifPresent(condition -> terms(index, TermRole.UNTIL, condition));
            }
        }
    }

    /** A timing, where it says anything that an entry without one does not. */
    private void timing(
            int entry, long forMicros, long delayMicros, Optional<Injection.Gate> gate, int occasion, int times) {
        boolean usual = forMicros == 0 && delayMicros == 0 && gate.isEmpty() && occasion == 1 && times == 1;
        if (!usual) {
            messages.add(new Timing(
                    entry,
                    (int) forMicros,
                    (int) delayMicros,
                    gate.map(Injection.Gate::onMicros).orElse(0L).intValue(),
                    gate.map(Injection.Gate::offMicros).orElse(0L).intValue(),
                    occasion,
                    times));
        }
    }

    private void terms(int entry, TermRole role, Condition condition) {
        condition.terms().forEach(term -> messages.add(RigTerms.of(entry, role, term)));
    }
}
