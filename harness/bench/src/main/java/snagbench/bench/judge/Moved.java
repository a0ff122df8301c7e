package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.script.Condition.Moves;
import snagbench.bench.script.Condition.Relation;

/** That a reading has changed by more, or by less, than a value over some ticks. It does not hold before that many ticks. */
final class Moved implements TermSignal {
    private final Moves term;
    private final Cells cells;

    Moved(Moves term, Cells cells) {
        this.term = term;
        this.cells = cells;
    }

    @Override
    public int at(int tick) {
        int before = tick - term.ticks();
        if (before < 0) {
            return Truth.FALSE;
        }
        return Truth.ofDistance(
                term.more() ? Relation.ABOVE : Relation.BELOW,
                term.raw(),
                cells.least(tick) - cells.greatest(before),
                cells.greatest(tick) - cells.least(before));
    }

    @Override
    public Optional<Slack> slack() {
        String name = Readings.name(term.channel(), term.source()) + " in " + term.ticks()
                + (term.ticks() == 1 ? " tick" : " ticks");
        return Optional.of(new Apart(
                term.channel(),
                name,
                term.more() ? Relation.ABOVE : Relation.BELOW,
                term.raw(),
                tick -> cells.least(tick) - cells.greatest(tick - term.ticks()),
                tick -> cells.greatest(tick) - cells.least(tick - term.ticks()),
                tick -> tick < term.ticks() || cells.isOpen(tick) || cells.isOpen(tick - term.ticks())));
    }

    @Override
    public String reading(int tick) {
        String name = Readings.name(term.channel(), term.source());
        int before = tick - term.ticks();
        if (before < 0 || cells.isOpen(tick) || cells.isOpen(before) || cells.least(before) != cells.greatest(before)) {
            return Readings.of(term.channel(), name, cells, tick);
        }
        return name + " moved "
                + Readings.show(term.channel(), Math.abs(cells.least(tick) - cells.least(before))) + " in "
                + term.ticks() + (term.ticks() == 1 ? " tick" : " ticks");
    }

    @Override
    public int firstTick() {
        return cells.firstTick();
    }
}
