package snagbench.bench.report.sheet;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import snagbench.bench.run.RunRecord;

/** How long a browser takes to open the page of a long plan, and how large that page is. */
public final class PageBenchmark {
    private static final int SCRIPTS = 500;
    private static final int ROUNDS = 9;
    private static final double BYTES_PER_MEGABYTE = 1e6;
    private static final double NANOS_PER_MILLI = 1e6;

    private PageBenchmark() {}

    /**
     * Measures and prints a table.
     *
     * @param arguments none
     * @throws Exception if there is no browser, or it does not open the page
     */
    public static void main(String[] arguments) throws Exception {
        Path folder = Files.createTempDirectory("snagbench-page");
        List<String> rows = new ArrayList<>();
        try (Browser browser = Browser.start(folder.resolve("profile"))) {
            browser.size(1200, 900);
            rows.add(row(browser, folder, "that ran once", SheetRuns.many(SCRIPTS)));
            rows.add(row(browser, folder, "runs of one script", SheetRuns.repeated("script", SCRIPTS, 0)));
        } finally {
            remove(folder);
        }
        System.out.println("| " + SCRIPTS + " | page | made in | load event after | worst of " + ROUNDS
                + " | first contents after | worst |");
        System.out.println("| :-- | --: | --: | --: | --: | --: | --: |");
        rows.forEach(System.out::println);
    }

    private static String row(Browser browser, Path folder, String what, RunRecord run) throws Exception {
        long before = System.nanoTime();
        byte[] html = RunSheet.html(run, SheetRuns.sources("reach.position")).getBytes(StandardCharsets.UTF_8);
        double made = (System.nanoTime() - before) / NANOS_PER_MILLI;
        Path page = Files.write(folder.resolve("report.html"), html);
        List<Double> loaded = new ArrayList<>();
        List<Double> painted = new ArrayList<>();
        for (int i = 0; i < ROUNDS; i++) {
            browser.open(page);
            // The load event ends behind its own handlers, and a page may be painted only then.
            browser.promised("new Promise(done => requestAnimationFrame(() => setTimeout(() => done('')))) ");
            loaded.add(Double.valueOf(browser.value("performance.getEntriesByType('navigation')[0].loadEventEnd")));
            painted.add(Double.valueOf(
                    browser.value("performance.getEntriesByName('first-contentful-paint')[0].startTime")));
        }
        return String.format(
                Locale.ROOT,
                "| %s | %.2f MB | %.0f ms | %.0f ms | %.0f ms | %.0f ms | %.0f ms |",
                what,
                html.length / BYTES_PER_MEGABYTE,
                made,
                median(loaded),
                worst(loaded),
                median(painted),
                worst(painted));
    }

    private static double median(List<Double> times) {
        return times.stream().sorted().skip(times.size() / 2).findFirst().orElseThrow();
    }

    private static double worst(List<Double> times) {
        return times.stream().mapToDouble(Double::doubleValue).max().orElseThrow();
    }

    private static void remove(Path folder) throws Exception {
        List<Path> all;
        try (Stream<Path> found = Files.walk(folder)) {
            all = found.sorted(Comparator.reverseOrder()).toList();
        }
        for (Path one : all) {
            Files.deleteIfExists(one);
        }
    }
}
