package snagbench.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.ResultText;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.read.ScriptReader;
import snagbench.bench.session.Shuttle;

/** The whole scripts of the docs do on the virtual shuttle what the page says of them. */
class DocumentedScriptsRunTests {
    private static final Path PAGE =
            Path.of(System.getProperty("snagbench.root")).resolve("docs/writing-fault-scripts.md");
    private static final Pattern BLOCK = Pattern.compile("(?ms)^```yaml fault-script\n(.*?)^```$");

    @TempDir
    Path folder = Path.of("");

    static List<String> scripts() throws IOException {
        List<String> found = new ArrayList<>();
        Matcher matcher = BLOCK.matcher(Files.readString(PAGE, StandardCharsets.UTF_8));
        while (matcher.find()) {
            found.add(matcher.group(1));
        }
        return found;
    }

    @Test
    void thereAreSome() throws IOException {
        assertTrue(scripts().size() >= 8, () -> PAGE + " has whole scripts");
    }

    @ParameterizedTest
    @MethodSource("scripts")
    void passes(String yaml) throws Exception {
        Path file = Files.writeString(folder.resolve("documented.fault.yaml"), yaml, StandardCharsets.UTF_8);
        List<FaultScript> all = ScriptReader.readAll(file, Shuttle.description(), Shuttle.file())
                .value()
                .orElseThrow();
        FaultScript script = all.get(all.size() / 2);

        ScriptResult result = Runs.on("standard").of(1, script).only();

        assertEquals(Verdict.PASS, result.judgement().verdict(), () -> String.join("\n", ResultText.details(result)));
    }
}
