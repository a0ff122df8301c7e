package snagbench.bench.script.read;

import snagbench.bench.script.Anchor;
import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Injection;
import snagbench.bench.script.Place;

/**
 * Checks that the rig can watch, by itself, for the expectations on which injections hang: the harness would be late. Circles
 * are reported elsewhere.
 */
final class RigAnchors {
    private final FaultScript script;
    private final Findings findings;

    private RigAnchors(FaultScript script, Findings findings) {
        this.script = script;
        this.findings = findings;
    }

    static void check(FaultScript script, Findings findings) {
        RigAnchors anchors = new RigAnchors(script, findings);
        for (Injection injection : script.injections()) {
            anchors.check(injection.trigger().after(), injection);
        }
    }

    private void check(Anchor anchor, Injection injection) {
        if (anchor instanceof Anchor.OfInjection other && other.time() > 1) {
            refuse(injection, "the " + other.time() + "th strike of " + other.name() + " is counted in the trace only");
        }
        if (!(anchor instanceof Anchor.OfExpectation other)) {
            return;
        }
        Expectation expectation = script.expectations().get(other.index());
        if (expectation instanceof Expectation.AnsweredBy answered) {
            check(answered.after(), injection);
        } else if (expectation instanceof Expectation.Becomes becomes) {
            for (Condition.Term term : becomes.condition().terms()) {
                if (!isOnTheRig(term)) {
                    refuse(injection, "\"" + term.show() + "\" is worked out from the trace");
                }
            }
            check(becomes.after(), injection);
        } else {
            refuse(injection, "only \"answered-by\" and \"becomes\" can be watched for");
        }
    }

    private boolean isOnTheRig(Condition.Term term) {
        if (term instanceof Condition.ComparesToStrike || term instanceof Condition.AnyOf) {
            return false;
        }
        return script.derived().stream().noneMatch(one -> one.channel().equals(channelOf(term)));
    }

    private static Object channelOf(Condition.Term term) {
        if (term instanceof Condition.Compares compares) {
            return compares.channel();
        }
        if (term instanceof Condition.Crosses crosses) {
            return crosses.channel();
        }
        return term instanceof Condition.Moves moves ? moves.channel() : term;
    }

    private void refuse(Injection injection, String why) {
        Place place = injection.place();
        findings.error(
                place,
                "the rig cannot watch for \"" + injection.trigger().after().show() + "\", after which "
                        + injection.name() + " is to strike: " + why,
                "hang it on an answered-by, or on a becomes of the rig's own channels");
    }
}
