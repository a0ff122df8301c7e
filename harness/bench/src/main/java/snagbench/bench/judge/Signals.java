package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Condition.Agrees;
import snagbench.bench.script.Condition.Answers;
import snagbench.bench.script.Condition.AnyOf;
import snagbench.bench.script.Condition.Compares;
import snagbench.bench.script.Condition.ComparesToStrike;
import snagbench.bench.script.Condition.Crosses;
import snagbench.bench.script.Condition.Moves;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Condition.Term;
import snagbench.bench.script.Source;
import snagbench.wire.ChannelKind;

/** Makes signals of conditions, on one trace. */
final class Signals {
    private final Course course;
    private final Timeline timeline;
    private final Map<Integer, StateValues> states = new HashMap<>();
    private final Map<Integer, Cells> derived = new HashMap<>();

    Signals(Course course) {
        this.course = course;
        this.timeline = course.timeline();
    }

    Signal of(Condition condition) {
        List<TermSignal> terms = new ArrayList<>();
        condition.terms().forEach(term -> terms.add(of(term)));
        return new Signal(timeline.trace(), terms, entries(condition.terms()));
    }

    private TermSignal of(Term term) {
        if (term instanceof Answers it) {
            return new Answered(timeline, it.failSafe());
        }
        if (term instanceof Compares it) {
            return new Compared(
                    it.channel(), it.source(), cells(it.channel(), it.source()), it.relation(), it.raw(), it.raw());
        }
        if (term instanceof ComparesToStrike it) {
            return againstStrike(it);
        }
        if (term instanceof Crosses it) {
            return new Crossed(it, cells(it.channel(), it.source()));
        }
        if (term instanceof Moves it) {
            return new Moved(it, cells(it.channel(), it.source()));
        }
        if (term instanceof Agrees it) {
            return new Agreed(it, cells(it.channel(), Source.TOLD), cells(it.channel(), Source.REAL));
        }
        return new OneOf(((AnyOf) term).alternatives().stream().map(this::of).toList());
    }

    private TermSignal againstStrike(ComparesToStrike term) {
        long least = Cells.LEAST;
        long greatest = Cells.GREATEST;
        Course first = course.first();
        if (first.moment(term.injection()) instanceof Moment.Known strike) {
            Cells real = first.signals().cells(term.channel(), Source.REAL);
            least = real.least(strike.tick()) + term.offset();
            greatest = real.greatest(strike.tick()) + term.offset();
        }
        Cells cells = cells(term.channel(), term.source());
        return new Compared(term.channel(), term.source(), cells, term.relation(), least, greatest);
    }

    /** What a channel may have been. */
    Cells cells(ChannelDescription channel, Source source) {
        if (isDerived(channel)) {
            return derived(channel.index());
        }
        return channel.kind() == ChannelKind.STATE
                ? new StateCells(states(channel))
                : new RecordedCells(timeline.trace(), channel.index(), source);
    }

    /** The indexes of derived channels lie behind those of the rig's. */
    private boolean isDerived(ChannelDescription channel) {
        return channel.index() >= timeline.trace().rig().channels().size();
    }

    private Cells derived(int index) {
        Cells known = derived.get(index);
        if (known == null) {
            // One that hangs on itself, which no script that was checked has, is not known.
            derived.put(index, new DerivedCells(0));
            known = course.script().derived().stream()
                    .filter(one -> one.channel().index() == index)
                    .findFirst()
                    .map(one -> Formulas.of(one, this, timeline))
                    .orElseGet(() -> new DerivedCells(0));
            derived.put(index, known);
        }
        return known;
    }

    private StateValues states(ChannelDescription channel) {
        return states.computeIfAbsent(channel.index(), index -> new StateValues(timeline, index));
    }

    private Signal.@Nullable Entries entries(List<Term> terms) {
        if (terms.size() == 1
                && terms.get(0) instanceof Compares one
                && one.channel().kind() == ChannelKind.STATE
                && !isDerived(one.channel())
                && one.relation() == Relation.IS) {
            StateValues state = states(one.channel());
            return tick -> state.entersAt(tick, one.raw());
        }
        return null;
    }
}
