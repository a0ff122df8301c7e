package snagbench.bench.cli;

import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Colours the words for verdicts in lines of results (ECMA-48, "select graphic rendition"). Nothing is told by colour alone:
 * without it the lines are the same.
 */
final class Paint {
    private static final String WORDS = "(pass|fail|inconclusive|error|none|not run|warning)";
    private static final Pattern AT_THE_BEGINNING = Pattern.compile("(?<=^ {0,8})" + WORDS + "(?=[ :])");
    private static final Pattern COUNTED = Pattern.compile("(?<=[:,] )\\d+ " + WORDS + "(?=[,;]|$)");
    private static final String SUM = "^\\d+ scripts?: .*";

    /** Bright where it must not be overlooked. */
    private static final Map<String, String> CODES = Map.of(
            "pass", "32",
            "fail", "1;31",
            "error", "1;35",
            "inconclusive", "1;33",
            "none", "36",
            "not run", "36",
            "warning", "33");

    private final boolean on;

    Paint(boolean on) {
        this.on = on;
    }

    /** A line of results. */
    String line(String plain) {
        if (!on) {
            return plain;
        }
        return plain.matches(SUM) ? coloured(plain, COUNTED) : coloured(plain, AT_THE_BEGINNING);
    }

    private static String coloured(String plain, Pattern what) {
        return what.matcher(plain)
                .replaceAll(found -> Matcher.quoteReplacement(
                        "\u001b[" + CODES.get(found.group(1)) + "m" + found.group() + "\u001b[0m"));
    }
}
