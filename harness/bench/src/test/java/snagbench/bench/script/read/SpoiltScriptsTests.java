package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import snagbench.bench.script.Checked;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.Problem;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.write.ScriptWriter;

/**
 * Good scripts, spoilt in every place in all the ways that hands and editors know: each time an error that stands where
 * the slip is. No file, however long or deep, costs more than a bounded amount of memory. Here stands a sample, and files of
 * a fifth of their greatest size; {@link AllSpoiltScriptsTests} has all.
 */
class SpoiltScriptsTests {
    private static final Pattern KEY = Pattern.compile("([a-z]+(?:-[a-z]+)*)(: |:$)");
    private static final Pattern QUANTITY =
            Pattern.compile("(?<![\\w.])([0-9]+(?:\\.[0-9]+)?) (mm|A|V|ms|s|%|deg|ticks)(?![\\w/])");
    private static final List<String> KEYS = List.of(
            "fault-script",
            "failsafe",
            "why",
            "needs",
            "begin",
            "send",
            "wait-for",
            "within",
            "inject",
            "name",
            "when",
            "channels",
            "until",
            "lasts",
            "expect",
            "answered-by",
            "no-other",
            "becomes",
            "after",
            "always",
            "never",
            "must-not-fire",
            "end");

    /** What one file may cost at most: the reader takes files of 1 MiB, and a text of so many characters is held some times. */
    private static final long MOST_BYTES = 3L << 28;

    private static final Path FIXTURE = GoodFiles.project().resolve("fixtures/seedling-shuttle");

    private final RigDescription rig =
            Snapshots.read(FIXTURE.resolve(RigFiles.SNAPSHOT_NAME)).value().orElseThrow();
    private final RigFile rigFile = RigFiles.readRig(FIXTURE.resolve(RigFiles.FILE_NAME), Optional.of(rig))
            .value()
            .orElseThrow();

    @TempDir
    Path folder = Path.of("");

    /** One in so many of the good texts is spoilt, and files that are too large are so much smaller. */
    int share() {
        return 5;
    }

    private List<String> good() throws IOException {
        List<String> all = allGood();
        List<String> sample = new ArrayList<>();
        for (int index = 0; index < all.size(); index += share()) {
            sample.add(all.get(index));
        }
        return sample;
    }

    private static List<String> allGood() throws IOException {
        List<String> texts = new ArrayList<>(List.of(GoodFiles.SCRIPT));
        List<Path> files = GoodFiles.committed("test-plans", ".fault.yaml");
        for (int index = 0; index < files.size(); index += 8) {
            String text = Files.readString(files.get(index));
            if (!text.contains("\nvary:")) {
                texts.add(text);
            }
        }
        for (DocumentedScriptsTests.Example example : DocumentedScriptsTests.examples()) {
            if (example.kind().equals("fault-script") && !example.text().contains("\nvary:")) {
                texts.add(example.text());
            }
        }
        return texts;
    }

