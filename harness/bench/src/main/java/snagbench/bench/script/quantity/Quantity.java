package snagbench.bench.script.quantity;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A figure with a unit, as somebody wrote it.
 *
 * @param number exact
 * @param unit the symbol as written; empty for none
 */
public record Quantity(BigDecimal number, String unit) {
    /** Digits enough for any value in whole steps; more would only cost time. */
    private static final int MOST_DIGITS = 40;

    private static final Pattern FORM =
            Pattern.compile("([+-]?)([0-9]{1,40}(?:\\.[0-9]{1,40})?|\\.[0-9]{1,40})\\s*([^\\s0-9.,+-](?:\\S*)|)");

    /**
     * Reads a figure and a unit, with or without space between them.
     *
     * @param text such as "180 mm", "-0.25A" or "3"
     * @return the quantity; empty if it is none. Exponents and decimal commas are not taken.
     */
    public static Optional<Quantity> parse(String text) {
        if (text.length() > 4 * MOST_DIGITS) {
            return Optional.empty();
        }
        Matcher matcher = FORM.matcher(text.strip());
        if (!matcher.matches()) {
            return Optional.empty();
        }
        return Optional.of(new Quantity(new BigDecimal(matcher.group(1) + matcher.group(2)), matcher.group(3)));
    }

    /** Figure and unit, with a space between them. */
    @Override
    public String toString() {
        return unit.isEmpty() ? number.toPlainString() : number.toPlainString() + " " + unit;
    }
}
