package snagbench.bench.judge;

import java.util.OptionalInt;

/** A state of the control code: known from records, and between them from the events of its changes. */
final class StateCells implements Cells {
    private final StateValues values;

    StateCells(StateValues values) {
        this.values = values;
    }

    @Override
    public long least(int tick) {
        OptionalInt value = values.at(tick);
        return value.isPresent() ? value.getAsInt() : Integer.MIN_VALUE;
    }

    @Override
    public long greatest(int tick) {
        OptionalInt value = values.at(tick);
        return value.isPresent() ? value.getAsInt() : Integer.MAX_VALUE;
    }

    @Override
    public boolean isOpen(int tick) {
        return values.at(tick).isEmpty();
    }
}
