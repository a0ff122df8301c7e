package snagbench.bench.report.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Looks at the open page with axe-core, by the Web Content Accessibility Guidelines 2.2 up to AA, as light, as dark, and as printed. */
final class Accessibility {
    private Accessibility() {}

    /** Nothing is serious or critical. */
    static void check(Browser browser) throws Exception {
        // Colours can be told only of what is painted, and sheets out of sight are not.
        browser.value("document.querySelectorAll('.sheet').forEach(one => one.style.contentVisibility = 'visible')");
        browser.load(axe());
        for (String look : List.of("light", "dark", "print")) {
            boolean print = look.equals("print");
            browser.look(print ? "print" : "screen", print ? "light" : look);
            JsonNode found = new JsonMapper()
                    .readTree(browser.promised("axe.run(document, {runOnly: {type: 'tag', values: ['wcag2a', 'wcag2aa',"
                            + " 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa', 'best-practice']},"
                            + " resultTypes: ['violations', 'passes', 'incomplete']}).then(all => JSON.stringify("
                            + "{violations: all.violations, incomplete: all.incomplete.map(one => [one.id, one.nodes.length]),"
                            + " contrast: (all.passes.find(one => one.id === 'color-contrast') || {nodes: []}).nodes.length,"
                            + " rules: all.passes.map(one => one.id)}))"));
            List<String> grave = new ArrayList<>();
            for (JsonNode one : found.path("violations")) {
                String impact = one.path("impact").asString("");
                if (impact.equals("serious") || impact.equals("critical")) {
                    grave.add(impact + " " + one.path("id").asString("") + ": "
                            + one.path("nodes").path(0).path("html").asString("")
                            + one.path("nodes").path(0).path("failureSummary").asString(""));
                }
            }
            assertEquals(List.of(), grave, look);
            // It has looked at this page, and at what is on it.
            assertTrue(found.path("contrast").asInt(0) > 20, () -> look + ": " + found);
            String rules = found.path("rules").toString();
            assertTrue(
                    rules.contains("html-has-lang") && rules.contains("landmark-one-main"), () -> look + ": " + rules);
        }
        browser.look("", "light");
    }

    private static String axe() throws IOException {
        try (InputStream in = Accessibility.class.getResourceAsStream("/axe.min.js")) {
            assertTrue(in != null, "axe-core is on the test class path");
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
