package snagbench.bench.trace;

/** Texts in tables: a program that shows one must not take it for a formula. */
final class Cell {
    private static final String FORMULA_BEGINS = "=+-@\t\r\n";

    private Cell() {}

    /** A text that is no formula: one that looks like one gets an apostrophe in front. */
    static String of(String text) {
        return !text.isEmpty() && isSuspicious(text) ? "'" + text : text;
    }

    private static boolean isSuspicious(String text) {
        return FORMULA_BEGINS.indexOf(text.charAt(0)) >= 0 || (text.charAt(0) == '\'' && text.length() > 1);
    }

    /** The text again. */
    static String text(String cell) {
        String stripped = cell.strip();
        return stripped.length() > 1 && stripped.charAt(0) == '\'' && isSuspicious(stripped.substring(1))
                ? stripped.substring(1)
                : stripped;
    }
}
