package snagbench.bench.session;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import snagbench.bench.link.VirtualLink;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.write.RandomScripts;

/** What check lets pass, a rig takes. */
class ProgramTests {
    private static final int CASES = 100;
    private static final RigDescription RIG = Shuttle.description();
    private static final RigFile RIG_FILE = Shuttle.file();

    @Test
    void theProbeTakesWhateverTheReaderLetsPass() throws Exception {
        int entries = 0;
        for (long seed = 1; seed <= CASES; seed++) {
            FaultScript script = RandomScripts.of(seed, RIG, RIG_FILE);
            VirtualLink link = Shuttle.link("standard");
            try (RigSession session =
                    RigSession.open(link, SessionSettings.usual(1, 5000, () -> false), Optional.of(RIG))) {
                session.arm(script, 1);
                entries += ProgramCompiler.compile(script).entries();
            } catch (SessionException e) {
                throw new AssertionError("seed " + seed, e);
            }
        }
        assertTrue(entries > 5 * CASES, "long programs: " + entries + " entries");
    }
}
