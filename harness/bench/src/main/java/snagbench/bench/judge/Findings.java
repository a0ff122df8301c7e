package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Place;

/** Puts a finding together. */
final class Findings {
    private final String name;
    private final Place place;
    private final List<Fact> facts = new ArrayList<>();
    private OptionalLong tick = OptionalLong.empty();
    private OptionalLong micros = OptionalLong.empty();
    private OptionalLong margin = OptionalLong.empty();
    private Optional<ValueMargin> value = Optional.empty();
    private OptionalLong limit = OptionalLong.empty();

    Findings(String name, Place place) {
        this.name = name;
        this.place = place;
    }

    Findings expected(String text) {
        return fact("expected", text);
    }

    Findings butWas(String text) {
        return fact("but was", text);
    }

    Findings fact(String label, String text) {
        facts.add(new Fact(label, text));
        return this;
    }

    /** Where to look: the script's line and the tick that decided. */
    Findings where(int tickOfTrace) {
        fact("script", place.brief());
        return tickOfTrace < 0 ? this : fact("trace", "tick " + tickOfTrace);
    }

    Findings met(int atTick, long atMicros) {
        tick = OptionalLong.of(atTick);
        micros = OptionalLong.of(atMicros);
        return this;
    }

    Findings margin(long marginMicros) {
        margin = OptionalLong.of(marginMicros);
        return this;
    }

    Findings limit(long limitMicros) {
        limit = OptionalLong.of(limitMicros);
        return this;
    }

    Findings value(ChannelDescription channel, long steps) {
        value = Optional.of(ValueMargin.of(channel, steps));
        return this;
    }

    Findings times(String what, long times) {
        value = Optional.of(ValueMargin.times(what, times));
        return this;
    }

    Finding of(Verdict verdict) {
        return new Finding(name, place, verdict, facts, tick, micros, margin, value, limit);
    }
}
