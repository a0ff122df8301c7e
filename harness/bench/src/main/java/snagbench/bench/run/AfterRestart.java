package snagbench.bench.run;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Stretch;

/** How long a rig is listened to behind a restart that the script expects, on the new boot's clock. */
final class AfterRestart {
    private final FaultScript script;

    AfterRestart(FaultScript script) {
        this.script = script;
    }

    /** Whether the script expects a restart at all. */
    static boolean isExpected(FaultScript script) {
        return script.expectations().stream().anyMatch(Expectation.Restart.class::isInstance);
    }

    /**
     * Until all that hangs on the restart can have come about, in microseconds since the boot: whatever comes when, no window
     * closes later. The settling time comes on top, unless the script says itself when behind the restart it ends.
     */
    long endMicros(long settlingMicros) {
        long last = 0;
        for (Expectation one : script.expectations()) {
            last = Math.max(last, latest(one).orElse(0));
        }
        Optional<FaultScript.End> end = script.end();
        if (end.isPresent() && latest(end.get().after(), 0).isPresent()) {
            return Math.max(
                    last, latest(end.get().after(), 0).getAsLong() + end.get().micros());
        }
        return last + settlingMicros;
    }

    private OptionalLong latest(Expectation one) {
        if (one instanceof Expectation.Timed timed) {
            return plus(latest(timed.after(), 0), timed.within().mostMicros() + lasting(one));
        }
        return during(one).map(this::latest).orElse(OptionalLong.empty());
    }

    private static long lasting(Expectation one) {
        if (one instanceof Expectation.Stays stays) {
            return stays.forMicros();
        }
        return one instanceof Expectation.Settles settles ? settles.forMicros().orElse(0) : 0;
    }

    private static Optional<Stretch> during(Expectation one) {
        if (one instanceof Expectation.Always it) {
            return Optional.of(it.during());
        } else if (one instanceof Expectation.Never it) {
            return Optional.of(it.during());
        } else if (one instanceof Expectation.Peak it) {
            return Optional.of(it.during());
        } else if (one instanceof Expectation.Times it) {
            return Optional.of(it.during());
        }
        return one instanceof Expectation.MustNotFire it ? it.during() : Optional.empty();
    }

    private OptionalLong latest(Stretch stretch) {
        OptionalLong from = latest(stretch.from(), 0);
        if (stretch.window().isPresent()) {
            return plus(from, stretch.window().get().mostMicros());
        }
        return stretch.to().isPresent() ? latest(stretch.to().get(), 0) : from;
    }

    /** When an anchor can come at the latest, if it comes behind the restart. */
    private OptionalLong latest(Anchor anchor, int depth) {
        List<Expectation> all = script.expectations();
        if (!(anchor instanceof Anchor.OfExpectation of) || depth > all.size()) {
            return OptionalLong.empty();
        }
        Expectation its = all.get(of.index());
        if (its instanceof Expectation.Restart) {
            return OptionalLong.of(0);
        }
        return its instanceof Expectation.Timed timed
                ? plus(latest(timed.after(), depth + 1), timed.within().mostMicros())
                : OptionalLong.empty();
    }

    private static OptionalLong plus(OptionalLong time, long more) {
        return time.isPresent() ? OptionalLong.of(time.getAsLong() + more) : time;
    }
}
