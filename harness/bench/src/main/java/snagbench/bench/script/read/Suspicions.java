package snagbench.bench.script.read;

import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.Source;
import snagbench.bench.script.Stretch;
import snagbench.wire.Item;

/** Warns of what is legal and most likely not meant. Few, so that they are read. */
final class Suspicions {
    private final FaultScript script;
    private final Optional<RigFile> rig;
    private final Fields fields;
    private final Findings findings;

    private Suspicions(FaultScript script, Optional<RigFile> rig, Fields fields, Findings findings) {
        this.script = script;
        this.rig = rig;
        this.fields = fields;
        this.findings = findings;
    }

    static void check(
            FaultScript script, Symptoms.Register symptoms, Optional<RigFile> rig, Fields fields, Findings findings) {
        Suspicions all = new Suspicions(script, rig, fields, findings);
        NeverHolding.check(script, findings);
        all.nothingExpectedAfterTheFault();
        all.deadlinesInsideFilters();
        all.lastingFaultsInLoops();
        all.offTheClearFloor();
        HalfToldStories.check(script, symptoms, findings);
    }

    private void nothingExpectedAfterTheFault() {
        boolean any = script.expectations().stream().anyMatch(one -> reachesBehindAFault(one, new HashSet<>()));
        if (!any) {
            findings.warning(
                    fields.at("expect"),
                    "nothing is expected after the injection, so that the fault proves nothing",
                    "expect something \"after: " + script.injections().get(0).name() + "\"");
        }
    }

    private boolean reachesBehindAFault(Expectation expectation, Set<String> seen) {
        if (expectation instanceof Expectation.Timed timed) {
            return hangsOnAFault(timed.after(), seen);
        }
        if (expectation instanceof Expectation.Order order) {
            return order.moments().stream().anyMatch(anchor -> hangsOnAFault(anchor, seen));
        }
        return stretch(expectation)
                .map(during -> reachesBehindAFault(during, seen))
                .orElse(true);
    }

    private boolean reachesBehindAFault(Stretch during, Set<String> seen) {
        boolean open = during.window().isEmpty() && during.to().isEmpty();
        return open
                || hangsOnAFault(during.from(), seen)
                || during.to().map(to -> hangsOnAFault(to, seen)).orElse(false);
    }

    private static Optional<Stretch> stretch(Expectation expectation) {
        if (expectation instanceof Expectation.Always always) {
            return Optional.of(always.during());
        }
        if (expectation instanceof Expectation.Never never) {
            return Optional.of(never.during());
        }
        if (expectation instanceof Expectation.Peak peak) {
            return Optional.of(peak.during());
        }
        if (expectation instanceof Expectation.Times times) {
            return Optional.of(times.during());
        }
        return expectation instanceof Expectation.MustNotFire quiet ? quiet.during() : Optional.empty();
    }

    private boolean hangsOnAFault(Anchor anchor, Set<String> seen) {
        if (anchor instanceof Anchor.OfInjection) {
            return true;
        }
        return anchor instanceof Anchor.OfExpectation other
                && seen.add(other.name())
                && other.index() < script.expectations().size()
                && reachesBehindAFault(script.expectations().get(other.index()), seen);
    }

    /** A real reading that a filter delays cannot have come about sooner. */
    private void deadlinesInsideFilters() {
        Map<String, Long> delays = rig.map(RigFile::filterDelays).orElse(Map.of());
        for (Expectation expectation : script.expectations()) {
            if (expectation instanceof Expectation.Timed timed && expectation instanceof Expectation.Becomes becomes) {
                for (Condition.Term term : becomes.condition().terms()) {
                    if (term instanceof Condition.Compares one && one.source() == Source.REAL) {
                        long delay = delays.getOrDefault(one.channel().name(), 0L);
                        deadlineInsideFilter(timed, one.channel().name(), delay);
                    }
                }
            }
        }
    }

    private void deadlineInsideFilter(Expectation.Timed timed, String channel, long delay) {
        if (timed.within().mostMicros() > 0 && timed.within().mostMicros() < delay) {
            findings.warning(
                    timed.place(),
                    "the deadline is shorter than the " + Micros.show(delay) + " by which a filter delays " + channel,
                    "give it more time");
        }
    }

    /** On a real rig this is refused already; where nothing is known of guards, nothing is said. */
    private void lastingFaultsInLoops() {
        if (rig.isEmpty()) {
            return;
        }
        for (Injection injection : script.injections()) {
            for (Injection.Forcing forcing : injection.forcings()) {
                boolean closesLoop = (forcing.channel().flags() & Item.CLOSES_LOOP) != 0;
                if (closesLoop && isEndless(injection, forcing) && !LastingFaults.isGuarded(forcing, rig)) {
                    findings.warning(
                            forcing.place(),
                            "this lasts to the script's end, a control loop is closed over "
                                    + forcing.channel().name() + ", and no guard watches it",
                            "give the injection \"lasts\", or the rig's file a guard on this channel");
                }
            }
        }
    }

    private static boolean isEndless(Injection injection, Injection.Forcing forcing) {
        return injection.lastsMicros().isEmpty()
                && injection.until().isEmpty()
                && injection.whileHolds().isEmpty()
                && !(forcing.fault() instanceof Fault.Spike);
    }

    /** The control loop puts the told position where the real one should be: the machine ends up as far off as it is told. */
    private void offTheClearFloor() {
        Map<String, Integer> clear = rig.map(RigFile::clearFloor).orElse(Map.of());
        for (Injection injection : script.injections()) {
            for (Injection.Forcing forcing : injection.forcings()) {
                Integer room = clear.get(forcing.channel().name());
                if (room != null && astray(injection, forcing) > room) {
                    findings.warning(
                            forcing.place(),
                            "this may drive the machine off its clear floor, which ends "
                                    + forcing.channel().show(room) + " beyond its ordinary ways",
                            "take less, end it sooner, or clear more floor (\"clear-floor\" in the rig's file)");
                }
            }
        }
    }

    private static double astray(Injection injection, Injection.Forcing forcing) {
        if (forcing.fault() instanceof Fault.Offset offset) {
            return Math.abs((double) offset.raw());
        }
        if (forcing.fault() instanceof Fault.Drift drift) {
            double seconds = injection.lastsMicros().isPresent()
                    ? injection.lastsMicros().getAsLong() / 1e6
                    : Double.POSITIVE_INFINITY;
            double rate = Math.abs(drift.rawPerSecond().doubleValue());
            return rate == 0 ? 0 : rate * seconds;
        }
        return 0;
    }
}
