package snagbench.bench.judge;

import snagbench.bench.script.Condition.Crosses;
import snagbench.bench.script.Condition.Relation;

/** That a reading crosses a value in the tick. There is no tick before the first that it could have crossed it from. */
final class Crossed implements TermSignal {
    private final Crosses term;
    private final Cells cells;

    Crossed(Crosses term, Cells cells) {
        this.term = term;
        this.cells = cells;
    }

    @Override
    public int at(int tick) {
        if (tick < 1) {
            return Truth.FALSE;
        }
        return Truth.and(
                side(term.rises() ? Relation.AT_LEAST : Relation.AT_MOST, tick),
                side(term.rises() ? Relation.BELOW : Relation.ABOVE, tick - 1));
    }

    private int side(Relation relation, int tick) {
        return Truth.of(relation, term.raw(), cells.least(tick), cells.greatest(tick));
    }

    @Override
    public String reading(int tick) {
        return Readings.of(term.channel(), Readings.name(term.channel(), term.source()), cells, tick);
    }

    @Override
    public int firstTick() {
        return cells.firstTick();
    }
}
