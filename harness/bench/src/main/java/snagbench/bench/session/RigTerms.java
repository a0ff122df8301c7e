package snagbench.bench.session;

import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.Source;
import snagbench.wire.Comparison;
import snagbench.wire.Term;
import snagbench.wire.TermRole;

/** Terms of conditions, as the rig takes them. */
final class RigTerms {
    private static final int NONE = -1;

    private RigTerms() {}

    static Term answered(int entry, TermRole role, FailSafeDescription failSafe) {
        return new Term(entry, role.code(), NONE, 0, Comparison.ANSWERED.code(), failSafe.number(), 0);
    }

    /** The term; check refuses those that only the trace can tell. */
    static Term of(int entry, TermRole role, Condition.Term term) {
        if (term instanceof Condition.Answers answers) {
            return answered(entry, role, answers.failSafe());
        }
        if (term instanceof Condition.Compares one) {
            return term(entry, role, one.channel(), one.source(), comparison(one.relation()), one.raw(), 0);
        }
        if (term instanceof Condition.Crosses one) {
            Comparison comparison = one.rises() ? Comparison.RISES_TO : Comparison.FALLS_TO;
            return term(entry, role, one.channel(), one.source(), comparison, one.raw(), 0);
        }
        if (term instanceof Condition.Moves one) {
            Comparison comparison = one.more() ? Comparison.FASTER_THAN : Comparison.SLOWER_THAN;
            return term(entry, role, one.channel(), one.source(), comparison, one.raw(), one.ticks());
        }
        if (term instanceof Condition.Agrees one) {
            return term(entry, role, one.channel(), Source.REAL, Comparison.AGREES, one.raw(), 0);
        }
        throw new IllegalStateException("a term that check refuses on a rig: " + term.show());
    }

    private static Term term(
            int entry,
            TermRole role,
            ChannelDescription channel,
            Source source,
            Comparison comparison,
            int raw,
            int windowTicks) {
        return new Term(
                entry,
                role.code(),
                channel.index(),
                source == Source.TOLD ? 1 : 0,
                comparison.code(),
                raw,
                windowTicks);
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
