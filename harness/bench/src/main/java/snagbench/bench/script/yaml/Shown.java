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
        StringBuilder out = new StringBuilder("\"");
        int shown = 0;
        for (int i = 0; i < text.length(); i += Character.charCount(text.codePointAt(i))) {
            if (shown == LONGEST) {
                return out.append("...\"").toString();
            }
            int point = text.codePointAt(i);
            int type = Character.getType(point);
            boolean plain = !Character.isISOControl(point)
                    && type != Character.FORMAT
                    && type != Character.LINE_SEPARATOR
                    && type != Character.PARAGRAPH_SEPARATOR;
            out.appendCodePoint(plain ? point : ' ');
            shown++;
        }
        return out.append('"').toString();
    }
}