    private Checked<FaultScript> read(byte[] bytes) throws IOException {
        Path file = Files.write(folder.resolve("spoilt.fault.yaml"), bytes);
        com.sun.management.ThreadMXBean threads = (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
        long before = threads.getCurrentThreadAllocatedBytes();
        Checked<FaultScript> read = ScriptReader.read(file, rig, rigFile);
        long cost = threads.getCurrentThreadAllocatedBytes() - before;
        assertTrue(
                cost < MOST_BYTES,
                () -> cost + " bytes for " + new String(bytes, 0, Math.min(80, bytes.length), StandardCharsets.UTF_8));
        assertTrue(read.problems().size() <= 101, () -> read.problems().size() + " problems");
        return read;
    }

    private Checked<FaultScript> read(String text) throws IOException {
        return read(text.getBytes(StandardCharsets.UTF_8));
    }

    private static int line(String text, int at) {
        return (int) text.substring(0, at).chars().filter(one -> one == '\n').count() + 1;
    }

    private static int column(String text, int at) {
        return at - text.lastIndexOf('\n', at - 1);
    }

    private static List<Problem> errors(Checked<FaultScript> read) {
        return read.problems().stream()
                .filter(problem -> problem.severity() == Problem.Severity.ERROR)
                .toList();
    }

    private static boolean isAt(Problem problem, String text, int at) {
        return problem.place().line() == line(text, at) && problem.place().column() == column(text, at);
    }

    /** Where the keys of a script stand for the first time that are the language's own, outside of comments and of the reason. */
    private static List<int[]> keys(String text) {
        List<int[]> found = new ArrayList<>();
        Set<String> seen = new HashSet<>();
        Matcher matcher = Pattern.compile(KEY.pattern(), Pattern.MULTILINE).matcher(text);
        int why = text.indexOf("why: >");
        int behind = why < 0 ? 0 : text.indexOf("\n\n", why);
        while (matcher.find()) {
            String start = text.substring(text.lastIndexOf('\n', matcher.start()) + 1, matcher.start());
            boolean ownKey = KEYS.contains(matcher.group(1)) && start.matches("[ -]*(.*[{,] )?");
            boolean inText = start.contains("#") || (why >= 0 && matcher.start() > why + 5 && matcher.start() < behind);
            if (ownKey && !inText && seen.add(matcher.group(1))) {
                found.add(new int[] {matcher.start(1), matcher.end(1)});
            }
        }
        return found;
    }

    /** Slips of the keyboard. */
    private static List<String> slips(String key) {
        int middle = key.length() / 2;
        List<String> slips = new ArrayList<>();
        slips.add(key.substring(0, middle) + key.substring(middle + 1));
        slips.add(key.substring(0, middle) + key.charAt(middle) + key.substring(middle));
        slips.add(key + "s");
        slips.add(key.substring(0, middle) + "x" + key.substring(middle + 1));
        slips.add(key.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + key.substring(1));
        if (key.charAt(middle) != key.charAt(middle - 1)) {
            slips.add(key.substring(0, middle - 1)
                    + key.charAt(middle)
                    + key.charAt(middle - 1)
                    + key.substring(middle + 1));
        }
        if (key.contains("-")) {
            slips.add(key.replace('-', '_'));
            slips.add(key.replace("-", ""));
            slips.add(key.replace('-', ' '));
        }
        return slips;
    }

    @Test
    void aRenamedKeyIsToldWhereItStandsWithTheRightName() throws IOException {
        int tried = 0;
        int right = 0;
        Map<String, String> wrong = new LinkedHashMap<>();
        for (String text : good()) {
            for (int[] key : keys(text)) {
                String name = text.substring(key[0], key[1]);
                for (String slip : slips(name)) {
                    String spoilt = text.substring(0, key[0]) + slip + text.substring(key[1]);
                    List<Problem> errors = errors(read(spoilt));
                    Optional<Problem> there = errors.stream()
                            .filter(problem -> isAt(problem, spoilt, key[0]))
                            .findFirst();
                    assertTrue(there.isPresent(), () -> slip + " for " + name + ": " + errors + "\n" + spoilt);
                    tried++;
                    if (there.get().cure().contains("did you mean \"" + name + "\"?")) {
                        right++;
                    } else {
                        wrong.put(slip, there.get().toString());
                    }
                }
            }
        }
        int all = tried;
        assertTrue(all >= 1000 / share(), () -> all + " tried");
        assertTrue(right >= 0.95 * all, right + " of " + all + " right; wrong: " + wrong);
    }

    @Test
    void aKeyThatIsNeededAndGoneIsMissed() throws IOException {
        List<String> needed = List.of("fault-script", "inject", "expect", "answered-by", "becomes", "wait-for");
        int tried = 0;
        for (String text : good()) {
            for (int[] key : keys(text)) {
                if (needed.contains(text.substring(key[0], key[1]))) {
                    int end = text.indexOf('\n', key[1]);
                    String spoilt = text.substring(0, key[0]) + text.substring(end);
                    assertFalse(errors(read(spoilt)).isEmpty(), spoilt);
                    tried++;
                }
            }
        }
        int all = tried;
        assertTrue(all >= 75 / share(), () -> all + " tried");
    }

    @Test
    void aValueOfTheWrongKindIsToldOf() throws IOException {
        int tried = 0;
        for (String text : good()) {
            for (int[] key : keys(text)) {
                int start = key[1] + 2;
                int end = text.indexOf('\n', key[1]);
                String rest = text.substring(Math.min(start, end), end);
                if (rest.replaceFirst("#.*", "").isBlank()
                        || rest.startsWith(">")
                        || text.startsWith("why", key[0])
                        || inBraces(text, key[0])) {
                    continue;
                }
                String name = text.substring(key[0], key[1]);
                boolean plain = !rest.startsWith("{") && !rest.startsWith("[");
                List<String> others = plain ? List.of("{ a: b }", "~", "") : List.of("nonsense", "~", "", "12");
                for (String other : others) {
                    String spoilt = text.substring(0, start) + other + text.substring(end);
                    List<Problem> errors = errors(read(spoilt));
                    boolean sameLine = errors.stream()
                            .anyMatch(problem -> problem.place().line() >= line(text, key[0])
                                    && problem.place().line() <= line(text, key[0]) + 1);
                    assertTrue(sameLine, () -> name + ": " + other + ": " + errors + "\n" + spoilt);
                    tried++;
                }
            }
        }
        int all = tried;
        assertTrue(all >= 600 / share(), () -> all + " tried");
    }

    private static boolean inBraces(String text, int at) {
        String start = text.substring(text.lastIndexOf('\n', at) + 1, at);
        return start.contains("{");
    }

    /** Indentation that is wrong is told of, unless it means the same. */
    @Test
    void aKeyInTheWrongColumnIsToldOfOrMeansTheSame() throws IOException {
        int told = 0;
        for (String text : good()) {
            String meaning = ScriptWriter.yaml(read(text).value().orElseThrow());
            String[] lines = text.split("\n", -1);
            for (int number = 0; number < lines.length; number++) {
                for (String other :
                        List.of(" " + lines[number], "  " + lines[number], lines[number].replaceFirst("^ ", ""))) {
                    String[] spoilt = lines.clone();
                    spoilt[number] = other;
                    String all = String.join("\n", spoilt);
                    Checked<FaultScript> read = read(all);
                    if (!read.problems().isEmpty()) {
                        told++;
                    } else {
                        String what = all;
                        String now = ScriptWriter.yaml(read.value().orElseThrow());
                        assertEquals(withoutReason(meaning), withoutReason(now), () -> what);
                    }
                }
            }
        }
        int all = told;
        assertTrue(all >= 900 / share(), () -> all + " told of");
    }

    /** The reason is free text: another indentation in it is another text. */
    private static String withoutReason(String yaml) {
        return yaml.replaceAll("(?m)^why: \\|-\\n(  .*\\n|\\n)*", "");
    }

    @Test
    void aUnitThatDoesNotFitIsToldOfWhereItStands() throws IOException {
        int tried = 0;
        for (String text : good()) {
            Matcher matcher = QUANTITY.matcher(text);
            while (matcher.find()) {
                String line = text.substring(text.lastIndexOf('\n', matcher.start()) + 1, matcher.start());
                if (line.contains("#") || !line.contains(": ") || !isOfAKey(line)) {
                    continue;
                }
                for (String unit : List.of("kg", "rpm", "furlong", "")) {
                    String spoilt = text.substring(0, matcher.start(2)) + unit + text.substring(matcher.end(2));
                    List<Problem> errors = errors(read(spoilt));
                    int at = line(text, matcher.start());
                    assertTrue(
                            errors.stream().anyMatch(problem -> problem.place().line() == at),
                            () -> "line " + at + ": " + errors + "\n" + spoilt);
                    tried++;
                }
            }
        }
        int all = tried;
        assertTrue(all >= 400 / share(), () -> all + " tried");
    }

    /** Not a line of the reason. */
    private static boolean isOfAKey(String line) {
        return line.matches(" *(- )?[a-z][a-z.-]*: .*");
    }

    @Test
    void aHugeNumberIsToldOfWhereItStands() throws IOException {
        int tried = 0;
        for (String text : good()) {
            Matcher matcher = QUANTITY.matcher(text);
            while (matcher.find()) {
                String line = text.substring(text.lastIndexOf('\n', matcher.start()) + 1, matcher.start());
                if (line.contains("#") || !line.matches(".*(within|lasts|end|stuck-at|for)[: ].*") || !isOfAKey(line)) {
                    continue;
                }
                for (String number : List.of("9".repeat(30), "9".repeat(200), "1e999", "9".repeat(100_000))) {
                    String spoilt = text.substring(0, matcher.start(1)) + number + text.substring(matcher.end(1));
                    List<Problem> errors = errors(read(spoilt));
                    int at = line(text, matcher.start());
                    assertTrue(
                            errors.stream().anyMatch(problem -> problem.place().line() == at),
                            () -> "line " + at + ": " + errors);
                    assertTrue(
                            errors.stream()
                                    .allMatch(problem -> problem.message().length() < 500),
                            "a message is not as long as what is wrong");
                    tried++;
                }
            }
        }
        int all = tried;
        assertTrue(all >= 300 / share(), () -> all + " tried");
    }

    @Test
    void bytesThatAreNoTextAreToldOfWhereTheyStand() throws IOException {
        for (byte[] bad : List.of(
                new byte[] {(byte) 0xE4}, new byte[] {(byte) 0xC3, 0x28}, new byte[] {(byte) 0xFF}, new byte[] {0})) {
            for (String text : good()) {
                int at = text.indexOf("inject:");
                ByteArrayOutputStream out = new ByteArrayOutputStream();
                out.write(text.substring(0, at).getBytes(StandardCharsets.UTF_8));
                out.write(bad);
                out.write(text.substring(at).getBytes(StandardCharsets.UTF_8));
                List<Problem> errors = errors(read(out.toByteArray()));
                assertEquals(1, errors.size(), errors::toString);
                assertTrue(isAt(errors.get(0), text, at), errors::toString);
            }
        }
        byte[] wide = GoodFiles.SCRIPT.getBytes(StandardCharsets.UTF_16);
        assertTrue(errors(read(wide)).get(0).message().contains("UTF-16"));
    }

    /** Files that are deep, long, or would grow, by what they are. */
    private Map<String, String> hostile() {
        String head = "fault-script: x\n";
        StringBuilder stairs = new StringBuilder(head);
        for (int depth = 0; depth < 1000; depth++) {
            stairs.append(" ".repeat(depth)).append("a:\n");
        }
        StringBuilder bomb = new StringBuilder("a: &a [x, x, x, x, x, x, x, x, x]\n");
        for (char name = 'b'; name <= 'z'; name++) {
            String before = "*" + (char) (name - 1);
            bomb.append(name).append(": &").append(name).append(" [").append(before);
            bomb.append((", " + before).repeat(8)).append("]\n");
        }
        Map<String, String> texts = new LinkedHashMap<>();
        texts.put("brackets", head + "inject: " + "[".repeat(100_000));
        texts.put("braces", head + "inject: " + "{ a: ".repeat(100_000));
        texts.put("dashes", head + "inject:\n  " + "- ".repeat(100_000));
        texts.put("stairs", stairs.toString());
        texts.put("bomb", bomb.toString());
        texts.put("one line", head + "why: " + "x".repeat(1_000_000 / share()));
        texts.put("keys", head + numbered("key%d: x\n", 60_000 / share()));
        texts.put("one key", head + "a: b\n".repeat(200_000 / share()));
        texts.put("items", head + "inject:\n" + "  - x\n".repeat(150_000 / share()));
        texts.put(
                "injections",
                GoodFiles.SCRIPT.replace(
                        "expect:\n",
                        "  - when: { step: READY }\n    lasts: 1 s\n".repeat(20_000 / share()) + "\nexpect:\n"));
        texts.put(
                "expectations",
                GoodFiles.SCRIPT.replace(
                        "\nend:", "  - never: { step: GIVEN_UP }\n".repeat(30_000 / share()) + "\nend:"));
        texts.put(
                "names",
                GoodFiles.SCRIPT.replace(
                        "\nend:", numbered("  - never: { step: NO_%d }\n", 30_000 / share()) + "\nend:"));
        texts.put(
                "comparisons",
                GoodFiles.SCRIPT.replace("above 7 V", "[" + "above 7 V, ".repeat(80_000 / share()) + "above 6 A]"));
        texts.put("quotes", head + "why: \"" + "\\x".repeat(400_000 / share()));
        texts.put("5 MB of comments", head + "# comment\n".repeat(500_000));
        texts.put("5 MB in a line", head + "why: " + "x".repeat(5_000_000));
        texts.put(
                "variants",
                GoodFiles.SCRIPT.replace(
                        "begin:", "vary: { a: 1 mm .. 9 mm in 1000, b: 1 mm .. 9 mm in 1000 }\nbegin:"));
        texts.put(
                "steps",
                GoodFiles.SCRIPT.replace("begin:", "vary: { a: 0 mm .. 999999999999 mm by 0.001 mm }\nbegin:"));
        return texts;
    }

    @Test
    void depthAndLengthAndBombsCostNoMoreThanTheyMay() throws IOException {
        for (Map.Entry<String, String> text : hostile().entrySet()) {
            Checked<FaultScript> read = read(text.getValue());
            boolean legal = text.getKey().equals("expectations");
            assertEquals(legal, errors(read).isEmpty(), () -> text.getKey() + ": " + read.problems());
            for (Problem problem : read.problems()) {
                assertTrue(problem.place().line() >= 1 && problem.message().length() < 1000, text.getKey());
            }
            assertAllAreCounted(text.getKey(), read.problems());
        }
    }

    /** What is not told is counted: there are as many problems as slips. */
    private void assertAllAreCounted(String what, List<Problem> problems) {
        Map<String, Integer> slips =
                Map.of("keys", 60_000, "one key", 200_000, "items", 150_000, "injections", 20_000, "names", 30_000);
        if (slips.containsKey(what)) {
            String last = problems.get(problems.size() - 1).message();
            Matcher matcher =
                    Pattern.compile("and ([0-9,]+) more errors in this file.*").matcher(last);
            assertTrue(matcher.matches(), () -> what + ": " + last);
            int more = Integer.parseInt(matcher.group(1).replace(",", ""));
            int all = slips.get(what) / share();
            // A file of which only the first line is right has two or three that are about the whole.
            assertTrue(Math.abs(100 + more - all) <= 3, () -> what + ": " + more + " of " + all);
        }
    }

    private static String numbered(String line, int count) {
        StringBuilder out = new StringBuilder();
        for (int number = 0; number < count; number++) {
            out.append(line.replace("%d", Integer.toString(number)));
        }
        return out.toString();
    }
}
