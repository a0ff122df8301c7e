package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.script.Expectation.Becomes;

/** A condition that has to come about anew. */
final class AwaitedState implements Awaited {
    private final Course course;
    private final Becomes expectation;

    AwaitedState(Course course, Becomes expectation) {
        this.course = course;
        this.expectation = expectation;
    }

    @Override
    public String what() {
        return expectation.condition().show();
    }

    @Override
    public int firstTick(Moment.Known anchor) {
        return anchor.firstTickForStates();
    }

    @Override
    public void gather(Moment.Known anchor, Arrival arrival) {
        Signal signal = new Signal(course.timeline(), expectation.condition());
        new Rising(course.timeline(), signal, arrival).follow(firstTick(anchor));
    }

    @Override
    public String insteadAt(int tick, Moment.Known anchor) {
        return Readings.of(course.trace(), expectation.condition(), tick);
    }

    @Override
    public Optional<Spoilt> spoilt(Moment.Known anchor, Arrival arrival) {
        return Optional.empty();
    }

    @Override
    public Moment.Known momentAt(int tick, long micros) {
        return new Moment.Known(tick, micros, 0, tick + 1);
    }
}
