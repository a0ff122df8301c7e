package snagbench.bench.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Texts of other people, made harmless to look at. */
class PlainTextTests {
    @Test
    void ordinaryLettersOfAnyScriptStayAsTheyAre() {
        String text = "Schub um 90\u00b0, \u05d0\u05d1, \uD83C\uDF31\uD83D\uDC68\u200D\uD83C\uDF3E\tand\nmore <b>";

        assertEquals(text, PlainText.of(text));
    }

    @Test
    void whatDoesNotShowOrTurnsTheWritingIsNamed() {
        assertEquals("a\u2400b\u241bc\u240d", PlainText.of("a\u0000b\u001bc\r"));
        assertEquals("[U+202E]gnp[U+2069][U+200F]", PlainText.of("\u202Egnp\u2069\u200F"));
        assertEquals("[U+D83C]x[U+DF31][U+007F][U+0085]", PlainText.of("\uD83Cx\uDF31\u007f\u0085"));
    }

    @Test
    void aBriefTextIsOneLineAndIsNotCutWithinALetter() {
        assertEquals("a b c", PlainText.brief(" a\n b\t c ", 10));
        assertEquals("\uD83C\uDF31\uD83C\uDF31\u2026", PlainText.brief("\uD83C\uDF31".repeat(9), 3));
    }
}
