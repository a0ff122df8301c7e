package snagbench.bench.script.write;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.script.Anchor;
import snagbench.bench.script.Checked;
import snagbench.bench.script.Condition;
import snagbench.bench.script.DerivedChannel;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.Fault;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Place;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.session.Shuttle;

/** What a script writer writes, a script reader reads back into the same script. */
class RoundTripTests {
    private static final int CASES = 300;
    private static final RigDescription RIG = Shuttle.description();
    private static final RigFile RIG_FILE = Shuttle.file();

    @TempDir
    Path folder = Path.of("");

    private FaultScript readBack(String yaml, String which) throws IOException {
        Path file = folder.resolve("written.fault.yaml");
        Files.writeString(file, yaml, StandardCharsets.UTF_8);
        Checked<FaultScript> read = ScriptReader.read(file, RIG, RIG_FILE);
        assertFalse(read.hasErrors(), () -> which + ": " + read.problems() + "\n" + yaml);
        return read.value().orElseThrow();
    }

    @Test
    void randomScriptsComeBackAsTheyWere() throws IOException {
        Map<Class<?>, Integer> seen = new HashMap<>();
        for (long seed = 1; seed <= CASES; seed++) {
            FaultScript script = RandomScripts.of(seed, RIG, RIG_FILE);
            String yaml = ScriptWriter.yaml(script);
            FaultScript back = readBack(yaml, "seed " + seed);

            assertEquals(shown(script), shown(back), "seed " + seed + "\n" + yaml);
            assertEquals(yaml, ScriptWriter.yaml(back), "seed " + seed);
            RandomScripts.parts(script).forEach(part -> seen.merge(part, 1, Integer::sum));
        }
        Set<Class<?>> missing = new HashSet<>(everything());
        missing.removeAll(seen.keySet());
        assertEquals(Set.of(), missing, "came about in " + CASES + " scripts");
    }

    private static Set<Class<?>> everything() {
        return Stream.of(
                        Fault.class,
                        Expectation.class,
                        Expectation.Timed.class,
                        DerivedChannel.Formula.class,
                        Condition.Term.class,
                        Anchor.class)
                .flatMap(one -> Arrays.stream(one.getPermittedSubclasses()))
                .filter(Class::isRecord)
                .collect(Collectors.toSet());
    }

    static List<Path> committed() throws IOException {
        Path plans = Path.of(System.getProperty("snagbench.root")).resolve("test-plans/seedling-shuttle");
        try (Stream<Path> files = Files.list(plans)) {
            List<Path> scripts = files.filter(file -> file.toString().endsWith(".fault.yaml"))
                    .sorted()
                    .toList();
            assertTrue(scripts.size() >= 8, scripts::toString);
            return scripts;
        }
    }

    @ParameterizedTest
    @MethodSource("committed")
    void committedScriptsComeBackAsTheyWere(Path file) throws IOException {
        List<FaultScript> scripts =
                ScriptReader.readAll(file, RIG, RIG_FILE).value().orElseThrow();
        for (FaultScript script : scripts) {
            String yaml = ScriptWriter.yaml(script);
            assertEquals(
                    shown(script).replaceAll("variant=.*", ""),
                    shown(readBack(yaml, file.toString())).replaceAll("variant=.*", ""));
        }
    }

    /** A model as text, without its places. */
    private static String shown(Object value) {
        if (value instanceof Place) {
            return "";
        }
        if (value instanceof Optional<?> optional) {
            return optional.map(RoundTripTests::shown).orElse("none");
        }
        if (value instanceof Set<?> set) {
            return set.stream().map(RoundTripTests::shown).sorted().collect(Collectors.joining(", ", "<", ">"));
        }
        if (value instanceof Collection<?> list) {
            return list.stream().map(RoundTripTests::shown).collect(Collectors.joining(",\n ", "[", "]"));
        }
        if (!(value instanceof Record)) {
            return String.valueOf(value);
        }
        StringBuilder out = new StringBuilder(value.getClass().getSimpleName()).append('(');
        for (RecordComponent component : value.getClass().getRecordComponents()) {
            try {
                component.getAccessor().setAccessible(true);
                out.append(component.getName())
                        .append('=')
                        .append(shown(component.getAccessor().invoke(value)))
                        .append(' ');
            } catch (ReflectiveOperationException e) {
                throw new LinkageError(component.getName(), e);
            }
        }
        return out.append(')').toString();
    }
}
