package snagbench.bench.script.read;

import org.junit.jupiter.api.Tag;

/** The same with all good texts, and with files of their full size. */
@Tag("long")
class AllSpoiltScriptsTests extends SpoiltScriptsTests {
    @Override
    int share() {
        return 1;
    }
}
