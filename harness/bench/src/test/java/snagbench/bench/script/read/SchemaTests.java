package snagbench.bench.script.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import snagbench.bench.script.Checked;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.schema.SchemaKind;
import snagbench.bench.script.schema.Schemas;
import snagbench.bench.script.write.RandomScripts;
import snagbench.bench.script.write.ScriptWriter;
import snagbench.bench.script.yaml.YamlReader;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Schemas and readers hold each other: what a reader takes its schema takes, and what a schema refuses the reader refuses. */
class SchemaTests {
    private static final Path ROOT = GoodFiles.project();
    private static final int SEEDS = 700;
    private static final Pattern KEY = Pattern.compile("(?m)^([ -]*|.*[{,] ?)([a-z][a-z-]*): ");
    private static final Pattern VALUE = Pattern.compile("(?<=[a-z]: )([^{\\[\\n#,}>][^\\n#,}\\]]*)");
    private static final List<String> STRANGE = List.of(
            "5",
            "-1",
            "0",
            "true",
            "no",
            "~",
            "[]",
            "{}",
            "250",
            "250 ms",
            "'x'",
            "1e3",
            "0x10",
            "FS-02",
            "[FS-02]",
            "{ step: READY }",
            "at least 2",
            "begin",
            "freeze",
            "\"\"",
            "180 mm",
            "{ of: begin, time: 1 }",
            "$at");
    private static final List<String> KEYS = List.of(
            "within",
            "after",
            "for",
            "name",
            "until",
            "time",
            "from",
            "to",
            "count",
            "release",
            "send",
            "any-of",
            "failsafe",
            "repeat",
            "wired",
            "while",
            "step",
            "lasts",
            "inhibit",
            "when",
            "stuck");

    private final RigDescription rig = Snapshots.read(ROOT.resolve("fixtures/seedling-shuttle/rig.snapshot.json"))
            .value()
            .orElseThrow();
    private final Map<SchemaKind, Schema> plain = new EnumMap<>(SchemaKind.class);
    private final Map<SchemaKind, Schema> ofRig = new EnumMap<>(SchemaKind.class);

    @TempDir
    Path folder = Path.of("");

    private final RigFile rigFile = rigFile();

    /** A text, and by which reader and schema it is read. */
    record Text(String name, SchemaKind kind, String yaml) {}

