package snagbench.bench.script;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What an expectation wants to know of a rig.
 *
 * @param channels the rig's own channels, also those from which quantities are derived that it uses
 * @param failSafes fail-safes whose reports it looks for
 */
public record Wanted(Set<ChannelDescription> channels, Set<FailSafeDescription> failSafes) {
    /** Copies the sets. */
    public Wanted {
        channels = Set.copyOf(channels);
        failSafes = Set.copyOf(failSafes);
    }

    /**
     * Looks at one expectation.
     *
     * @param expectation of the script
     * @param script for its derived quantities
     * @return all that it looks at, but for what its anchors look at
     */
    public static Wanted of(Expectation expectation, FaultScript script) {
        Gathering gathering = new Gathering(script.derived());
        if (expectation instanceof Expectation.AnsweredBy it) {
            gathering.failSafes.add(it.failSafe());
        } else if (expectation instanceof Expectation.MustNotFire it) {
            gathering.failSafes.add(it.failSafe());
        } else if (expectation instanceof Expectation.Peak it) {
            gathering.term(it.reading());
        } else {
            conditionOf(expectation).ifPresent(gathering::condition);
        }
        return new Wanted(gathering.channels, gathering.failSafes);
    }

    private static Optional<Condition> conditionOf(Expectation expectation) {
        if (expectation instanceof Expectation.Becomes it) {
            return Optional.of(it.condition());
        } else if (expectation instanceof Expectation.Stays it) {
            return Optional.of(it.condition());
        } else if (expectation instanceof Expectation.Settles it) {
            return Optional.of(it.condition());
        } else if (expectation instanceof Expectation.Always it) {
            return Optional.of(it.condition());
        } else if (expectation instanceof Expectation.Never it) {
            return Optional.of(it.condition());
        }
        return expectation instanceof Expectation.Times it ? Optional.of(it.what()) : Optional.empty();
    }

    private static final class Gathering {
        private final List<DerivedChannel> derived;
        private final Set<ChannelDescription> channels = new LinkedHashSet<>();
        private final Set<FailSafeDescription> failSafes = new LinkedHashSet<>();

        private Gathering(List<DerivedChannel> derived) {
            this.derived = derived;
        }

        private void condition(Condition condition) {
            condition.terms().forEach(this::term);
        }

        private void term(Condition.Term term) {
            if (term instanceof Condition.Compares it) {
                channel(it.channel());
            } else if (term instanceof Condition.ComparesToStrike it) {
                channel(it.channel());
            } else if (term instanceof Condition.Crosses it) {
                channel(it.channel());
            } else if (term instanceof Condition.Moves it) {
                channel(it.channel());
            } else if (term instanceof Condition.Agrees it) {
                channel(it.channel());
            } else if (term instanceof Condition.Answers it) {
                failSafes.add(it.failSafe());
            } else if (term instanceof Condition.AnyOf it) {
                it.alternatives().forEach(this::condition);
            }
        }

        private void channel(ChannelDescription channel) {
            Optional<DerivedChannel> its = derived.stream()
                    .filter(one -> one.channel().equals(channel))
                    .findFirst();
            if (its.isPresent()) {
                formula(its.get().formula());
            } else {
                channels.add(channel);
            }
        }

        private void formula(DerivedChannel.Formula formula) {
            if (formula instanceof DerivedChannel.Rate it) {
                channel(it.of());
            } else if (formula instanceof DerivedChannel.Stalled it) {
                channel(it.of());
                condition(it.driven());
            } else if (formula instanceof DerivedChannel.Difference it) {
                channel(it.of());
                channel(it.less());
            } else if (formula instanceof DerivedChannel.Sum it) {
                channel(it.of());
                channel(it.and());
            } else if (formula instanceof DerivedChannel.Mean it) {
                channel(it.of());
            } else if (formula instanceof DerivedChannel.RootMeanSquare it) {
                channel(it.of());
            } else if (formula instanceof DerivedChannel.Debounced it) {
                condition(it.condition());
            }
        }
    }
}
