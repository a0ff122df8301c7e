package snagbench.bench.cli;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceFile;
import snagbench.bench.trace.TraceTable;
import snagbench.bench.trace.ValueChangeDump;

/** A run's traces in formats that other programs read, beside the traces. */
final class TraceExport {
    private final Surroundings surroundings;
    private final Path folder;

    TraceExport(Surroundings surroundings, Path folder) {
        this.surroundings = surroundings;
        this.folder = folder;
    }

    void write(RunRecord run) throws IOException {
        int written = 0;
        for (ScriptResult result : run.results()) {
            Path file = folder.resolve(result.trace().orElse("")).normalize();
            if (result.trace().isEmpty() || !file.startsWith(folder.normalize()) || !Files.isRegularFile(file)) {
                continue;
            }
            Trace trace = TraceFile.read(file).trace();
            String base = file.getFileName().toString().replaceAll("\\.trace$", "");
            try (Writer out = Files.newBufferedWriter(file.resolveSibling(base + ".vcd"), StandardCharsets.US_ASCII)) {
                ValueChangeDump.write(trace, out);
            }
            if (trace.periodTicks() == 1) {
                try (Writer out = Files.newBufferedWriter(file.resolveSibling(base + ".csv"), StandardCharsets.UTF_8)) {
                    TraceTable.write(trace, out);
                }
            } else {
                surroundings
                        .err()
                        .println("warning: " + result.trace().get() + " has a record for every " + trace.periodTicks()
                                + " ticks; a table has one row a tick, and is not written");
            }
            written++;
        }
        surroundings.out().println("Tables:  " + written + (written == 1 ? " trace" : " traces") + " as CSV and VCD");
    }
}
