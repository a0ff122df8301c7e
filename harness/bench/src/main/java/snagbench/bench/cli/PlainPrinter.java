package snagbench.bench.cli;

import java.io.PrintWriter;
import org.jspecify.annotations.Nullable;
import snagbench.bench.report.PlainText;

/**
 * Shows lines with names from files and rigs in them: what of a line would move the cursor, colour or turn what stands around it
 * is shown as what it is. What is printed without an end of line ({@code print}) goes out as it is.
 */
final class PlainPrinter extends PrintWriter {
    private PlainPrinter(PrintWriter to) {
        super(to, true);
    }

    /** Around another, to which each line goes at once. */
    static PlainPrinter around(PrintWriter to) {
        return to instanceof PlainPrinter plain ? plain : new PlainPrinter(to);
    }

    @Override
    public void println(@Nullable String line) {
        super.println(PlainText.of(String.valueOf(line)));
    }
}
