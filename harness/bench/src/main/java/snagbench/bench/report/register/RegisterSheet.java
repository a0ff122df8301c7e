package snagbench.bench.report.register;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import snagbench.bench.run.JournalFormat;
import tools.jackson.core.JacksonException;

/**
 * What the register and the plan said when a run began. It lies in the run's folder, so that reports can be made again when
 * both have changed.
 *
 * @param plan name of the plan
 * @param severityBy by which standard the severities are meant; empty where the register does not say
 * @param reserveMicros what recoveries may cost in one run, in microseconds
 * @param failSafes of the register, in its order
 * @param scripts of the plan, in its order, each once
 * @param combinations steps and channels of the symptoms, with the kinds of fault tried on them in the plan and never tried
 * @param measured what recoveries cost against nominal runs of the same seeds; none before the run, and where there are none
 */
public record RegisterSheet(
        String plan,
        Optional<String> severityBy,
        long reserveMicros,
        List<FailSafe> failSafes,
        List<Script> scripts,
        List<Combination> combinations,
        List<Measured> measured) {
    /** Name of the file in a run's folder. */
    public static final String FILE_NAME = "register.json";

    /** Copies the lists. */
    @SuppressWarnings("ConstantValue") // The file of an older run has nothing measured, and none is read as null.
    public RegisterSheet {
        failSafes = List.copyOf(failSafes);
        scripts = List.copyOf(scripts);
        combinations = List.copyOf(combinations);
        measured = measured == null ? List.of() : List.copyOf(measured);
    }

    /**
     * What a recovery cost in one run.
     *
     * @param failSafe the only one that answered, once
     * @param script in which run
     * @param seed of that run
     * @param micros how much later than the nominal run it came to that step, in microseconds
     * @param at name of the step, the last that both came to
     * @param against what it was measured against, such as "nominal runs of the same seeds"
     */
    public record Measured(String failSafe, String script, int seed, long micros, String at, String against) {}

    /**
     * The same with what was measured.
     *
     * @param costs in place of those that it has
     * @return another sheet
     */
    public RegisterSheet with(List<Measured> costs) {
        return new RegisterSheet(plan, severityBy, reserveMicros, failSafes, scripts, combinations, costs);
    }

    /**
     * A fail-safe.
     *
     * @param name such as "FS-02"
     * @param title what it is called
     * @param severity I to IV
     * @param scripts file names of the scripts that the register names for it
     * @param reserve what its recovery takes of the reserve; empty where the register gives no time
     * @param costs what else it costs, in words; may be empty
     * @param words what else the register says of it; empty in folders of runs that kept less
     */
    public record FailSafe(
            String name,
            String title,
            String severity,
            List<String> scripts,
            Optional<Cost> reserve,
            String costs,
            Optional<Words> words) {
        /** Copies the list. */
        public FailSafe {
            scripts = List.copyOf(scripts);
        }
    }

    /**
     * The register's words for people.
     *
     * @param cause what makes the fail-safe necessary
     * @param effect what would come of it otherwise
     * @param symptoms how it is seen
     * @param response what the machine does
     * @param recovery where the machine is then, and within which time, such as "step REACHING within 3.0 s"
     * @param parts parts of the machine that it is about
     * @param sensors at which it looks; none where the register names no channels
     */
    public record Words(
            String cause,
            String effect,
            String symptoms,
            String response,
            String recovery,
            List<String> parts,
            List<Sensor> sensors) {
        /** Copies the lists. */
        public Words {
            parts = List.copyOf(parts);
            sensors = List.copyOf(sensors);
        }
    }

    /**
     * A sensor at which a fail-safe looks.
     *
     * @param channel name of its channel
     * @param wired where it is wired; empty where the rig's file does not say
     */
    public record Sensor(String channel, String wired) {}

    /**
     * What a recovery takes of the reserve.
     *
     * @param leastMicros at least, in microseconds
     * @param mostMicros at most, in microseconds
     */
    public record Cost(long leastMicros, long mostMicros) {}

    /**
     * A script.
     *
     * @param file its file's name
     * @param name what it is called
     * @param failSafes names of those that it says it is evidence for
     */
    public record Script(String file, String name, List<String> failSafes) {
        /** Copies the list. */
        public Script {
            failSafes = List.copyOf(failSafes);
        }
    }

    /**
     * A step, and a channel at which fail-safes look in it.
     *
     * @param step name of the step
     * @param channel name of the channel
     * @param failSafes names of those that look
     * @param tried kinds of fault that the plan tries there
     * @param never kinds of fault that it could try there and does not
     */
    public record Combination(
            String step, String channel, List<String> failSafes, List<String> tried, List<String> never) {
        /** Copies the lists. */
        public Combination {
            failSafes = List.copyOf(failSafes);
            tried = List.copyOf(tried);
            never = List.copyOf(never);
        }
    }

    /**
     * Writes it into a run's folder.
     *
     * @param folder takes the file
     * @throws IOException if it cannot be written
     */
    public void write(Path folder) throws IOException {
        String text = JournalFormat.mapper().writerWithDefaultPrettyPrinter().writeValueAsString(this) + "\n";
        // Half of a letter, which UTF-8 cannot carry, becomes a question mark.
        Files.write(folder.resolve(FILE_NAME), text.getBytes(StandardCharsets.UTF_8));
    }

    /**
     * Reads it from a run's folder.
     *
     * @param folder of the run
     * @return empty where the run had no plan, or its rig no register
     * @throws IOException if it is there and cannot be read
     */
    public static Optional<RegisterSheet> read(Path folder) throws IOException {
        Path file = folder.resolve(FILE_NAME);
        if (!Files.exists(file)) {
            return Optional.empty();
        }
        try {
            Optional<RegisterSheet> read =
                    Optional.ofNullable(JournalFormat.mapper().readValue(Files.readString(file), RegisterSheet.class));
            Optional<String> missing = read.flatMap(JournalFormat::missing);
            if (missing.isPresent()) {
                throw new IOException(file + " is not what a run writes there: it lacks \"" + missing.get() + "\"");
            }
            return read;
        } catch (JacksonException e) {
            throw new IOException(file + " is not what a run writes there: " + e.getOriginalMessage(), e);
        }
    }

    /**
     * A fail-safe of the register.
     *
     * @param name such as "FS-02"
     * @return empty where the register has none of that name
     */
    public Optional<FailSafe> failSafe(String name) {
        return failSafes.stream().filter(one -> one.name().equals(name)).findFirst();
    }
}
