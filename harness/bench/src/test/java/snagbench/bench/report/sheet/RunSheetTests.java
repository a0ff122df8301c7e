package snagbench.bench.report.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import snagbench.bench.report.MarkdownSummary;
import snagbench.bench.report.PlainText;
import snagbench.bench.run.RunRecord;
import snagbench.bench.trace.Trace;

/** The page of a run: what is on it, and that nobody's names can be more than names. */
class RunSheetTests {
    /** Our markup closes all that it opens, so that an XML parser, which knows nothing of us, can read it too. */
    private static Document parsed(String html) throws Exception {
        String xml = html.replaceFirst("<!DOCTYPE html>", "")
                .replace(Asset.named("sheet.css").text(), "")
                .replace(Asset.named("check.css").text(), "")
                .replace(Asset.named("sheet.js").text(), "");
        return DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new InputSource(new StringReader(xml)));
    }

    /** How many elements of each name with which attributes. */
    private static Map<String, Integer> shape(Node node) {
        Map<String, Integer> shape = new TreeMap<>();
        count(node, shape);
        return shape;
    }

    private static void count(Node node, Map<String, Integer> shape) {
        if (node instanceof Element element) {
            List<String> attributes = new ArrayList<>();
            for (int i = 0; i < element.getAttributes().getLength(); i++) {
                attributes.add(element.getAttributes().item(i).getNodeName());
            }
            shape.merge(element.getTagName() + attributes, 1, Integer::sum);
        }
        for (Node child = node.getFirstChild(); child != null; child = child.getNextSibling()) {
            count(child, shape);
        }
    }

    private static String page(String text) {
        return RunSheet.html(SheetRuns.run(text), SheetRuns.sources(text));
    }

    @Test
    void whateverNamesAreThePageHasTheSameElementsAndSaysTheNames() throws Exception {
        Map<String, Integer> plain = shape(parsed(page("plain")));
        assertEquals(1, plain.get("script[]"));
        for (String hostile : SheetRuns.HOSTILE) {
            if (hostile.isBlank()) {
                continue;
            }
            Document page = parsed(page(hostile));
            Map<String, Integer> shape = shape(page);
            // A name may find no room in a chart's band; all else is the same.
            List.of(plain, shape).forEach(one -> one.keySet().removeIf(key -> key.startsWith("text[")));
            assertEquals(plain, shape, PlainText.brief(hostile, 60));
            assertTrue(
                    page.getDocumentElement().getTextContent().contains(PlainText.of(hostile)),
                    PlainText.brief(hostile, 60));
        }
    }

    @Test
    void aPageWithEmptyNamesIsWholeToo() throws Exception {
        assertEquals("html", parsed(page("")).getDocumentElement().getTagName());
        assertEquals("html", parsed(page(" ")).getDocumentElement().getTagName());
    }

    @Test
    void thePageAsksForNothingElseAndAllowsNoProgramButItsOwn() {
        String page = page("plain");

        assertFalse(page.contains(" src="), "something is fetched");
        assertFalse(page.matches("(?s).*href=\"[^#].*"), "something leads out of the page");
        assertTrue(page.contains("default-src &#39;none&#39;"));
        assertTrue(page.contains(Asset.named("sheet.js").hash().replace("'", "&#39;")));
    }

    @Test
    void aSheetAnswersWhatAPersonWithAScrewdriverAsks() throws Exception {
        String text = parsed(page("arm ")).getDocumentElement().getTextContent();

        // Which plug, what did it read, what did the code believe, when did it act, how close was it.
        assertTrue(text.contains("told 50.0 arm , real 70.0 arm "), "reading at the report");
        assertTrue(text.contains("arm 2 at 300.0 ms after arming, report no. 1 of it"));
        assertTrue(
                text.contains("from 200.0 ms after arming for 200.0 ms; ended: what it was to last until came about"));
        assertTrue(text.contains("+50.0 ms"));
        assertTrue(text.contains("median 5.0 ms, longest 5.2 ms, with records on"));
        assertTrue(text.contains("Overridden here"));
        assertTrue(
                text.contains("When did it act" + "not arm  but arm 2 reported 100.0 ms after the fault began"), text);
        assertTrue(text.contains("How close was it" + "the tightest limit was missed by 50.0 ms"), text);
    }

    @Test
    void whatTheRegisterSaysIsOnThePageWithWhatProvesItAndWhatTheReserveBears() throws Exception {
        String text = parsed(page("arm ")).getDocumentElement().getTextContent();

        assertTrue(text.contains("Fail-safes without a script: arm 2"), text);
        assertTrue(text.contains("Scripts without a fail-safe: arm "), text);
        assertTrue(text.contains("The run has 5.0 s in reserve."), text);
        assertTrue(text.contains("\u2715 6.0 s"), "twice the dearest is too much");
        assertTrue(text.contains("\u2713 3.2 s"), "the dearest and the cheapest fit");
        assertTrue(text.contains("Looks at arm 1arm "), text);
        assertTrue(text.contains("tried on what fail-safes look at, step by step: 1 of 3"), text);
    }

    @Test
    void theFirstThatFailedIsNamedAtTheTop() throws Exception {
        String page = page("plain");
        int first = page.indexOf("Look here first");

        assertTrue(first > 0 && first < page.indexOf(">The plan at a glance</h2>"));
        assertEquals(page.indexOf("href=\"#s4\"", first), page.indexOf("href=\"#s", first));
    }

    /** Of a file that varies something only the worst case has a sheet; the first that failed is another one here. */
    @Test
    void ofAFileThatVariesTheWorstCaseIsNamedAtTheTopAndInTheSummary() throws Exception {
        RunRecord run = SheetRuns.varied(50_000, -10_000, -40_000);

        String page = RunSheet.html(run, Sources.none());
        int first = page.indexOf("Look here first");

        assertEquals(page.indexOf("href=\"#s3\"", first), page.indexOf("href=\"#s", first));
        assertTrue(
                page.substring(first, page.indexOf("The plan at a glance", first))
                        .contains("setting 3"),
                page);
        everyLinkLeadsSomewhere("varied", page);
        String summary = MarkdownSummary.text(run);
        assertTrue(summary.contains("First: **varied, setting 3**: fail"), summary);
    }

    @Test
    void everyLinkOnAPageLeadsSomewhere() throws Exception {
        everyLinkLeadsSomewhere("all", page("plain"));
        everyLinkLeadsSomewhere("without files", RunSheet.html(SheetRuns.run("plain"), Sources.none()));
        everyLinkLeadsSomewhere("controls", RunSheet.html(SheetRuns.withControls(), SheetRuns.sources("plain")));
        everyLinkLeadsSomewhere("repeats", RunSheet.html(SheetRuns.repeated("plain", 12, 1), Sources.none()));
        everyLinkLeadsSomewhere("medley", RunSheet.html(SheetRuns.medley(), SheetRuns.medleySources()));
        everyLinkLeadsSomewhere("check sheet", SheetRuns.checkSheet("plain"));
    }

    private static void everyLinkLeadsSomewhere(String what, String html) throws Exception {
        NodeList all = parsed(html).getElementsByTagName("*");
        Set<String> ids = new HashSet<>();
        Set<String> links = new TreeSet<>();
        for (int i = 0; i < all.getLength(); i++) {
            Element element = (Element) all.item(i);
            if (element.hasAttribute("id")) {
                assertTrue(ids.add(element.getAttribute("id")), what + " has twice " + element.getAttribute("id"));
            }
            for (String kind : List.of("href", "aria-labelledby", "aria-describedby")) {
                if (element.hasAttribute(kind)) {
                    links.add(element.getAttribute(kind).replaceFirst("^#", ""));
                }
            }
        }
        assertFalse(links.isEmpty(), what);
        links.removeAll(ids);
        assertEquals(Set.of(), links, what);
    }

    @Test
    void whatWasSeenBehindARestartHasADrawingOfItsOwn() throws Exception {
        String text = parsed(RunSheet.html(SheetRuns.few("plain"), SheetRuns.restartedSources("plain")))
                .getDocumentElement()
                .getTextContent();

        assertTrue(
                text.contains("Behind the restart" + "The controller restarted (brown out), no later than 900.0 ms"),
                text);
        assertTrue(text.contains("0 ms is the start of the new boot, by its own clock."));
        assertTrue(text.contains("Fail-safe reports behind the restart" + "FS-01 at 35.0 ms after the new boot"), text);
    }

    @Test
    void controlRunsAreShownWithWhatTheySayAndAPassThatTheyDoNotBearOutIsNone() throws Exception {
        String text = parsed(RunSheet.html(SheetRuns.withControls().concluded(), Sources.none()))
                .getDocumentElement()
                .getTextContent();

        assertTrue(text.contains("control runs: 1 falls short"), text);
        assertTrue(text.contains("What the plan notices" + "1 control run: 1 falls short"), text);
        assertTrue(text.contains("? inconclusive"), text);
        assertTrue(text.contains("no-fault run, without its fault" + "falls short"), text);
    }

    @Test
    void repeatsAreShownTogetherWithWhatTheyShowAndWhatCameOfTheClaim() throws Exception {
        String text = parsed(RunSheet.html(SheetRuns.repeated("arm", 22, 0), Sources.none()))
                .getDocumentElement()
                .getTextContent();

        // Beta and binomial distributions give the figures: 0.1^(1/22) = 0.90063, 1 - 0.9^22 = 0.9015.
        assertTrue(
                text.contains("arm22 of 22at least 90.0 % would pass, at 90 % confidence\u2713 met90 % at 90 %"
                        + " confidencemedian 110.5 msworst 121.0 msat least 90 % take no longer than 121.0 ms, at 90.1 %"
                        + " confidencemedian 160.5 msworst 171.0 ms"),
                text);
        assertTrue(text.contains("arm: nothing was varied: seeds vary virtual rigs only"), text);
        assertTrue(
                text.contains("arm: recovery takes longer in the later repeats (by chance less than 1 in 1000)"), text);
        assertTrue(text.contains("arm: a real rig ran again with no rest"), text);
        assertEquals(
                22 + 1,
                text.split("all its runs: 22 of 22 passed; claim met; they may not be independent", -1).length - 1,
                "in the list once, and on the sheet of each run");
        assertFalse(text.contains("inconsistent"), text);
    }

    @Test
    void aClaimThatIsNotMetAndAScriptThatBothPassedAndFailedAreMarked() throws Exception {
        String text = parsed(RunSheet.html(SheetRuns.repeated("arm", 10, 4), Sources.none()))
                .getDocumentElement()
                .getTextContent();

        assertTrue(text.contains("arm6 of 10 inconsistent: it both passed and failed"), text);
        assertTrue(text.contains("\u2715 not met90 % at 90 % confidence"), text);
        assertTrue(text.contains("the result hangs on the order: what did not pass stands rather at the end"), text);
    }

    @Test
    void aClaimThatCannotBeMetAnyMoreIsToldFromOneThatWasNotMet() throws Exception {
        RunRecord all = SheetRuns.repeated("arm", 22, 20);
        RunRecord some = new RunRecord(all.header(), all.results().subList(0, 5), all.end());
        String text =
                parsed(RunSheet.html(some, Sources.none())).getDocumentElement().getTextContent();

        assertTrue(text.contains("arm2 of 5 (22 were planned)"), text);
        assertTrue(text.contains("\u2715 out of reach90 % at 90 % confidence"), text);
    }

    @Test
    void hostileNamesOfRepeatedScriptsAreNamesOnly() throws Exception {
        Map<String, Integer> plain = shape(parsed(RunSheet.html(SheetRuns.repeated("plain", 12, 1), Sources.none())));
        for (String hostile : SheetRuns.HOSTILE) {
            Document page = parsed(RunSheet.html(SheetRuns.repeated(hostile, 12, 1), Sources.none()));
            assertEquals(plain, shape(page), PlainText.brief(hostile, 60));
        }
    }

    @Test
    void theDecisionTableIsOnThePageWithWhatTheTracesSayOfIt() throws Exception {
        String text = parsed(page("arm")).getDocumentElement().getTextContent();

        assertTrue(text.contains("The register does not say which of the two answers: 1 of 2."), text);
        assertTrue(
                text.contains("arm and arm3not decidedarm, armarm arm the first of 2 regionsarm arm\n"),
                "what two claim, and where");
        assertTrue(text.contains("Decided by the register's order: 1"), text);
        assertTrue(text.contains("arm and arm2armarm, armarm armarm arm\n"), text);
        assertTrue(text.contains(
                "arm and arm2arm3arm, armarm arm the first of 2 regionsarm armnot met in these traces\n"));
        assertTrue(text.contains("arm and arm2the steparmarm armarm armmet in 2 ticks, first: arm\n"), text);
        assertTrue(
                text.contains("Nominal runs go through these too, so they are as it should be: arm, but for arm4."),
                text);
        assertTrue(text.contains("Laid against 7 traces"), text);
        // Answers, without, beside; symptoms, answered, another, none, open.
        assertTrue(text.contains("arm" + "913" + "84211" + "\n"), text);
        assertTrue(
                text.contains("armdid not answer, though its symptom was there for its timearm300.0 ms after arming"));
        assertTrue(text.contains("armanswered, though arm2 stands before it in the orderarm300.0 ms after arming"));
        assertTrue(text.contains("AnsweredHad a symptom tooTimesarmarm2, arm36\n"), text);
    }

    @Test
    void whereNobodyAskedForADecisionTableThePageSaysHowToMakeIt() throws Exception {
        Sources all = SheetRuns.sources("arm");
        Sources without = new Sources(all.traces(), all.scripts(), all.wiring(), all.register(), Optional.empty());
        String text = parsed(RunSheet.html(SheetRuns.run("arm"), without))
                .getDocumentElement()
                .getTextContent();

        assertTrue(
                text.contains("snagbench report RUN --decision-table lays the register's symptoms side by side"), text);
        assertFalse(text.contains("Claimed by two"), text);
        assertFalse(
                RunSheet.html(SheetRuns.run("arm"), Sources.none()).contains("--decision-table"),
                "a rig without a register has none");
    }

    @Test
    void sameRunSamePage() {
        assertEquals(page("plain"), page("plain"));
    }

    @Test
    void withoutTracesAndFilesThePageStillSaysWhatTheJournalSays() throws Exception {
        RunRecord run = SheetRuns.run("plain");
        String text =
                parsed(RunSheet.html(run, Sources.none())).getDocumentElement().getTextContent();

        assertFalse(text.contains("What was seen"));
        assertTrue(text.contains("What was asked for, one by one"));
    }

    @Test
    void fiveHundredScriptsAreBelowTenMegabytes() {
        int characters = RunSheet.html(SheetRuns.many(500), SheetRuns.sources("reach.position"))
                .length();

        assertTrue(characters < 10_000_000, characters + " characters");
        assertTrue(characters > 500 * 2000, "the charts are there");
    }

    @Test
    void aPeakOfOneTickIsDrawnHoweverCoarseTheDrawing() {
        Trace trace = SheetRuns.synthetic().trace();
        Stretch whole = new Stretch(0, trace.micros(trace.rows() - 1));
        for (int columns : new int[] {3, 10, 200}) {
            String path = new Curve(trace, 2, false, whole, columns).path(80, 2900);
            assertTrue(path.matches(".*[ V]0(?![0-9]).*"), columns + " columns: " + path);
        }
    }

    @Test
    void aCurveIsBrokenWhereNothingWasRecorded() {
        Trace trace = SheetRuns.synthetic().trace();
        Stretch whole = new Stretch(0, trace.micros(trace.rows() - 1));

        String path = new Curve(trace, 1, false, whole, 200).path(100, 2100);

        assertEquals(2, path.chars().filter(letter -> letter == 'M').count(), path);
    }

    @Test
    void whatWasToldIsDrawnOnlyWhereItDiffers() {
        Trace trace = SheetRuns.synthetic().trace();
        Stretch whole = new Stretch(0, trace.micros(trace.rows() - 1));

        String path = new Curve(trace, 1, true, whole, 200).path(100, 2100);

        // Under the override from tick 40, where the reading happens to be the same, to 79; and the ticks before and
        // behind.
        assertEquals("M40 480H79L80 360", path);
    }

    @Test
    void momentsComeInTheirOrder() {
        Trace trace = SheetRuns.synthetic().trace();
        List<String> names = Moments.of(SheetRuns.run("x").results().get(1).judgement(), trace).stream()
                .map(Moments.Moment::name)
                .toList();

        assertEquals(
                List.of(
                        "before the fault",
                        "first tick with the fault",
                        "detected",
                        "recovered",
                        "last tick with the fault"),
                names);
    }
}
