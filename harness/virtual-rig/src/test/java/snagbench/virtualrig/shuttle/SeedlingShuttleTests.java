package snagbench.virtualrig.shuttle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.ServiceLoader;
import org.junit.jupiter.api.Test;
import snagbench.probe.VirtualRigProvider;

class SeedlingShuttleTests {
    @Test
    void isFoundByItsName() {
        List<VirtualRigProvider> found = ServiceLoader.load(VirtualRigProvider.class).stream()
                .map(ServiceLoader.Provider::get)
                .filter(provider -> provider.name().equals("seedling-shuttle"))
                .toList();
        assertEquals(1, found.size());
        assertEquals("standard", found.get(0).builds().get(0));
    }

    @Test
    void greetsWithTheBuildThatWasAskedFor() {
        List<String> greetings =
                List.of("1.0", "1.0 no FS-01", "1.0 no FS-02", "1.0 no FS-03", "1.0 weak bat", "1.0 no rack");
        List<String> builds = new SeedlingShuttle().builds();
        assertEquals(greetings.size(), builds.size());
        int digest = 0;
        for (int i = 0; i < builds.size(); i++) {
            TestBench bench = TestBench.on(builds.get(i));
            bench.open();
            assertEquals(greetings.get(i), bench.hello().build);
            assertEquals(0, bench.hello().real);
            assertEquals(TestBench.CHANNELS, bench.hello().channels);
            assertTrue(i == 0 || bench.hello().digest == digest, "all builds describe the same rig");
            digest = bench.hello().digest;
        }
    }

    @Test
    void namesItsBuildsWhereItHasNoSuchOne() {
        IllegalArgumentException refused =
                assertThrows(IllegalArgumentException.class, () -> new SeedlingShuttle().create("without-FS-09"));
        assertTrue(refused.toString().contains("without-FS-09"));
        assertTrue(refused.toString().contains("without-FS-03"));
    }
}
