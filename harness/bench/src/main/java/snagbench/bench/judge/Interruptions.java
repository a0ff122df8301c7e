package snagbench.bench.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Place;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.Stage;
import snagbench.bench.trace.Happening;
import snagbench.bench.trace.Restart;
import snagbench.bench.trace.Trace;
import snagbench.wire.EventKind;
import snagbench.wire.Record;
import snagbench.wire.StopReason;

/** What cut a script short: a beginning that did not come about, a restart, a guard, a lease that ran out. */
final class Interruptions {
    private final Course course;
    private final FaultScript script;
    private final Trace trace;
    private final List<RigFile.GuardSpec> guards;

    Interruptions(Course course, List<RigFile.GuardSpec> guards) {
        this.course = course;
        this.script = course.script();
        this.trace = course.trace();
        this.guards = guards;
    }

    List<Finding> findings() {
        List<Finding> found = new ArrayList<>();
        beginning().ifPresent(found::add);
        for (Optional<Course> at = Optional.of(course);
                at.isPresent();
                at = at.get().behind()) {
            restarted(at.get()).ifPresent(found::add);
        }
        List<Finding> stops = stops();
        found.addAll(stops);
        if (stops.isEmpty()) {
            latched().ifPresent(found::add);
        }
        return found;
    }

    private Optional<Finding> beginning() {
        if (!(course.beginning() instanceof Moment.Missing) || course.strike(0) instanceof Moment.Known) {
            return Optional.empty();
        }
        Optional<Happening> timedOut = course.stageTimedOut();
        int stage = timedOut.isPresent() ? timedOut.get().a() : stagesDone();
        if (stage < 0 || stage >= script.begin().size()) {
            return Optional.empty();
        }
        Stage its = script.begin().get(stage);
        Findings to = new Findings("the beginning", its.place());
        if (its instanceof Stage.WaitFor waitFor) {
            to.expected(waitFor.condition().show() + " within " + Words.duration(waitFor.withinMicros()));
            int tick = timedOut.map(Happening::tick).orElse(course.timeline().lastTick());
            to.butWas(course.signals().of(waitFor.condition()).reading(tick)
                    + timedOut.map(one -> " at " + Words.at(one.micros()) + " from arming")
                            .orElse(" when the trace ends"));
            return Optional.of(to.where(tick).of(Verdict.INCONCLUSIVE));
        }
        return Optional.of(to.expected("stage " + (stage + 1) + " of the beginning is done")
                .butWas("it was not seen to be")
                .where(-1)
                .of(Verdict.INCONCLUSIVE));
    }

    private int stagesDone() {
        int done = 0;
        while (done < script.begin().size()
                && course.first(EventKind.STAGE_DONE, script.entryOfStage(done)).isPresent()) {
            done++;
        }
        return done;
    }

    /** A restart that an expectation speaks for is judged there; where it may be one, nothing is settled. */
    private Optional<Finding> restarted(Course part) {
        if (part.trace().restart().isEmpty() || part.endsWithRestart()) {
            return Optional.empty();
        }
        Restart restart = part.trace().restart().get();
        boolean mayBeExpected = part.mayEndWithRestart();
        return Optional.of(new Findings("restart", script.place())
                .expected("the controller keeps running")
                .butWas("the controller restarted (" + Words.cause(restart.cause()) + ") after "
                        + Words.at(part.timeline().earliest(Math.max(0, restart.afterTick())))
                        + (part.part() == 0 ? " from arming" : " from its restart before")
                        + (mayBeExpected
                                ? "; it is not known whether that was behind what the script expects it after"
                                : "; the script does not expect it"))
                .where(restart.afterTick())
                .of(mayBeExpected ? Verdict.INCONCLUSIVE : Verdict.FAIL));
    }

    private List<Finding> stops() {
        List<Finding> found = new ArrayList<>();
        boolean isGuardNamed = false;
        for (Happening one : trace.events()) {
            if (one.kind() == EventKind.GUARD) {
                found.add(guard(one));
                isGuardNamed = true;
            } else if (one.kind() == EventKind.STOP && one.b() == 0 && one.a() == StopReason.LEASE.code()) {
                found.add(stop("lease", "the lease ran out", one));
            } else if (one.kind() == EventKind.STOP
                    && one.b() == 0
                    && one.a() == StopReason.GUARD.code()
                    && !isGuardNamed) {
                found.add(stop("guard", "a guard tripped", one));
            }
        }
        return found;
    }

    private Finding guard(Happening trip) {
        if (trip.a() < 0 || trip.a() >= guards.size()) {
            return stop("guard", "guard " + trip.a() + " tripped", trip);
        }
        RigFile.GuardSpec guard = guards.get(trip.a());
        return stop(
                "guard " + guard.name(),
                "guard " + guard.name() + " tripped: " + guard.channel().name() + " was really "
                        + guard.channel().show(trip.b()),
                trip);
    }

    private Finding stop(String name, String what, Happening one) {
        return new Findings(name, script.place())
                .expected("the script runs to its end")
                .butWas(what + ", at " + Words.at(one.micros()) + " from arming; the rig stopped")
                .where(one.tick())
                .of(Verdict.ERROR);
    }

    /** A stop whose event was lost still shows in the records. */
    private Optional<Finding> latched() {
        for (int row = 0; row < trace.rows(); row++) {
            if ((trace.flags(row) & Record.LATCHED) != 0) {
                Place place = script.place();
                return Optional.of(new Findings("stop", place)
                        .expected("the script runs to its end")
                        .butWas("the rig stopped and latched, at " + Words.at(trace.micros(row))
                                + " from arming; why is not known, since the event is missing")
                        .where(trace.tick(row))
                        .of(Verdict.ERROR));
            }
        }
        return Optional.empty();
    }
}
