package snagbench.bench.report;

import java.util.Locale;

/** Texts of other people as they can be shown anywhere: what does not show, or turns what stands around it, is named. */
public final class PlainText {
    private static final int CONTROL_PICTURES = 0x2400;

    private PlainText() {}

    /**
     * Makes a text harmless to look at. Escaping for the format it goes into comes on top.
     *
     * @param text whatever somebody wrote
     * @return the same letters; controls but line ends and tabs as their pictures, letters that change the direction of writing and
     *     halves of letters as their numbers
     */
    public static String of(String text) {
        if (text.chars().noneMatch(PlainText::isSuspicious)) {
            return text;
        }
        StringBuilder plain = new StringBuilder(text.length());
        text.codePoints().forEach(letter -> append(plain, letter));
        return plain.toString();
    }

    /**
     * As {@link #of}, on one line and no longer than that.
     *
     * @param text whatever somebody wrote
     * @param most how many letters at most, from 1
     * @return with an ellipsis where it was cut
     */
    public static String brief(String text, int most) {
        String line = of(text).replaceAll("\\s+", " ").strip();
        if (line.codePointCount(0, line.length()) <= most) {
            return line;
        }
        return line.substring(0, line.offsetByCodePoints(0, most - 1)) + "\u2026";
    }

    private static void append(StringBuilder plain, int letter) {
        if (letter == '\n' || letter == '\t' || (!isSuspicious(letter) && !isHalf(letter))) {
            plain.appendCodePoint(letter);
        } else if (letter < ' ') {
            plain.appendCodePoint(CONTROL_PICTURES + letter);
        } else {
            plain.append(String.format(Locale.ROOT, "[U+%04X]", letter));
        }
    }

    private static boolean isHalf(int letter) {
        return letter >= Character.MIN_SURROGATE && letter <= Character.MAX_SURROGATE;
    }

    /** Surrogates are looked at closer by whoever goes through the whole letters. */
    private static boolean isSuspicious(int unit) {
        if (unit < ' ') {
            return unit != '\n' && unit != '\t';
        }
        boolean control = unit >= 0x7F && unit <= 0x9F;
        boolean turns = unit == 0x061C
                || unit == 0x200E
                || unit == 0x200F
                || (unit >= 0x2028 && unit <= 0x202E)
                || (unit >= 0x2066 && unit <= 0x2069);
        boolean noLetter = unit == 0xFEFF || (unit >= 0xFFF9 && unit <= 0xFFFB) || unit == 0xFFFE || unit == 0xFFFF;
        return control || turns || noLetter || isHalf(unit);
    }
}
