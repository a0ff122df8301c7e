package snagbench.bench.trace;

/**
 * What a trace is of. Nothing here differs between two runs of the same seed.
 *
 * @param origin how it came about
 * @param script name of the armed script; empty where none was
 * @param seed with which it was armed
 * @param program digest of the program as the rig held it; 0 where none was armed
 * @param build name of the control code's build, as the rig told it; may be empty
 */
public record TraceHeader(Origin origin, String script, int seed, int program, String build) {
    /** How a trace came about. */
    public enum Origin {
        /** A script was run. */
        RUN(0, "run"),
        /** A rig was listened to, without a fault. */
        RECORD(1, "record"),
        /** It was made of a table from elsewhere. */
        IMPORT(2, "import");

        private final int code;
        private final String word;

        Origin(int code, String word) {
            this.code = code;
            this.word = word;
        }

        int code() {
            return code;
        }

        /**
         * As people read it.
         *
         * @return one word
         */
        public String word() {
            return word;
        }

        static Origin of(int code) {
            for (Origin one : values()) {
                if (one.code == code) {
                    return one;
                }
            }
            return IMPORT;
        }
    }
}
