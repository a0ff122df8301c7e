package snagbench.bench.run;

import java.util.Optional;
import snagbench.bench.judge.Verdict;

/**
 * What a control run says of its script.
 *
 * @param control what was run
 * @param index the control run's own index in the journal
 * @param state whether it bears the script's pass out
 * @param verdict what the control run itself came to, by its own expectations
 * @param sentence what is to be said of it
 * @param trace file of its trace, from the journal's folder on; empty where there is none
 */
public record ControlCheck(
        Control control, int index, State state, Verdict verdict, String sentence, Optional<String> trace) {
    /** Whether a control run bears its script's pass out. */
    public enum State {
        /** It does. */
        HOLDS("holds", "hold"),
        /** It speaks against it: the script proves nothing. */
        FALLS_SHORT("falls short", "fall short"),
        /** It was run and settles nothing. */
        UNSETTLED("unsettled", "unsettled"),
        /** It cannot be run on this rig, or was not asked for there; the reason says so. */
        NOT_POSSIBLE("not possible", "not possible");

        private final String word;
        private final String many;

        State(String word, String many) {
            this.word = word;
            this.many = many;
        }

        /**
         * As people read it.
         *
         * @return such as "falls short"
         */
        public String word() {
            return word;
        }

        /**
         * As people read it, of several.
         *
         * @return such as "fall short"
         */
        public String wordOfMany() {
            return many;
        }
    }

    /**
     * Tells whether a pass cannot stand beside it.
     *
     * @return true if it falls short or is unsettled
     */
    public boolean takesThePass() {
        return state == State.FALLS_SHORT || state == State.UNSETTLED;
    }
}
