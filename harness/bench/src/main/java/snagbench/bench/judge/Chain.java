package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Stretch;

/** What is counted from what: an anchor, its own anchor, and so on to an injection or the beginning. */
final class Chain {
    private final FaultScript script;

    Chain(FaultScript script) {
        this.script = script;
    }

    /** What an expectation is counted from. */
    static Anchor anchorOf(Expectation expectation) {
        if (expectation instanceof Expectation.Timed timed) {
            return timed.after();
        }
        if (expectation instanceof Expectation.Order order) {
            return order.moments().get(0);
        }
        return stretchOf(expectation).map(Stretch::from).orElse(new Anchor.OfBegin());
    }

    /** The stretch that an expectation is about; empty where it is about none, or about all from arming on. */
    static Optional<Stretch> stretchOf(Expectation expectation) {
        if (expectation instanceof Expectation.Always it) {
            return Optional.of(it.during());
        }
        if (expectation instanceof Expectation.Never it) {
            return Optional.of(it.during());
        }
        if (expectation instanceof Expectation.Peak it) {
            return Optional.of(it.during());
        }
        if (expectation instanceof Expectation.Times it) {
            return Optional.of(it.during());
        }
        return expectation instanceof Expectation.MustNotFire it ? it.during() : Optional.empty();
    }

    /** An anchor and all that it is counted from, until an injection or the beginning; none twice. */
    private List<Anchor> from(Anchor anchor) {
        List<Anchor> found = new ArrayList<>();
        Anchor at = anchor;
        while (found.size() <= script.expectations().size()) {
            found.add(at);
            if (!(at instanceof Anchor.OfExpectation one)) {
                break;
            }
            at = anchorOf(script.expectations().get(one.index()));
        }
        return found;
    }

    private Optional<Expectation> expectation(Anchor anchor) {
        return anchor instanceof Anchor.OfExpectation one
                ? Optional.of(script.expectations().get(one.index()))
                : Optional.empty();
    }

    /** The injection from which an anchor counts in the end; empty where that is the beginning. */
    Optional<Anchor.OfInjection> injection(Anchor anchor) {
        List<Anchor> chain = from(anchor);
        return chain.get(chain.size() - 1) instanceof Anchor.OfInjection injection
                ? Optional.of(injection)
                : Optional.empty();
    }

    /** How many restarts lie between arming and an anchor: each begins a part of the trace with a clock of its own. */
    int part(Anchor anchor) {
        return (int) from(anchor).stream()
                .filter(one -> expectation(one)
                        .filter(Expectation.Restart.class::isInstance)
                        .isPresent())
                .count();
    }

    /** In which part of the trace an expectation is judged. */
    int part(Expectation expectation) {
        return part(anchorOf(expectation));
    }

    /** Tells whether an anchor hangs on something that is to last to the script's end. */
    boolean hangsOnTheEnd(Anchor anchor) {
        return from(anchor).stream().anyMatch(one -> expectation(one)
                .filter(its -> its instanceof Expectation.Settles settles
                        && settles.forMicros().isEmpty())
                .isPresent());
    }
}
