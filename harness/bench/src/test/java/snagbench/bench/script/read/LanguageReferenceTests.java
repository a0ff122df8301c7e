package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** The reference page is what the schemas say. */
class LanguageReferenceTests {
    @Test
    void thePageIsMadeFromTheSchemas() throws IOException {
        String made = LanguageReference.page();
        Path page = GoodFiles.project().resolve("docs/language-reference.md");
        Path draft = GoodFiles.project().resolve("harness/bench/target/language-reference.md");
        Files.writeString(draft, made, StandardCharsets.UTF_8);
        assertTrue(Files.exists(page), () -> "copy " + draft + " to " + page);
        assertEquals(made, Files.readString(page), () -> "if the schemas are right, copy " + draft + " to " + page);
    }

    @Test
    void everyWordOfTheLanguageIsOnThePage() {
        String page = LanguageReference.page();
        for (String word : Faults.KNOWN) {
            assertTrue(page.contains(word), word);
        }
        for (String key : Expectations.KINDS) {
            assertTrue(page.contains("`" + key + "`"), key);
        }
        for (String key : Endings.KEYS) {
            assertTrue(page.contains("`" + key + "`"), key);
        }
        for (String key : Triggers.KEYS) {
            assertTrue(page.contains("`" + key + "`"), key);
        }
    }
}
