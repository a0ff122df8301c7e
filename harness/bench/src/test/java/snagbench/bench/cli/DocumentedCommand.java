package snagbench.bench.cli;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * A command that a page shows.
 *
 * @param page as seen from the top of the repository
 * @param line of the page, from 1
 * @param inText true if it stands in a sentence, where an option may be named without its value
 * @param text without prompt, on one line
 */
record DocumentedCommand(String page, int line, boolean inText, String text) {
    private static final String VERBS = "run|check|explain|new|schema|identify|ports|report|judge|record|serve";
    private static final Pattern START =
            Pattern.compile("(harness/(snagbench|verify)|mvn|make|snagbench (" + VERBS + "))( .*|$)");
    private static final Pattern IN_TEXT = Pattern.compile("`([^`\n]+)`");
    private static final Pattern VERB_IN_TEXT = Pattern.compile("(" + VERBS + ") (-.*|[A-Z]+(\\.\\.\\.)?( .*|$))");
    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");
    private static final Pattern STANDS_FOR = Pattern.compile("[A-Z]{3,}(\\.\\.\\.)?");

    @Override
    public String toString() {
        return page + ":" + line + " " + text;
    }

    /** The pages that a reader is sent to. */
    static List<Path> pages() throws IOException {
        List<Path> pages = new ArrayList<>(List.of(Path.of("README.md"), Path.of("DEVELOPERS.md")));
        for (String folder : List.of("docs", "firmware-notes")) {
            try (Stream<Path> files = Files.list(Bench.project().resolve(folder))) {
                files.filter(file -> file.toString().endsWith(".md"))
                        .sorted()
                        .map(Bench.project()::relativize)
                        .forEach(pages::add);
            }
        }
        return pages;
    }

    /** All commands of a page in its order: those of blocks, and those in sentences. */
    static List<DocumentedCommand> of(String page) throws IOException {
        List<String> lines = Files.readAllLines(Bench.project().resolve(page));
        List<DocumentedCommand> found = new ArrayList<>();
        boolean fenced = false;
        for (int index = 0; index < lines.size(); index++) {
            String line = lines.get(index);
            if (line.strip().startsWith("```")) {
                fenced = !fenced;
                continue;
            }
            if (fenced || line.startsWith("    ")) {
                String command = line.strip().replaceFirst("^\\$ ", "");
                int at = index + 1;
                while (command.endsWith("\\") && index + 1 < lines.size()) {
                    index++;
                    command = command.substring(0, command.length() - 1)
                            + lines.get(index).strip();
                }
                if (START.matcher(command).matches()) {
                    found.add(new DocumentedCommand(page, at, false, command.replaceFirst(" +#.*", "")));
                }
                continue;
            }
            Matcher matcher = IN_TEXT.matcher(line);
            while (matcher.find()) {
                String span = matcher.group(1);
                boolean whole = START.matcher(span).matches();
                if (whole || VERB_IN_TEXT.matcher(span).matches()) {
                    found.add(new DocumentedCommand(page, index + 1, true, whole ? span : "harness/snagbench " + span));
                }
            }
        }
        return found;
    }

    /** Whether a word stands for something of the reader's own, or options are only named; in a block all is as it is typed. */
    boolean isPattern() {
        return inText
                && (words().size() < 3
                        || words().stream().skip(2).allMatch(word -> word.startsWith("-"))
                        || words().stream()
                                .anyMatch(word -> STANDS_FOR.matcher(word).matches()));
    }

    String program() {
        return words().get(0);
    }

    /** What stands behind the program's name; quotes are taken off. */
    List<String> arguments() {
        return words().subList(1, words().size());
    }

    private List<String> words() {
        List<String> words = new ArrayList<>();
        Matcher matcher = WORD.matcher(text);
        while (matcher.find()) {
            words.add(matcher.group(1) == null ? matcher.group(2) : matcher.group(1));
        }
        if (words.get(0).equals("snagbench")) {
            words.set(0, "harness/snagbench");
        }
        assertTrue(!words.isEmpty(), text);
        return words;
    }
}
