package snagbench.bench.cli;

import snagbench.bench.report.PlainText;

/** One line on a terminal that is written over and over, and taken away before anything else is shown. */
final class LiveLine {
    private static final long BETWEEN_MILLIS = 100;

    private final Surroundings to;
    private long shownMillis;
    private boolean shown;

    LiveLine(Surroundings to) {
        this.to = to;
    }

    /** Whether it is time to write it again: where nobody looks on, never. */
    boolean isDue() {
        if (!to.looks().progress()) {
            return false;
        }
        long now = to.clock().millis();
        if (now - shownMillis < BETWEEN_MILLIS) {
            return false;
        }
        shownMillis = now;
        return true;
    }

    /** Writes it, cut to what the terminal is wide. */
    void show(String text) {
        if (!to.looks().progress()) {
            return;
        }
        int width = to.looks().columns();
        String plain = PlainText.of(text).replace('\n', ' ').replace('\t', ' ');
        String line = plain.length() > width ? plain.substring(0, width) : plain + " ".repeat(width - plain.length());
        to.err().print("\r" + line);
        to.err().flush();
        shown = true;
    }

    /** Takes it away, so that something else can stand there. */
    void erase() {
        if (shown) {
            to.err().print("\r" + " ".repeat(to.looks().columns()) + "\r");
            to.err().flush();
            shown = false;
        }
    }
}
