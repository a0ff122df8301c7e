package snagbench.bench.report;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import snagbench.bench.judge.Fact;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.InjectionFacts;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import snagbench.wire.EntryEnd;

/** What came of scripts, in sentences. */
public final class Sentences {
    private Sentences() {}

    /**
     * The result to look at first; of a file that varies something its worst case, which is the one that is shown.
     *
     * @param run as its journal tells it
     * @return the first that failed or ended in an error; else the first that settled nothing; empty if there is neither
     */
    public static Optional<ScriptResult> firstTrouble(RunRecord run) {
        List<ScriptResult> shown =
                Family.of(run.results()).stream().map(Family::worst).toList();
        Optional<ScriptResult> failed = shown.stream()
                .filter(one -> one.judgement().verdict().compareTo(Verdict.FAIL) >= 0)
                .findFirst();
        return failed.or(() -> shown.stream()
                .filter(one -> one.judgement().verdict() == Verdict.INCONCLUSIVE)
                .findFirst());
    }

    /**
     * Why a result is no pass.
     *
     * @param judgement of a script
     * @return a sentence without its full stop; for a pass, how close it was
     */
    public static String cause(Judgement judgement) {
        if (judgement.verdict() == Verdict.PASS) {
            return judgement.marginMicros().isPresent()
                    ? "all that was asked for came about; the tightest limit had "
                            + Figures.millis(judgement.marginMicros()) + " to spare"
                    : "all that was asked for came about";
        }
        // Findings first: a reason may be a note that explains, a finding is what decided.
        Optional<Finding> worst = judgement.findings().stream()
                .filter(one -> one.verdict() == judgement.verdict())
                .findFirst();
        Optional<String> found = worst.map(Sentences::words);
        return found.or(() -> judgement.reasons().stream().findFirst()).orElse("no reason is written down");
    }

    private static String words(Finding finding) {
        String was = text(finding, "but was").or(() -> text(finding, "was")).orElse("");
        String expected = text(finding, "expected").orElse("");
        String reached = text(finding, "reached").orElse("");
        String words = finding.name();
        words += was.isEmpty() ? "" : ": " + was;
        words += reached.isEmpty() ? "" : "; reached: " + reached;
        return expected.isEmpty() ? words : words + " (asked for: " + expected + ")";
    }

    private static Optional<String> text(Finding finding, String label) {
        return finding.facts().stream()
                .filter(fact -> fact.label().equals(label))
                .map(Fact::text)
                .findFirst();
    }

    /**
     * What a verdict means.
     *
     * @param verdict which
     * @return a sentence without its full stop
     */
    public static String meaning(Verdict verdict) {
        return switch (verdict) {
            case NONE -> "was left out";
            case PASS -> "the fault was there, and all that was asked for came about in time";
            case INCONCLUSIVE -> "what was seen settles nothing; run it again";
            case FAIL -> "something that was asked for did not come about, or not in time";
            case ERROR -> "the harness, a guard or the line ended it; the control code was not judged";
        };
    }

    /**
     * How an injection went.
     *
     * @param injection what is known of it
     * @return a sentence without its full stop
     */
    public static String injection(InjectionFacts injection) {
        if (injection.firstMicros().isEmpty()) {
            return "never seen to take effect";
        }
        String from = "from " + Figures.millis(injection.firstMicros()) + " after arming";
        String lasted = injection.lastedMicros().isPresent()
                ? " for " + Figures.millis(injection.lastedMicros())
                : injection.ended().isPresent() ? "" : " to the end of the record";
        String ended = injection.ended().map(end -> "; ended: " + ended(end)).orElse("; its end was not seen");
        String strikes = injection.strikes() > 1 ? "; struck " + injection.strikes() + " times" : "";
        String changed = injection.changedAnything() ? "" : "; the control code was never told anything but the truth";
        return from + lasted + ended + strikes + changed;
    }

    private static String ended(EntryEnd end) {
        return switch (end) {
            case LASTED -> "its own time was over";
            case UNTIL -> "what it was to last until came about";
            case WHILE -> "what it was to last for no longer held";
            case RELEASED -> "let go at the end of the script, or by the safe stop";
        };
    }

    /**
     * What made the machine believe in the fault.
     *
     * @param evidence of a result
     * @return words, with what they are worth
     */
    public static String evidence(ScriptResult.Evidence evidence) {
        return switch (evidence) {
            case TOLD -> "told: readings were overridden, which causes no sag, heat or force";
            case PHYSICAL -> "physical: the rig made the fault itself";
            case TOLD_AND_PHYSICAL -> "told and physical: some readings were overridden, some of the fault was real";
        };
    }

    /**
     * Evidence in a word or three.
     *
     * @param evidence of a result
     * @return such as "told"
     */
    public static String evidenceWord(ScriptResult.Evidence evidence) {
        return switch (evidence) {
            case TOLD -> "told";
            case PHYSICAL -> "physical";
            case TOLD_AND_PHYSICAL -> "told and physical";
        };
    }

    /**
     * What a script is called, with what it varies and which repeat it is.
     *
     * @param result of it
     * @return its name as the journal has it
     */
    public static String title(ScriptResult result) {
        String repeat = result.repeats() == 1 ? "" : " (" + result.repeat() + " of " + result.repeats() + ")";
        return result.script()
                + result.variant().map(variant -> ", " + variant.setting()).orElse("")
                + repeat;
    }

    /**
     * A run in one line: what did not pass, by far the most wanted.
     *
     * @param run as its journal tells it
     * @return a sentence without its full stop
     */
    public static String verdict(RunRecord run) {
        Summary summary = Summary.of(run);
        List<String> bad = List.of(Verdict.ERROR, Verdict.FAIL, Verdict.INCONCLUSIVE).stream()
                .filter(verdict -> summary.count(verdict) > 0)
                .sorted(Comparator.reverseOrder())
                .map(verdict -> summary.count(verdict) + " " + verdict.word())
                .toList();
        if (!bad.isEmpty()) {
            return bad.stream().collect(Collectors.joining(", ")) + " of " + summary.planned();
        }
        if (summary.worst() == Verdict.ERROR) {
            return "the rig ended the run";
        }
        int passed = summary.count(Verdict.PASS);
        return passed == summary.planned() ? "all " + passed + " pass" : passed + " of " + summary.planned() + " pass";
    }
}
