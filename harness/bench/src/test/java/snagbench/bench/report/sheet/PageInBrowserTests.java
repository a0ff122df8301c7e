package snagbench.bench.report.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** The page in a real browser: nothing of anybody's executes, nothing is fetched, and it can be read and used. */
@Tag("browser")
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class PageInBrowserTests {
    @TempDir
    Path folder = Path.of("");

    private Browser browser;

    @BeforeAll
    void start(@TempDir Path profile) throws Exception {
        browser = Browser.start(profile);
    }

    @AfterAll
    void stop() throws Exception {
        browser.close();
    }

    private void open(String name) throws Exception {
        openText(RunSheet.html(SheetRuns.run(name), SheetRuns.sources(name)));
    }

    private void openText(String html) throws Exception {
        Path page = folder.resolve("report.html");
        Files.writeString(page, html, StandardCharsets.UTF_8);
        browser.look("", "light");
        browser.size(1200, 900);
        browser.open(page);
    }

    private void nothingWentWrong(String what) {
        List<JsonNode> bad = new ArrayList<>(browser.events("Runtime.exceptionThrown"));
        bad.addAll(browser.events("Log.entryAdded"));
        bad.addAll(browser.events("Runtime.consoleAPICalled"));
        bad.addAll(browser.events("Page.javascriptDialogOpening"));
        assertEquals(List.of(), bad, what);
        List<String> fetched = browser.events("Network.requestWillBeSent").stream()
                .map(one -> one.path("params").path("request").path("url").asString(""))
                .toList();
        assertEquals(List.of(folder.resolve("report.html").toUri().toString()), fetched, what);
    }

    /** Every text that could do harm, on one page: loading one for each would cost a minute. */
    @Test
    void whateverNamesAreNothingExecutesNothingIsFetchedAndNothingIsWiderThanTheWindow() throws Exception {
        for (String html :
                List.of(RunSheet.html(SheetRuns.medley(), SheetRuns.medleySources()), SheetRuns.medleyCheckSheet())) {
            openText(html);

            assertFalse(browser.value("document.title").equals("struck"));
            for (int width : new int[] {1200, 360}) {
                browser.size(width, 800);
                assertEquals(
                        browser.value("document.documentElement.clientWidth"),
                        browser.value("document.documentElement.scrollWidth"),
                        width + " wide");
            }
            nothingWentWrong(browser.value("document.title"));
        }
    }

    @Test
    void headingsLeadThroughThePage() throws Exception {
        open("arm blocked");

        assertEquals("1", browser.value("document.querySelectorAll('h1').length"));
        // Look here first, the plan, what was not run, five scripts, the one that varies something, fail-safes,
        // reserve, decision table.
        assertEquals("12", browser.value("document.querySelectorAll('h2').length"));
        assertEquals(
                "",
                browser.value("[...document.querySelectorAll('h1,h2,h3')].map(h => +h.tagName[1])"
                        + ".filter((level, i, all) => i > 0 && level > all[i - 1] + 1)"));
        assertEquals(
                "",
                browser.value("[...document.querySelectorAll('a')].map(a => a.getAttribute('href'))"
                        + ".filter(to => !document.querySelector(to))"));
    }

    @Test
    void nothingKeepsAnybodyFromReadingItByTheGuidelinesInLightDarkAndPrint() throws Exception {
        openText(RunSheet.html(SheetRuns.few("arm blocked"), SheetRuns.sources("arm blocked")));

        Accessibility.check(browser);
    }

    @Test
    void theCheckSheetCanBeReadByAnybody() throws Exception {
        openText(SheetRuns.checkSheet("arm blocked"));

        Accessibility.check(browser);
    }

    /** Whoever reads it stands at a machine, with the sheet on a clipboard. */
    @Test
    void theCheckSheetOfAMachineOfManyFailSafesIsTwoPagesOfPaperInLettersThatCanBeRead() throws Exception {
        openText(SheetRuns.usualCheckSheet(13));
        assertEquals(2, browser.pagesOfPaper());

        openText(SheetRuns.usualCheckSheet(60));
        assertTrue(browser.pagesOfPaper() > 2, "pages are counted");

        browser.look("print", "light");
        String least = browser.promised("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() =>"
                + " done(String(Math.min(...[...document.querySelectorAll('main *')]"
                + ".filter(one => [...one.childNodes].some(node => node.nodeType === 3 && node.data.trim()))"
                + ".map(one => parseFloat(getComputedStyle(one).fontSize))))))))");
        double points = Double.parseDouble(least) * 72 / 96;
        assertTrue(points > 8.49, "smallest letters: " + points + " pt");
    }

    @Test
    void inPrintNothingIsFoldedAway() throws Exception {
        open("arm blocked");
        String folded = "[...document.querySelectorAll('details > :not(summary)')].filter(one => one.checkVisibility("
                + "{contentVisibilityAuto: true}) && one.getBoundingClientRect().height > 0).length";
        assertEquals("0", browser.value(folded));
        int all = Integer.parseInt(browser.value("document.querySelectorAll('details > :not(summary)').length"));
        assertTrue(all > 5, "there is something folded: " + all);

        browser.look("print", "light");

        // Another medium shows with the next picture that the browser paints.
        assertEquals(
                Integer.toString(all),
                browser.promised("new Promise(done => requestAnimationFrame(() => requestAnimationFrame(() =>"
                        + " done(String(" + folded + ")))))"));
    }

    @Test
    void whereTheStyleCannotUnfoldForThePrinterTheProgramDoesAndFoldsAgain() throws Exception {
        open("arm blocked");
        String open = "document.querySelectorAll('details[open]').length";
        String print = "window.dispatchEvent(new Event('%s'))";
        browser.value("document.querySelector('details').open = true");

        browser.value(print.formatted("beforeprint"));
        assertEquals("1", browser.value(open), "this browser's style does it");

        browser.value("CSS.supports = () => false");
        browser.value(print.formatted("beforeprint"));
        assertEquals(browser.value("document.querySelectorAll('details').length"), browser.value(open));
        browser.value(print.formatted("afterprint"));
        assertEquals("1", browser.value(open), "what was open stays open");
    }

    @Test
    void theKeyboardWalksThroughAllThatCanBeUsedInThePagesOrderAndShowsWhereItIs() throws Exception {
        open("arm blocked");
        String reachable = "[...document.querySelectorAll('a,button,summary,[tabindex=\"0\"]')]"
                + ".filter(one => one.checkVisibility({contentVisibilityAuto: false}))";
        int count = Integer.parseInt(browser.value(reachable + ".length"));
        assertTrue(count > 30, "there is something to use: " + count);
        browser.value("window.all = " + reachable);
        for (int i = 0; i < count; i++) {
            browser.press("Tab");
            assertEquals(
                    Integer.toString(i),
                    browser.value("all.indexOf(document.activeElement)"),
                    browser.value("document.activeElement.outerHTML.slice(0, 120)"));
            assertEquals("solid", browser.value("getComputedStyle(document.activeElement).outlineStyle"));
            assertFalse(browser.value(
                            "(document.activeElement.getAttribute('aria-label') || document.activeElement.innerText)"
                                    + ".trim()")
                    .isEmpty());
        }
    }

    @Test
    void theKeyboardReachesTheListAndReadsValuesOffAChart() throws Exception {
        open("arm blocked");

        browser.press("Tab");
        assertEquals("#plan", browser.value("document.activeElement.getAttribute('href')"));
        browser.value("document.querySelector('figure.strips .scroll').focus()");
        for (int i = 0; i < 40; i++) {
            browser.press("ArrowRight");
        }
        String readout = browser.value("document.querySelector('figure.strips output').textContent");
        assertTrue(readout.matches("(?s)-?[0-9.]+ ms; .*arm blocked1 real about .*"), readout);
        nothingWentWrong("arm blocked");
    }

    @Test
    void lightDarkAndPrintDifferAndLettersStandOutFromThePaper() throws Exception {
        open("arm blocked");

        String light = browser.value("getComputedStyle(document.body).backgroundColor");
        browser.look("", "dark");
        String dark = browser.value("getComputedStyle(document.body).backgroundColor");
        browser.look("print", "dark");
        String print = browser.value("getComputedStyle(document.body).backgroundColor");
        assertEquals("rgb(251, 250, 246)", light);
        assertEquals("rgb(24, 27, 29)", dark);
        assertEquals("rgb(255, 255, 255)", print);
        assertEquals("none", browser.value("getComputedStyle(document.querySelector('.skip')).display"));
    }

    @Test
    void withoutScriptAllIsThere() throws Exception {
        browser.call("Emulation.setScriptExecutionDisabled", Browser.json().put("value", true));
        try {
            open("arm blocked");
            assertEquals("0", browser.value("document.querySelectorAll('output').length"), "no program ran");
            assertTrue(browser.value("document.querySelectorAll('figure.strips path.told').length > 0")
                    .equals("true"));
            assertEquals(
                    "true",
                    browser.value("[...document.querySelectorAll('h3')].some(one => one.checkVisibility()"
                            + " && one.textContent === 'Readings at the moments that matter')"));
        } finally {
            browser.call("Emulation.setScriptExecutionDisabled", Browser.json().put("value", false));
        }
    }
}
