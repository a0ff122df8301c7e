package snagbench.bench.script;

import java.util.List;
import java.util.stream.Collectors;

/**
 * Terms that must all hold in one tick.
 *
 * @param place where it is written
 * @param terms at least one; none only in a trigger that strikes as soon as it is looked at
 */
public record Condition(Place place, List<Term> terms) {
    /** Copies the list. */
    public Condition {
        terms = List.copyOf(terms);
    }

    /**
     * As people read it.
     *
     * @return such as "step REACHING and reach.position at least 180.0 mm"
     */
    public String show() {
        return terms.isEmpty() ? "at once" : terms.stream().map(Term::show).collect(Collectors.joining(" and "));
    }

    /** One term of a condition. */
    public sealed interface Term {
        /**
         * As people read it.
         *
         * @return words
         */
        String show();
    }

    /**
     * A comparison of a channel with a value on the channel's grid.
     *
     * @param place where it is written
     * @param channel the channel
     * @param source which reading
     * @param relation how
     * @param raw the value, in the channel's steps; already rounded so that the comparison is exact
     */
    public record Compares(Place place, ChannelDescription channel, Source source, Relation relation, int raw)
            implements Term {
        @Override
        public String show() {
            String name = channel.name() + (source == Source.TOLD ? " (told)" : "");
            boolean named = relation == Relation.IS
                    && raw >= 0
                    && raw < channel.valueNames().size();
            return name + " " + (named ? "" : relation.words() + " ") + channel.show(raw);
        }
    }

    /**
     * A fail-safe reports in the tick.
     *
     * @param place where it is written
     * @param failSafe which one
     */
    public record Answers(Place place, FailSafeDescription failSafe) implements Term {
        @Override
        public String show() {
            return failSafe.name() + " answers";
        }
    }

    /**
     * A comparison of a channel with the value that it really had in the first tick of an injection. Not for triggers.
     *
     * @param place where it is written
     * @param channel the channel
     * @param source which reading is compared
     * @param relation how
     * @param injection whose first tick
     * @param offset added to the value of that tick, in the channel's steps
     */
    public record ComparesToStrike(
            Place place,
            ChannelDescription channel,
            Source source,
            Relation relation,
            Anchor.OfInjection injection,
            int offset)
            implements Term {
        @Override
        public String show() {
            String shift = offset == 0 ? "" : (offset < 0 ? " - " : " + ") + channel.show(Math.abs(offset));
            return channel.name() + (source == Source.TOLD ? " (told) " : " ") + relation.words() + " its value at "
                    + injection.show() + shift;
        }
    }

    /**
     * A reading crosses a value in the tick: it has reached it, and had not in the tick before.
     *
     * @param place where it is written
     * @param channel the channel
     * @param source which reading
     * @param rises from below to at least the value; else from above to at most the value
     * @param raw the value, in the channel's steps
     */
    public record Crosses(Place place, ChannelDescription channel, Source source, boolean rises, int raw)
            implements Term {
        @Override
        public String show() {
            return channel.name()
                    + (source == Source.TOLD ? " (told)" : "")
                    + (rises ? " rises to " : " falls to ")
                    + channel.show(raw);
        }
    }

    /**
     * A reading has changed, either way, over a window of ticks: |x(k) - x(k - n)| against a value. It does not hold before
     * tick n of the program.
     *
     * @param place where it is written
     * @param channel the channel
     * @param source which reading
     * @param more by more than the value; else by less
     * @param raw the value, in the channel's steps, from 0
     * @param ticks n, from 1
     */
    public record Moves(Place place, ChannelDescription channel, Source source, boolean more, int raw, int ticks)
            implements Term {
        @Override
        public String show() {
            return channel.name() + (source == Source.TOLD ? " (told)" : "") + " moves "
                    + (more ? "more than " : "less than ") + channel.show(raw) + " in " + ticks
                    + (ticks == 1 ? " tick" : " ticks");
        }
    }

    /**
     * The told and the real reading of a channel are close to each other.
     *
     * @param place where it is written
     * @param channel the channel
     * @param raw how far apart at most, in the channel's steps, from 0
     */
    public record Agrees(Place place, ChannelDescription channel, int raw) implements Term {
        @Override
        public String show() {
            return channel.name() + " told and real agree within " + channel.show(raw);
        }
    }

    /**
     * One of several conditions holds. Not for triggers.
     *
     * @param place where it is written
     * @param alternatives at least one
     */
    public record AnyOf(Place place, List<Condition> alternatives) implements Term {
        /** Copies the list. */
        public AnyOf {
            alternatives = List.copyOf(alternatives);
        }

        @Override
        public String show() {
            return alternatives.stream().map(Condition::show).collect(Collectors.joining(" or ", "(", ")"));
        }
    }

    /** How a reading is compared. On the grid of a channel, "above" and "at least" meet in one integer comparison each. */
    public enum Relation {
        /** Reading {@code >=} value. */
        AT_LEAST("at least"),
        /** Reading {@code >} value. */
        ABOVE("above"),
        /** Reading {@code <=} value. */
        AT_MOST("at most"),
        /** Reading {@code <} value. */
        BELOW("below"),
        /** Reading {@code ==} value. */
        IS("is"),
        /** Reading {@code !=} value. */
        IS_NOT("is not");

        private final String words;

        Relation(String words) {
            this.words = words;
        }

        /**
         * The relation in words.
         *
         * @return such as "at least"
         */
        public String words() {
            return words;
        }

        /**
         * Compares.
         *
         * @param reading in the channel's steps
         * @param raw the value, in the channel's steps
         * @return whether it holds
         */
        public boolean holds(int reading, int raw) {
            return switch (this) {
                case AT_LEAST -> reading >= raw;
                case ABOVE -> reading > raw;
                case AT_MOST -> reading <= raw;
                case BELOW -> reading < raw;
                case IS -> reading == raw;
                case IS_NOT -> reading != raw;
            };
        }
    }
}
