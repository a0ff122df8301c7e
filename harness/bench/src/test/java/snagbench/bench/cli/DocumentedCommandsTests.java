package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import picocli.CommandLine;
import picocli.CommandLine.MissingParameterException;
import snagbench.bench.run.Journal;

/**
 * Every command that README, DEVELOPERS and the pages of docs and firmware-notes show: run in the order of its page, with the
 * status that it should end with; or, where a reason stands here, parsed, so that a command, an option, a script or a target
 * that is not there any more shows.
 */
class DocumentedCommandsTests {
    /** Beginnings of commands that are not run, and why. */
    private static final Map<String, String> NOT_RUN = notRun();

    /** What does not end with 0. */
    private static final Map<String, Integer> ENDS_WITH =
            Map.of("run test-plans/seedling-shuttle/first-light-broken.plan.yaml", ExitStatus.FAIL);

    @TempDir
    Path empty = Path.of("");

    private static Map<String, String> notRun() {
        Map<String, String> reasons = new LinkedHashMap<>();
        reasons.put("harness/verify", "it runs this test");
        reasons.put("mvn ", "it runs this test, or takes minutes");
        reasons.put("make", "takes compilers for controllers; the tests of the firmware run it");
        reasons.put("harness/snagbench ports", "what it finds hangs on the machine; PortCommandsTests run it");
        reasons.put("harness/snagbench serve", "does not end; PortCommandsTests run it");
        reasons.put(
                "harness/snagbench identify --port", "wants a cable; PortCommandsTests run it on a pseudo-terminal");
        reasons.put("harness/snagbench check-sheet", "goes by the reader's own runs; CheckSheetTests run it");
        reasons.put("harness/snagbench identify --rig my-machine", "wants the reader's own machine");
        reasons.put("harness/snagbench run test-plans/my-machine", "wants the reader's own machine");
        reasons.put(
                "harness/snagbench run test-plans/seedling-shuttle/first-light.plan.yaml --port",
                "wants what serve serves; PortCommandsTests run both");
        reasons.put(
                "harness/snagbench run test-plans/seedling-shuttle/nightly.plan.yaml",
                "takes half a minute; the tests of the plans run it");
        return reasons;
    }

    static Stream<String> pages() throws IOException {
        List<String> pages = new ArrayList<>();
        for (Path page : DocumentedCommand.pages()) {
            if (!DocumentedCommand.of(page.toString()).isEmpty()) {
                pages.add(page.toString());
            }
        }
        return pages.stream();
    }

    @Test
    void theFirstStepsAreShownAsCommands() throws IOException {
        assertTrue(pages().count() >= 8, () -> "pages with commands");
        assertTrue(DocumentedCommand.of("docs/writing-fault-scripts.md").size() >= 8);
        assertTrue(DocumentedCommand.of("README.md").stream()
                .anyMatch(one -> !one.inText() && !reason(one).isPresent()));
    }

    @ParameterizedTest
    @MethodSource("pages")
    void everyCommandOfAPageDoesWhatItShould(String page) throws IOException {
        Bench bench = Bench.in(empty);
        if (page.equals("docs/trace-files.md")) {
            putTracesInto(bench);
        }
        for (DocumentedCommand command : DocumentedCommand.of(page)) {
            parse(command);
            if (!command.isPattern() && reason(command).isEmpty()) {
                Told told = Told.in(bench.folder(), command.arguments().toArray(String[]::new));
                int expected = ENDS_WITH.getOrDefault(String.join(" ", command.arguments()), ExitStatus.PASS);
                assertEquals(expected, told.status(), () -> command + "\n" + told.all());
            }
        }
    }

    /** The page goes on from a run of the reader's. */
    private static void putTracesInto(Bench bench) throws IOException {
        String script = Bench.PLANS + "reach-blocked-midway.fault.yaml";
        Path runs = bench.file("runs");
        Told run = Told.in(bench.folder(), "run", script, "--out", "runs");
        assertEquals(ExitStatus.PASS, run.status(), run::all);
        Path traces;
        try (Stream<Path> made = Files.list(runs)) {
            traces = made.findFirst().orElseThrow().resolve("traces");
        }
        Path kept = Files.createDirectories(bench.file("results/2026-03-01T22-15-00-nightly"));
        Files.copy(traces.resolveSibling(Journal.FILE_NAME), kept.resolve(Journal.FILE_NAME));
        String name = "0001-reach-blocked-midway.trace";
        Files.createDirectory(kept.resolve("traces"));
        Files.copy(traces.resolve(name), kept.resolve("traces").resolve(name));
        Files.copy(traces.resolve(name), bench.file(name));
        Files.copy(bench.file(script), bench.file(Bench.PLANS + "my.fault.yaml"));
        Files.copy(bench.file(script), bench.file("my.fault.yaml"));
        Told table = Told.in(bench.folder(), "record", "--from", name, "--csv", "log.csv");
        assertEquals(ExitStatus.PASS, table.status(), table::all);
    }

    private static Optional<String> reason(DocumentedCommand command) {
        return NOT_RUN.entrySet().stream()
                .filter(entry -> command.text().startsWith(entry.getKey()))
                .map(Map.Entry::getValue)
                .findFirst();
    }

    private static void parse(DocumentedCommand command) throws IOException {
        switch (command.program()) {
            case "harness/snagbench" -> parse(command, command.arguments());
            case "harness/verify" -> verify(command);
            case "mvn" -> maven(command);
            default -> make(command);
        }
    }

