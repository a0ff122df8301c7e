package snagbench.bench.run;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/** The program in C at the other end of the line, which is compiled when it is wanted. */
final class FarEnd implements AutoCloseable {
    private final Process process;
    private final BufferedReader said;

    private FarEnd(Process process) {
        this.process = process;
        this.said = process.inputReader(StandardCharsets.UTF_8);
    }

    /** Compiles it into a folder. */
    static Path compile(Path source, Path folder) throws IOException, InterruptedException {
        Path program = folder.resolve("far_end");
        Process compiler;
        try {
            compiler = new ProcessBuilder("cc", "-O2", "-std=c99", "-o", program.toString(), source.toString())
                    .inheritIO()
                    .start();
        } catch (IOException e) {
            throw new IOException(
                    "no C compiler: \"cc\" is not on the PATH. The far end of the line, and what the harness is compared with, are"
                            + " in C; on Debian and Ubuntu the package gcc has it",
                    e);
        }
        if (compiler.waitFor() != 0) {
            throw new IOException("cc could not compile " + source);
        }
        return program;
    }

    /** Starts it. */
    static FarEnd start(Path program, String... words) throws IOException {
        List<String> command = new ArrayList<>(List.of(program.toString()));
        command.addAll(Arrays.asList(words));
        return new FarEnd(new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start());
    }

    /** The next line that it says: a device its port first, a loop its figures. */
    String says() throws IOException {
        return Objects.requireNonNull(said.readLine(), "the far end has ended");
    }

    /** The figures of a loop that runs to its end. */
    static long[] figures(Path program, String... words) throws IOException {
        try (FarEnd loop = start(program, words)) {
            return Arrays.stream(loop.says().split(" "))
                    .mapToLong(Long::parseLong)
                    .toArray();
        }
    }

    static void requireLinux() throws IOException {
        if (!Files.isDirectory(Path.of("/dev/pts"))) {
            throw new IOException("the line benchmark wants pseudo-terminals as Linux has them");
        }
    }

    @Override
    public void close() {
        process.destroy();
    }
}
