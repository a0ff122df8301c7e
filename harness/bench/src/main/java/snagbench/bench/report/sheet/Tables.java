package snagbench.bench.report.sheet;

/** Tables that scroll by themselves where the window is narrow, with the keyboard too. */
final class Tables {
    private Tables() {}

    static void open(Markup out, String name, String... heads) {
        out.open("div", "class", "scroll", "role", "region", "tabindex", "0", "aria-label", name);
        out.open("table").open("thead").open("tr");
        for (String head : heads) {
            out.leaf("th", head, "scope", "col");
        }
        out.close().close().open("tbody");
    }

    static void close(Markup out) {
        out.close().close().closeLine();
    }

    /** A line of a list of terms that is open. */
    static void line(Markup out, String label, String text) {
        out.open("div").open("dt").name(label).close();
        out.open("dd").name(text).close().close();
    }
}
