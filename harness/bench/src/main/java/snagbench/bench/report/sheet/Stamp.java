package snagbench.bench.report.sheet;

import snagbench.bench.judge.Verdict;

/** A verdict as it is stamped on the sheet: its word and its sign, and only then its colour. */
final class Stamp {
    private Stamp() {}

    static void put(Markup out, Verdict verdict) {
        out.open("span", "class", "stamp " + verdict.word());
        out.leaf("span", sign(verdict), "aria-hidden", "true");
        out.text(" " + verdict.word()).close();
    }

    private static String sign(Verdict verdict) {
        return switch (verdict) {
            case NONE -> "\u2013";
            case PASS -> "\u2713";
            case INCONCLUSIVE -> "?";
            case FAIL -> "\u2715";
            case ERROR -> "!";
        };
    }
}
