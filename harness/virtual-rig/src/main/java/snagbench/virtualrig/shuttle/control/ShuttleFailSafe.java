package snagbench.virtualrig.shuttle.control;

/** One fail-safe: a symptom to look for. What is then done about it is the step machine's. */
interface ShuttleFailSafe {
    /** A fail-safe that was left out. */
    ShuttleFailSafe NONE = new ShuttleFailSafe() {
        @Override
        public boolean answers(Step step, int inStepMicros) {
            return false;
        }

        @Override
        public void restart() {
            // Nothing is remembered.
        }
    };

    /**
     * Looks for the symptom; called in every tick.
     *
     * @param step the sequence is in
     * @param inStepMicros for how long
     * @return true in the tick in which it answers, which it has then reported
     */
    boolean answers(Step step, int inStepMicros);

    /** Forgets what it saw: a run begins. */
    void restart();
}
