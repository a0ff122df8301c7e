package snagbench.bench.script.read;

import snagbench.bench.script.Condition;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;

/** Checks how the parts of a script go together, once each of them is good. */
final class WholeScript {
    private final FaultScript script;
    private final Fields fields;
    private final Findings findings;

    private WholeScript(FaultScript script, Fields fields, Findings findings) {
        this.script = script;
        this.fields = fields;
        this.findings = findings;
    }

    static void check(FaultScript script, Fields fields, Findings findings) {
        WholeScript whole = new WholeScript(script, fields, findings);
        whole.wantAnEnd();
        whole.warnOfUnprovenFailSafes();
        script.end().ifPresent(whole::warnOfAnEarlyEnd);
    }

    private void wantAnEnd() {
        boolean hasDeadline = script.expectations().stream().anyMatch(one -> one instanceof Expectation.Timed);
        if (!hasDeadline && script.end().isEmpty()) {
            findings.error(
                    fields.at("expect"),
                    "nothing here has a deadline, so that the script's end is not known",
                    "add \"end: 1 s after " + script.injections().get(0).name() + "\"");
        }
    }

    private void warnOfUnprovenFailSafes() {
        for (FailSafeDescription failSafe : script.failSafes()) {
            boolean mentioned = script.expectations().stream().anyMatch(one -> isAbout(one, failSafe));
            if (!mentioned) {
                findings.warning(
                        fields.at("failsafe"),
                        "the script is to be evidence for " + failSafe.name() + ", and expects nothing of it",
                        "expect \"answered-by: " + failSafe.name() + "\" or \"must-not-fire: " + failSafe.name()
                                + "\"");
            }
        }
    }

    private static boolean isAbout(Expectation expectation, FailSafeDescription failSafe) {
        if (expectation instanceof Expectation.AnsweredBy answered) {
            return answered.failSafe().equals(failSafe);
        }
        if (expectation instanceof Expectation.Times times) {
            return times.what().terms().stream()
                    .anyMatch(term -> term instanceof Condition.Answers answers
                            && answers.failSafe().equals(failSafe));
        }
        return expectation instanceof Expectation.MustNotFire quiet
                && quiet.failSafe().equals(failSafe);
    }

    private void warnOfAnEarlyEnd(FaultScript.End end) {
        for (Expectation expectation : script.expectations()) {
            if (expectation instanceof Expectation.Timed timed
                    && timed.after().equals(end.after())
                    && timed.within().mostMicros() > end.micros()) {
                findings.warning(
                        end.place(),
                        "the script ends before the deadline of \"" + expectation.name() + "\" in line "
                                + expectation.place().line(),
                        "let it end later, or leave \"end\" out");
            }
        }
    }
}
