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
     */
    record OfInjection(int index, String name) implements Anchor {
        @Override
        public String show() {
            return index == 0 && name.equals("injection 1") ? "the injection" : name;
        }
    }

    /**
     * The tick in which another expectation was met.
     *
     * @param index of the expectation in the script, from 0
     * @param name its name
     */
    record OfExpectation(int index, String name) implements Anchor {
        @Override
        public String show() {
            return "\"" + name + "\"";
        }
    }
}