    @BeforeEach
    void readSchemas() throws IOException {
        SchemaRegistry registry = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12);
        JsonMapper mapper = new JsonMapper();
        for (SchemaKind kind : SchemaKind.values()) {
            plain.put(kind, registry.getSchema(mapper.readTree(Schemas.text(kind))));
            ofRig.put(kind, registry.getSchema(mapper.readTree(Schemas.text(kind, rig, rigFile))));
        }
        for (Path script : GoodFiles.committed("test-plans", ".fault.yaml")) {
            Files.copy(script, folder.resolve(script.getFileName()));
        }
    }

    private RigFile rigFile() {
        try {
            Path file = Files.createTempDirectory("snagbench-test-").resolve(RigFiles.FILE_NAME);
            Files.writeString(file, Files.readString(ROOT.resolve("fixtures/seedling-shuttle/rig.yaml")));
            return RigFiles.readRig(file, Optional.of(rig)).value().orElseThrow();
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static Optional<SchemaKind> kindOf(Path file) {
        String name = file.getFileName().toString();
        if (name.endsWith(".fault.yaml")) {
            return Optional.of(SchemaKind.FAULT_SCRIPT);
        }
        if (name.endsWith(".plan.yaml")) {
            return Optional.of(SchemaKind.TEST_PLAN);
        }
        return name.equals("rig.yaml")
                ? Optional.of(SchemaKind.RIG)
                : Optional.of(SchemaKind.FAILSAFES).filter(kind -> name.equals("failsafes.yaml"));
    }

    private static List<Path> committed() {
        List<Path> files = new ArrayList<>(GoodFiles.committed("test-plans", ".yaml"));
        files.addAll(GoodFiles.committed("fixtures", ".yaml"));
        return files;
    }

    private static List<Text> goodTexts() throws IOException {
        List<Text> texts = new ArrayList<>();
        for (Path file : committed()) {
            Optional<SchemaKind> kind = kindOf(file);
            if (kind.isPresent()) {
                texts.add(new Text(ROOT.relativize(file).toString(), kind.get(), Files.readString(file)));
            }
        }
        for (DocumentedScriptsTests.Example example : DocumentedScriptsTests.examples()) {
            if (!example.kind().equals("rig")) {
                texts.add(new Text(example.toString(), SchemaKind.FAULT_SCRIPT, DocumentedScriptsTests.whole(example)));
            }
        }
        texts.add(new Text("a script", SchemaKind.FAULT_SCRIPT, GoodFiles.SCRIPT));
        texts.add(new Text("a plan", SchemaKind.TEST_PLAN, GoodFiles.PLAN));
        texts.add(new Text("a rig", SchemaKind.RIG, GoodFiles.RIG));
        return texts;
    }

    private static List<String> problems(Schema schema, String yaml) {
        Optional<JsonNode> tree =
                YamlReader.read(yaml.getBytes(StandardCharsets.UTF_8)).root().map(AsJson::of);
        List<String> found = new ArrayList<>();
        for (Error error : schema.validate(tree.orElseThrow())) {
            found.add(error.getInstanceLocation() + " " + error.getMessage());
        }
        return found;
    }

    private static Schema of(Map<SchemaKind, Schema> schemas, SchemaKind kind) {
        return Objects.requireNonNull(schemas.get(kind), () -> "no schema of " + kind);
    }

    private boolean isTaken(Text text) throws IOException {
        Path file = Files.writeString(folder.resolve("spoilt.yaml"), text.yaml());
        Checked<?> read =
                switch (text.kind()) {
                    case FAULT_SCRIPT -> ScriptReader.readAll(file, rig, rigFile);
                    case TEST_PLAN -> PlanReader.read(file);
                    default -> RigFiles.readRig(file, Optional.of(rig));
                };
        return !read.hasErrors();
    }

    @Test
    void everyCommittedFileAndEveryExampleIsValid() throws IOException {
        List<Text> texts = goodTexts();
        assertTrue(texts.size() > 30, () -> texts.size() + " texts");
        for (Text text : texts) {
            assertEquals(List.of(), problems(of(plain, text.kind()), text.yaml()), text::name);
            if (!text.name().contains("-reach/")) {
                assertEquals(
                        List.of(), problems(of(ofRig, text.kind()), text.yaml()), () -> text.name() + ", on the rig");
            }
        }
    }

    @Test
    void everyCommittedFileNamesItsSchema() throws IOException {
        Pattern line = Pattern.compile("^# yaml-language-server: \\$schema=(\\S+)\\n");
        for (Path file : committed()) {
            Optional<SchemaKind> kind = kindOf(file);
            assertTrue(kind.isPresent(), () -> "what is this? " + file);
            Matcher matcher = line.matcher(Files.readString(file));
            assertTrue(matcher.find(), () -> "no schema in the first line of " + file);
            Path schema = file.resolveSibling(matcher.group(1)).normalize();
            assertEquals(Schemas.text(kind.get()), Files.readString(schema), file::toString);
        }
    }

    /** What a plan's reader refuses an editor shows as well. */
    @Test
    void limitsOfAPlanAreInItsSchema() {
        for (String wrong : List.of(
                GoodFiles.PLAN.replace("repeat: 22", "repeat: 10001"),
                GoodFiles.PLAN.replace("reserve: 5 s", "reserve: 5 s\nbetween: {}"),
                GoodFiles.PLAN.replace(
                        "reserve: 5 s",
                        "reserve: 5 s\nbetween: { start-only-if: { battery.voltage.told: at least 12 V } }"))) {
            assertFalse(problems(of(plain, SchemaKind.TEST_PLAN), wrong).isEmpty(), wrong);
            assertFalse(problems(of(ofRig, SchemaKind.TEST_PLAN), wrong).isEmpty(), wrong);
        }
    }

    /** Slips of hands and minds; of those that the reader takes, the schema refuses none. */
    @Test
    void whatASchemaRefusesTheReaderRefuses() throws IOException {
        List<Text> good = goodTexts().stream()
                .filter(text ->
                        text.kind() != SchemaKind.FAILSAFES && !text.name().contains("-reach/"))
                .toList();
        int refused = 0;
        int refusedOnTheRig = 0;
        for (long seed = 1; seed <= SEEDS; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Text from = good.get(random.nextInt(good.size()));
            Text spoilt = new Text(from.name(), from.kind(), spoilt(from.yaml(), random));
            var document = YamlReader.read(spoilt.yaml().getBytes(StandardCharsets.UTF_8));
            if (document.root().isEmpty() || !document.problems().isEmpty()) {
                continue;
            }
            List<String> found = problems(of(plain, from.kind()), spoilt.yaml());
            List<String> onTheRig = problems(of(ofRig, from.kind()), spoilt.yaml());
            refused += found.isEmpty() ? 0 : 1;
            refusedOnTheRig += onTheRig.isEmpty() ? 0 : 1;
            String which = "seed " + seed + " of " + from.name() + ": " + found + onTheRig + "\n" + spoilt.yaml();
            assertFalse(isTaken(spoilt) && !(found.isEmpty() && onTheRig.isEmpty()), which);
        }
        int plainly = refused;
        int more = refusedOnTheRig;
        assertTrue(plainly >= 150, () -> plainly + " refused by the schema");
        assertTrue(more > plainly, () -> more + " refused on the rig, " + plainly + " without one");
    }

    private static String spoilt(String yaml, SplittableRandom random) {
        Pattern what = random.nextInt(3) == 0 ? KEY : VALUE;
        List<int[]> places = new ArrayList<>();
        Matcher matcher = what.matcher(yaml);
        int group = what == KEY ? 2 : 1;
        while (matcher.find()) {
            places.add(new int[] {matcher.start(group), matcher.end(group)});
        }
        if (places.isEmpty()) {
            return yaml;
        }
        int[] place = places.get(random.nextInt(places.size()));
        List<String> others = what == KEY ? KEYS : STRANGE;
        String becomes = others.get(random.nextInt(others.size()));
        if (what == VALUE && random.nextInt(4) == 0) {
            int[] other = places.get(random.nextInt(places.size()));
            becomes = yaml.substring(other[0], other[1]).strip();
        }
        return yaml.substring(0, place[0]) + becomes + yaml.substring(place[1]);
    }

    /** What the writer can write, the reader takes: the whole breadth of the language. */
    @Test
    void whatTheReaderTakesIsValid() throws IOException {
        int seen = 0;
        for (long seed = 1; seed <= 300; seed++) {
            String yaml = ScriptWriter.yaml(RandomScripts.of(seed, rig, rigFile));
            Text text = new Text("written", SchemaKind.FAULT_SCRIPT, yaml);
            if (isTaken(text)) {
                seen++;
                assertEquals(List.of(), problems(of(plain, text.kind()), yaml), yaml);
                assertEquals(List.of(), problems(of(ofRig, text.kind()), yaml), yaml);
            }
        }
        int taken = seen;
        assertTrue(taken >= 200, () -> taken + " scripts taken");
    }

    @ParameterizedTest
    @EnumSource(SchemaKind.class)
    void everyKeyOfASchemaIsExplained(SchemaKind kind) {
        JsonNode schema = new JsonMapper().readTree(Schemas.text(kind));
        for (Map.Entry<String, JsonNode> key : schema.path("properties").properties()) {
            JsonNode value = key.getValue();
            JsonNode part =
                    value.has("$ref") ? schema.at(value.path("$ref").asString().substring(1)) : value;
            assertTrue(value.has("description") || part.has("description"), key::getKey);
        }
    }
}
