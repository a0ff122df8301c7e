package snagbench.bench.cli;

import java.util.Map;

/**
 * How much the places that the command line writes to can show, and whether the user wants it.
 *
 * @param colours whether results may be coloured
 * @param progress whether one line may be written over and over to tell how far a run is
 * @param columns how wide that line may be, from 1
 */
record Looks(boolean colours, boolean progress, int columns) {
    private static final int USUAL_COLUMNS = 100;

    /** For a file or another program: neither. */
    static Looks plain() {
        return new Looks(false, false, USUAL_COLUMNS);
    }

    /**
     * What a terminal can and the user wants. {@code NO_COLOR}, set to anything, takes the colours away; {@code TERM=dumb}, which
     * cannot show either, and {@code CI}, where nobody looks on, take away both.
     *
     * @param environment the process's
     * @param results whether results go to a terminal
     * @param problems whether problems and progress do
     * @param columns its width; 0 where it is not known
     */
    static Looks of(Map<String, String> environment, boolean results, boolean problems, int columns) {
        boolean able = !"dumb".equals(environment.get("TERM")) && !isSet(environment, "CI");
        // A line as wide as the terminal may make it scroll.
        int most = columns > 1 ? Math.min(columns - 1, USUAL_COLUMNS) : USUAL_COLUMNS;
        return new Looks(results && able && !isSet(environment, "NO_COLOR"), problems && able, most);
    }

    private static boolean isSet(Map<String, String> environment, String name) {
        return !environment.getOrDefault(name, "").isEmpty();
    }
}
