package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.script.Condition.Agrees;
import snagbench.bench.script.Condition.Relation;
import snagbench.bench.script.Source;

/** That what the control code is told is close to what is real. */
final class Agreed implements TermSignal {
    private final Agrees term;
    private final Cells told;
    private final Cells real;

    Agreed(Agrees term, Cells told, Cells real) {
        this.term = term;
        this.told = told;
        this.real = real;
    }

    @Override
    public int at(int tick) {
        return Truth.ofDistance(
                Relation.AT_MOST,
                term.raw(),
                told.least(tick) - real.greatest(tick),
                told.greatest(tick) - real.least(tick));
    }

    @Override
    public Optional<Slack> slack() {
        return Optional.of(new Apart(
                term.channel(),
                term.channel().name() + " told from real",
                Relation.AT_MOST,
                term.raw(),
                tick -> told.least(tick) - real.greatest(tick),
                tick -> told.greatest(tick) - real.least(tick),
                tick -> told.isOpen(tick) || real.isOpen(tick)));
    }

    @Override
    public String reading(int tick) {
        String name = Readings.name(term.channel(), Source.REAL);
        return Readings.of(term.channel(), name + " told", told, tick) + ", "
                + Readings.of(term.channel(), name + " real", real, tick);
    }
}
