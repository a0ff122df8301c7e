package snagbench.bench.script.read;

import snagbench.bench.script.yaml.Shown;

/** Reads whole numbers. */
final class WholeNumber {
    private WholeNumber() {}

    /** A number in a range; the least one where the text is none, which has been reported. */
    static int read(Part part, int least, int most, String what, Findings findings) {
        String digits = part.text();
        if (digits.matches("-?[0-9]{1,10}")) {
            long number = Long.parseLong(digits);
            if (number >= least && number <= most) {
                return (int) number;
            }
        }
        findings.error(
                part.at(),
                Shown.quoted(digits) + " is not " + what + " from " + least + " to " + most,
                "write a whole number in that range");
        return least;
    }
}