    private static void parse(DocumentedCommand command, List<String> args) {
        if (args.isEmpty()) {
            return;
        }
        CommandLine line = CommandLines.of(Told.surroundings(Path.of(""), new StringWriter(), new StringWriter()));
        // A word for a number stands for one; what is left out of a sentence may be left out here.
        String[] words =
                args.stream().map(word -> word.matches("S|MS|N") ? "1" : word).toArray(String[]::new);
        assertDoesNotThrow(
                () -> {
                    try {
                        line.parseArgs(words);
                    } catch (MissingParameterException e) {
                        if (!command.inText()) {
                            throw e;
                        }
                    }
                },
                command::toString);
    }

    private static void verify(DocumentedCommand command) throws IOException {
        String usage = Files.readString(Bench.project().resolve("harness/verify"));
        for (String option : command.arguments()) {
            assertTrue(isOption(usage, option), command::toString);
        }
    }

    /** A measurement that needs a C compiler installs no browser and no simulators. */
    @ParameterizedTest
    @CsvSource({
        "--benchmark-line, jdk mvn gcc libc",
        "--benchmark-times, jdk mvn gcc libc",
        "--benchmark, jdk mvn gcc libc chromium"
    })
    void verifyAsksForTheToolsOfWhatItDoes(String option, String tools) throws Exception {
        Process process = new ProcessBuilder("bash", "-c", ". harness/verify; tools_for \"$1\"", "bash", option)
                .directory(Bench.project().toFile())
                .redirectErrorStream(true)
                .start();
        String told = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, process.waitFor(), told);
        assertEquals(tools + "\n", told);
    }

    /** In the list of a usage: "  --all   runs ...". */
    private static boolean isOption(String usage, String option) {
        return Pattern.compile("(?m)^  " + Pattern.quote(option) + "(\\s|$)")
                .matcher(usage)
                .find();
    }

    private static void maven(DocumentedCommand command) throws IOException {
        String poms = Files.readString(Bench.project().resolve("pom.xml"))
                + Files.readString(Bench.project().resolve("harness/bench/pom.xml"));
        List<String> words = command.arguments();
        for (int index = 0; index < words.size(); index++) {
            String word = words.get(index);
            if (word.equals("-pl") && !words.get(index + 1).endsWith("/x")) {
                assertTrue(
                        Files.exists(
                                Bench.project().resolve(words.get(index + 1)).resolve("pom.xml")),
                        command::toString);
            } else if (word.startsWith("-P")) {
                assertTrue(poms.contains("<id>" + word.substring(2) + "</id>"), command::toString);
            } else if (word.startsWith("-Dtest=")) {
                assertTrue(isTest(word.substring("-Dtest=".length())), command::toString);
            }
        }
    }

    private static boolean isTest(String name) throws IOException {
        try (Stream<Path> files = Files.walk(Bench.project().resolve("harness"), 12)) {
            return files.anyMatch(file -> file.endsWith(name + ".java"));
        }
    }

    private static void make(DocumentedCommand command) throws IOException {
        List<String> words = new ArrayList<>(command.arguments());
        int at = words.indexOf("-C");
        if (at >= 0) {
            String makefile =
                    Files.readString(Bench.project().resolve(words.get(at + 1)).resolve("Makefile"));
            words.subList(at, at + 2).clear();
            for (String target : words) {
                assertTrue(makefile.contains("\n" + target + ":"), command::toString);
            }
        }
    }

    /** A reason for a command that no page shows any more is taken out. */
    @Test
    void whatIsNotRunIsShownSomewhere() throws IOException {
        List<String> shown = new ArrayList<>();
        for (Path page : DocumentedCommand.pages()) {
            DocumentedCommand.of(page.toString()).forEach(command -> shown.add(command.text()));
        }
        for (String start : NOT_RUN.keySet()) {
            assertTrue(shown.stream().anyMatch(text -> text.startsWith(start)), start);
        }
    }

    /** Every option that a page names in code is one of a command. */
    @Test
    void everyOptionThatIsNamedIsThere() throws IOException {
        CommandLine line = CommandLines.of(Told.surroundings(Path.of(""), new StringWriter(), new StringWriter()));
        String known = Files.readString(Bench.project().resolve("harness/verify"));
        int named = 0;
        for (Path page : DocumentedCommand.pages()) {
            Matcher matcher = Pattern.compile("`(--[a-z-]+)")
                    .matcher(Files.readString(Bench.project().resolve(page)));
            while (matcher.find()) {
                String option = matcher.group(1);
                boolean isThere = line.getSubcommands().values().stream()
                        .anyMatch(command -> command.getCommandSpec().findOption(option) != null);
                assertTrue(isThere || isOption(known, option), () -> page + ": " + option);
                named++;
            }
        }
        int all = named;
        assertTrue(all >= 15, () -> all + " options");
    }

    /** The examples at the end of each command's help are good commands. */
    @Test
    void everyExampleOfTheHelpIsACommand() {
        CommandLine line = CommandLines.of(Told.surroundings(Path.of(""), new StringWriter(), new StringWriter()));
        line.getSubcommands().forEach((name, command) -> {
            String footer = String.join(
                            "\n", command.getCommandSpec().usageMessage().footer())
                    .replaceAll("\\\\\n *", "");
            Matcher matcher = Pattern.compile("Example: snagbench ([^>\n]*)").matcher(footer);
            int examples = 0;
            while (matcher.find()) {
                DocumentedCommand example =
                        new DocumentedCommand("help of " + name, 1, false, "snagbench " + matcher.group(1));
                assertFalse(example.arguments().isEmpty());
                parse(example, example.arguments());
                examples++;
            }
            // The library's own command has none.
            assertTrue(examples > 0 || name.equals("completion"), name);
        });
    }
}
