package snagbench.probe;

import snagbench.wire.Record;

/** The parts of a probe that have a state, in one place, and what that state is in a record's flags. */
final class ProbeState {
    final Readings readings;
    final Program program;
    final Guards guards;
    final EventRing events;
    final Recording recording;
    final Stopping stopping;
    final Answers answers = new Answers();
    final Lease lease = new Lease();

    ProbeState(Description description, ProbeLimits limits, SafeStop stop) {
        int channels = description.channels().size();
        readings = new Readings(description.channels());
        program = new Program(limits, channels);
        guards = new Guards(limits.guards, description);
        events = new EventRing(limits.ring);
        recording = new Recording(readings, channels);
        stopping = new Stopping(stop);
    }

    int flags() {
        return (program.isArmed() ? Record.ARMED : 0)
                | (lease.lives() ? Record.LEASED : 0)
                | (stopping.isRunning() ? Record.STOPPING : 0)
                | (stopping.isLatched() ? Record.LATCHED : 0)
                | (events.lost() ? Record.EVENTS_LOST : 0)
                | (program.hasEnded() ? Record.PROGRAM_ENDED : 0);
    }
}
