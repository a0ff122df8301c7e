package snagbench.bench.script.yaml;

/** Texts from a file as they may stand in a message: short, and without characters that move a terminal's cursor. */
public final class Shown {
    private static final int LONGEST = 60;

    private Shown() {}

    /**
     * A text in double quotes.
     *
     * @param text anything
     * @return at most some 60 characters of it, on one line
     */
    public static String quoted(String text) {
        boolean whole = text.codePointCount(0, text.length()) <= LONGEST;
        String shown = whole ? text : text.substring(0, text.offsetByCodePoints(0, LONGEST));
        return "\"" + clean(shown) + (whole ? "\"" : "...\"");
    }

    /**
     * A text with a space in place of each character that would not show as itself.
     *
     * @param text anything
     * @return as many characters, on one line
     */
    public static String clean(String text) {
        StringBuilder out = new StringBuilder(text.length());
        text.codePoints().forEach(point -> out.appendCodePoint(isPlain(point) ? point : ' '));
        return out.toString();
    }

    private static boolean isPlain(int point) {
        int type = Character.getType(point);
        return !Character.isISOControl(point)
                && type != Character.FORMAT
                && type != Character.SURROGATE
                && type != Character.LINE_SEPARATOR
                && type != Character.PARAGRAPH_SEPARATOR;
    }
}
