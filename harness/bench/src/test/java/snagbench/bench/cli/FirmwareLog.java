package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * When fail-safes answered, as a firmware's own log tells it: in ticks from the start of the program on. The log goes another
 * way than the probe's line, and its ticks are counted by the loop and not by the probe.
 *
 * @param programs for each program the answers in it
 */
record FirmwareLog(List<List<Answer>> programs) {
    /** An answer, so many ticks after the program's first. */
    record Answer(long tick, int failSafe) {}

    /** Of lines "armed TICK 15" and "answer TICK NUMBER"; others are passed over. */
    static FirmwareLog of(List<String> lines) {
        List<List<Answer>> programs = new ArrayList<>();
        long armed = 0;
        for (String line : lines) {
            String[] parts = line.split(" ", -1);
            if (parts[0].equals("armed")) {
                armed = Long.parseLong(parts[1]);
                programs.add(new ArrayList<>());
            } else if (parts[0].equals("answer") && !programs.isEmpty()) {
                programs.get(programs.size() - 1)
                        .add(new Answer(Long.parseLong(parts[1]) - armed, Integer.parseInt(parts[2])));
            }
        }
        return new FirmwareLog(programs);
    }

    /**
     * Holds it against the journal of the only run in a folder: the tick in which the harness says that the expectation "sees
     * it" was met is the one of the firmware's first answer in that program, and so is the fail-safe.
     */
    void assertSameAsReported(Path folder) throws IOException {
        List<Answer> reported = reported(folder);
        assertFalse(reported.isEmpty());
        assertEquals(
                reported,
                programs.stream().map(answers -> answers.get(0)).toList(),
                "the harness's ticks, and the firmware's own: " + programs);
    }

    private static List<Answer> reported(Path folder) throws IOException {
        Path results;
        try (Stream<Path> runs = Files.list(folder.resolve("results"))) {
            results = runs.toList().get(0).resolve("results.json");
        }
        List<Answer> found = new ArrayList<>();
        for (JsonNode result : new JsonMapper().readTree(results.toFile()).path("results")) {
            int failSafe =
                    Integer.parseInt(result.path("failSafes").path(0).asString().substring("FS-".length()));
            for (JsonNode finding : result.path("judgement").path("findings")) {
                if (finding.path("name").asString().equals("sees it")) {
                    found.add(new Answer(finding.path("metTick").asLong(), failSafe));
                }
            }
        }
        return found;
    }
}
