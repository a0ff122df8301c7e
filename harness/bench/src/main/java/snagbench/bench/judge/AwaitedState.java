package snagbench.bench.judge;

import java.util.Optional;
import snagbench.bench.script.Expectation.Becomes;

/** A condition that has to come about anew, once or several times. */
final class AwaitedState implements Awaited {
    private final Course course;
    private final Becomes expectation;
    private final int time;

    AwaitedState(Course course, Becomes expectation, int time) {
        this.course = course;
        this.expectation = expectation;
        this.time = time;
    }

    @Override
    public String what() {
        return expectation.condition().show() + (time == 1 ? "" : " for the " + Words.ordinal(time) + " time");
    }

    @Override
    public int firstTick(Moment.Known anchor) {
        return anchor.firstTickForStates();
    }

    @Override
    public void gather(Moment.Known anchor, Arrival arrival) {
        int first = firstTick(anchor);
        Occurrences found = new Occurrences(course.trace(), signal(), first, time);
        int last = course.timeline().lastKnownTick();
        for (int tick = first; tick <= last && found.isOpen(); tick++) {
            if (found.step(tick, Truth.TRUE)) {
                arrival.mayBeAt(tick);
            }
        }
        if (found.isOpen()) {
            arrival.mayBeMissing();
        }
    }

    private Signal signal() {
        return course.signals().of(expectation.condition());
    }

    @Override
    public String insteadAt(int tick, Moment.Known anchor) {
        return signal().reading(tick);
    }

    @Override
    public String sinceAt(int tick, Moment.Known anchor) {
        return signal().since(tick, course.timeline(), anchor);
    }

    @Override
    public Moment.Known momentAt(int tick, long micros) {
        return new Moment.Known(tick, micros, 0, tick + 1);
    }

    @Override
    public Optional<Slack> slack() {
        return time == 1 ? signal().slack() : Optional.empty();
    }
}
