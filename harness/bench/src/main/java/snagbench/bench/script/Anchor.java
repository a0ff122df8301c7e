package snagbench.bench.script;

/** What a time is counted from. */
public sealed interface Anchor {
    /**
     * As people read it.
     *
     * @return words
     */
    String show();

    /** The end of the script's beginning; arming, where there is none. */
    record OfBegin() implements Anchor {
        @Override
        public String show() {
            return "the beginning";
        }
    }

    /**
     * The first tick of an injection.
     *
     * @param index of the injection in the script, from 0
     * @param name its name
     * @param time which of its strikes, from 1
     */
    record OfInjection(int index, String name, int time) implements Anchor {
        /**
         * The first strike.
         *
         * @param index of the injection in the script, from 0
         * @param name its name
         */
        public OfInjection(int index, String name) {
            this(index, name, 1);
        }

        @Override
        public String show() {
            String plain = index == 0 && name.equals("injection 1") ? "the injection" : name;
            return time == 1 ? plain : plain + ", time " + time;
        }
    }

    /**
     * The tick in which another expectation was met.
     *
     * @param index of the expectation in the script, from 0
     * @param name its name
     * @param time 1 for the tick in which it was met; n for the n-th time from its own anchor on that what it waits for
     *     came about
     */
    record OfExpectation(int index, String name, int time) implements Anchor {
        /**
         * The tick in which it was met.
         *
         * @param index of the expectation in the script, from 0
         * @param name its name
         */
        public OfExpectation(int index, String name) {
            this(index, name, 1);
        }

        @Override
        public String show() {
            return "\"" + name + "\"" + (time == 1 ? "" : ", time " + time);
        }
    }
}
