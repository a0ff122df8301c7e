package snagbench.bench.judge;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Stretch;
import snagbench.wire.EntryEnd;
import snagbench.wire.ResetCause;

/** Times and windows as people read them. */
final class Words {
    private static final long FINE_BELOW_MICROS = 1000;

    private Words() {}

    /** An exact duration, such as "250 ms". */
    static String duration(long micros) {
        BigDecimal millis = BigDecimal.valueOf(micros, 3).stripTrailingZeros();
        return millis.setScale(Math.max(0, millis.scale()), RoundingMode.UNNECESSARY)
                        .toPlainString() + " ms";
    }

    /** A measured span, such as "62.4 ms"; finer where it is short. */
    static String span(long micros) {
        if (Math.abs(micros) < FINE_BELOW_MICROS) {
            return duration(micros);
        }
        return BigDecimal.valueOf(micros, 3).setScale(1, RoundingMode.HALF_EVEN).toPlainString() + " ms";
    }

    /** A moment against what it is counted from, such as "+250.1 ms". */
    static String at(long micros) {
        return (micros < 0 ? "" : "+") + span(micros);
    }

    static String window(Expectation.Window window, Anchor after) {
        if (window.leastMicros() > 0) {
            return duration(window.leastMicros()) + " to " + duration(window.mostMicros()) + " after " + after.show();
        }
        return "within " + duration(window.mostMicros()) + " of " + after.show();
    }

    /** Which ticks are meant, to be put behind what is meant of them. */
    static String stretch(Stretch stretch) {
        String from = stretch.from().show();
        if (stretch.window().isPresent()) {
            return ", " + window(stretch.window().get(), stretch.from());
        }
        return stretch.to().isPresent()
                ? ", from " + from + " up to " + stretch.to().get().show()
                : ", from " + from + " on";
    }

    static String ticks(int first, int last) {
        return first == last ? "tick " + first : "ticks " + first + " to " + last;
    }

    static String end(EntryEnd end) {
        return switch (end) {
            case LASTED -> "by its own clock";
            case UNTIL -> "as it was asked to";
            case WHILE -> "because what it was to last for no longer held";
            case RELEASED -> "by being released";
        };
    }

    static String cause(ResetCause cause) {
        return switch (cause) {
            case UNKNOWN -> "it cannot tell why";
            case POWER_ON -> "power was switched on";
            case EXTERNAL -> "reset from outside";
            case BROWN_OUT -> "brown-out";
            case WATCHDOG -> "watchdog";
            case SOFTWARE -> "by its own software";
        };
    }

    /** Such as "2nd". */
    static String ordinal(int number) {
        int tens = number % 100;
        String ending = tens > 10 && tens < 14
                ? "th"
                : switch (number % 10) {
                    case 1 -> "st";
                    case 2 -> "nd";
                    case 3 -> "rd";
                    default -> "th";
                };
        return number + ending;
    }

    static String listed(List<String> parts) {
        int last = parts.size() - 1;
        return last < 1
                ? String.join("", parts)
                : String.join(", ", parts.subList(0, last)) + " and " + parts.get(last);
    }
}
