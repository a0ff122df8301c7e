package snagbench.bench.run;

import java.util.Optional;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;

/** What the verdict of a control run says of the script that it controls. */
public final class ControlVerdicts {
    private ControlVerdicts() {}

    /**
     * What a control run says.
     *
     * @param result of a control run
     * @return whether it bears its script's pass out, and a sentence
     */
    public static ControlCheck check(ScriptResult result) {
        Control control = result.control().orElseThrow();
        ControlCheck.State state = state(control.role(), result.judgement());
        return new ControlCheck(
                control,
                result.index(),
                state,
                result.judgement().verdict(),
                sentence(control, state, result.judgement()),
                result.trace());
    }

    private static ControlCheck.State state(Role role, Judgement judgement) {
        Verdict verdict = judgement.verdict();
        if (verdict == Verdict.NONE) {
            return ControlCheck.State.NOT_POSSIBLE;
        }
        if (role == Role.INHIBITED) {
            return switch (verdict) {
                case PASS -> ControlCheck.State.FALLS_SHORT;
                case FAIL -> ControlCheck.State.HOLDS;
                default -> ControlCheck.State.UNSETTLED;
            };
        }
        return switch (verdict) {
            case PASS -> ControlCheck.State.HOLDS;
            case FAIL -> ControlCheck.State.FALLS_SHORT;
            default -> ControlCheck.State.UNSETTLED;
        };
    }

    private static String sentence(Control control, ControlCheck.State state, Judgement judgement) {
        String why = Optional.of(String.join("; ", judgement.reasons()))
                .filter(text -> !text.isEmpty())
                .map(text -> ": " + text)
                .orElse("");
        return switch (state) {
            case NOT_POSSIBLE -> control.words() + " not possible" + why;
            case UNSETTLED ->
                control.words() + " settles nothing, it came to "
                        + judgement.verdict().word() + why;
            case HOLDS ->
                switch (control.role()) {
                    case NO_FAULT -> "stays quiet without the fault";
                    case INHIBITED -> "does not pass with " + control.change();
                    default -> "answers in its twin over the limit";
                };
            case FALLS_SHORT ->
                switch (control.role()) {
                    case NO_FAULT -> "answers without the fault too" + why;
                    case INHIBITED -> "passes with " + control.change() + ": it proves nothing";
                    default -> "does not answer in its twin over the limit either: it proves nothing" + why;
                };
        };
    }
}
