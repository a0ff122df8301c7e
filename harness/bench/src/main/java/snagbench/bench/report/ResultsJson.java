package snagbench.bench.report;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.report.register.Reserve;
import snagbench.bench.report.register.Traceability;
import snagbench.bench.run.Adequacy;
import snagbench.bench.run.Conclusions;
import snagbench.bench.run.JournalFormat;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The results of a run as one JSON object: header, results, end, a summary, what was not run, and
 * the worst cases of files that vary something; of a plan whose rig has a register, the matrix and the reserve. Times are in microseconds. */
public final class ResultsJson {
    /** Name of the file in a run's folder. */
    public static final String FILE_NAME = "results.json";

    private ResultsJson() {}

    /**
     * Writes the results of a run.
     *
     * @param run as its journal tells it
     * @param folder takes the file
     * @return the file
     * @throws IOException if it cannot be written
     */
    public static Path write(RunRecord run, Path folder) throws IOException {
        Path file = folder.resolve(FILE_NAME);
        // Half of a letter, which UTF-8 cannot carry, becomes a question mark.
        Files.write(file, (text(run, RegisterSheet.read(folder)) + "\n").getBytes(StandardCharsets.UTF_8));
        return file;
    }

    static String text(RunRecord asRun, Optional<RegisterSheet> register) {
        RunRecord run = asRun.concluded();
        JsonMapper mapper = JournalFormat.mapper();
        ObjectNode all = mapper.valueToTree(run);
        Summary summary = Summary.of(run);
        ObjectNode figures = all.putObject("summary");
        figures.put("planned", summary.planned());
        for (Verdict verdict : Verdict.values()) {
            figures.put(verdict.word(), summary.count(verdict));
        }
        figures.put("worst", summary.worst().word());
        all.set("conclusions", mapper.valueToTree(Conclusions.of(asRun).rows()));
        if (!asRun.changes().isEmpty()) {
            all.set("adequacy", mapper.valueToTree(Adequacy.of(asRun.changes())));
        }
        all.set("notRun", mapper.valueToTree(run.notRun()));
        ArrayNode families = all.putArray("families");
        Family.of(run.results()).stream().filter(Family::varies).forEach(family -> {
            ScriptResult worst = family.worst();
            ObjectNode one = families.addObject();
            one.put("script", worst.script());
            one.put("place", worst.place().toString());
            one.put("runs", family.members().size());
            one.put("verdict", worst.judgement().verdict().word());
            one.put("worstIndex", worst.index());
            one.put(
                    "worstSetting",
                    worst.variant().map(ScriptResult.Variation::setting).orElse(""));
            family.leastMargin().ifPresent(margin -> one.put("marginMicros", margin));
        });
        register.ifPresent(sheet -> {
            all.set("traceability", mapper.valueToTree(Traceability.of(sheet, run.results())));
            all.set("reserve", mapper.valueToTree(Reserve.of(sheet, run.results())));
        });
        return mapper.writerWithDefaultPrettyPrinter().writeValueAsString(all);
    }
}
