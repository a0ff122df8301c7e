package snagbench.bench.judge;

import snagbench.bench.trace.Restart;

/**
 * A restart of the controller. Its clock does not tell when that was: it was behind the last tick that was heard of, and
 * before the host heard of the new boot.
 */
final class AwaitedRestart implements Awaited {
    private final Course course;

    AwaitedRestart(Course course) {
        this.course = course;
    }

    @Override
    public String what() {
        return "the controller restarts";
    }

    @Override
    public int firstTick(Moment.Known anchor) {
        return anchor.tick();
    }

    @Override
    public void gather(Moment.Known anchor, Arrival arrival) {
        if (course.trace().restart().isEmpty()) {
            arrival.mayBeMissing();
            return;
        }
        Restart restart = course.trace().restart().get();
        Timeline timeline = course.timeline();
        int heard = Math.max(0, Math.max(restart.afterTick(), timeline.lastKnownTick()));
        long earliest = Math.max(anchor.micros(), timeline.earliest(heard));
        long latest = restart.noLaterMicros().orElse(Timeline.NEVER);
        arrival.mayBeBetween(heard, earliest, Math.max(earliest, latest));
    }

    @Override
    public String insteadAt(int tick, Moment.Known anchor) {
        return "the controller kept running";
    }

    @Override
    public Moment.Known momentAt(int tick, long micros) {
        return Moment.ARMING;
    }

    @Override
    public boolean hasTick() {
        return false;
    }
}
