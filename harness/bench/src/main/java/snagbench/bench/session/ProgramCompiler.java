package snagbench.bench.session;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.RampRate;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stage;
import snagbench.wire.Comparison;
import snagbench.wire.Entry;
import snagbench.wire.EntryKind;
import snagbench.wire.RequestBody;
import snagbench.wire.Term;
import snagbench.wire.TermRole;

/**
 * Makes a rig's program of a fault script. Stages of the beginning come first, each hanging on the one before; then each
 * injection: its first entry carries the conditions, the others follow it, so that all strike in the same tick.
 */
final class ProgramCompiler {
    private static final int NONE = -1;

    private final List<RequestBody> messages = new ArrayList<>();
    private int entries;

    private ProgramCompiler() {}

    static RigProgram compile(FaultScript script) {
        ProgramCompiler compiler = new ProgramCompiler();
        script.begin().forEach(compiler::stage);
        int lastStage = compiler.entries - 1;
        for (Injection injection : script.injections()) {
            compiler.injection(injection, lastStage);
        }
        return new RigProgram(compiler.entries, compiler.messages, RigProgram.digestOf(compiler.messages));
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
            terms(index, TermRole.WHEN, Optional.of(wait.condition()));
        }
    }

    private void injection(Injection injection, int lastStage) {
        List<Injection.Forcing> forcings = new ArrayList<>(injection.forcings());
        // The leader must be on as long as any other: a spike ends by itself, so the longest-lived goes first.
        forcings.sort(Comparator.comparingLong(ProgramCompiler::ownMicros).reversed());
        int leader = entries;
        for (Injection.Forcing forcing : forcings) {
            int index = entries++;
            boolean leads = index == leader;
            long lasts = ownMicros(forcing);
            if (leads && injection.lastsMicros().isPresent()) {
                lasts = Math.min(lasts, injection.lastsMicros().getAsLong());
            }
            boolean oneTick = isOneTick(forcing.fault());
            messages.add(entry(
                    index,
                    forcing,
                    leads ? NONE : leader,
                    leads ? lastStage : NONE,
                    oneTick || lasts == Long.MAX_VALUE ? 0 : (int) lasts,
                    oneTick ? Entry.ONE_TICK : 0));
            if (leads) {
                terms(index, TermRole.WHEN, Optional.of(injection.trigger().when()));
                terms(index, TermRole.WHILE, injection.whileHolds());
                terms(index, TermRole.UNTIL, injection.until());
            }
        }
    }

    private static long ownMicros(Injection.Forcing forcing) {
        return forcing.fault() instanceof Fault.Spike spike ? spike.forMicros().orElse(0) : Long.MAX_VALUE;
    }

    private static boolean isOneTick(Fault fault) {
        return fault instanceof Fault.Spike spike && spike.forMicros().isEmpty();
    }

    private static Entry entry(
            int index, Injection.Forcing forcing, int leader, int after, int lastsMicros, int flags) {
        Fault fault = forcing.fault();
        EntryKind kind = EntryKind.FREEZE;
        int a = 0;
        int b = 0;
        if (fault instanceof Fault.StuckAt stuck) {
            kind = EntryKind.STUCK_AT;
            a = stuck.raw();
        } else if (fault instanceof Fault.Offset offset) {
            kind = EntryKind.OFFSET;
            a = offset.raw();
            b = RampRate.of(offset.raw(), offset.overMicros())
                    .orElseThrow(() -> new IllegalStateException("a ramp that check refuses"));
        } else if (fault instanceof Fault.Spike spike) {
            kind = EntryKind.SPIKE;
            a = spike.raw();
        }
        return new Entry(index, kind.code(), forcing.channel().index(), a, b, leader, after, lastsMicros, flags);
    }

    private void terms(int entry, TermRole role, Optional<Condition> condition) {
        condition.ifPresent(present -> present.terms().forEach(term -> messages.add(term(entry, role, term))));
    }

    private static Term term(int entry, TermRole role, Condition.Term term) {
        if (term instanceof Condition.Answers answers) {
            int number = answers.failSafe().number();
            return new Term(entry, role.code(), NONE, 0, Comparison.ANSWERED.code(), number, 0);
        }
        Condition.Compares compares = (Condition.Compares) term;
        return new Term(
                entry,
                role.code(),
                compares.channel().index(),
                compares.source() == Source.TOLD ? 1 : 0,
                comparison(compares.relation()).code(),
                compares.raw(),
                0);
    }

    private static Comparison comparison(Condition.Relation relation) {
        return switch (relation) {
            case AT_LEAST -> Comparison.AT_LEAST;
            case ABOVE -> Comparison.ABOVE;
            case AT_MOST -> Comparison.AT_MOST;
            case BELOW -> Comparison.BELOW;
            case IS -> Comparison.IS;
            case IS_NOT -> Comparison.IS_NOT;
        };
    }
}
