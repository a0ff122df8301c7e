package snagbench.bench.script.yaml;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;

/**
 * Reads YAML 1.2 with positions. Whatever the bytes are, it returns; size and depth are bounded, and anchors, aliases
 * and tags are not taken.
 */
public final class YamlReader {
    /** Most bytes of a file: 1 MiB. */
    public static final int MOST_BYTES = 1 << 20;

    /** Greatest depth of lists and mappings in each other. */
    public static final int MOST_DEPTH = 32;

    private YamlReader() {}

    /**
     * Reads a file's bytes.
     *
     * @param bytes UTF-8; a file that is longer than {@link #MOST_BYTES} may be handed over cut off after one byte more
     * @return what could be read, and all problems
     */
    public static YamlDocument read(byte[] bytes) {
        if (bytes.length > MOST_BYTES) {
            YamlProblem tooLong =
                    new YamlProblem(Position.START, "longer than 1 MiB", "split it: nothing that long is meant here");
            return new YamlDocument(Optional.empty(), List.of(), List.of(tooLong));
        }
        SourceText source = SourceText.of(bytes);
        if (source.problem().isPresent()) {
            return new YamlDocument(
                    Optional.empty(), source.lines(), List.of(source.problem().get()));
        }
        List<YamlProblem> problems = new ArrayList<>();
        Optional<YamlNode> root = parse(source, problems);
        problems.sort(Comparator.comparing(YamlProblem::at));
        return new YamlDocument(root, source.lines(), problems);
    }

    private static Optional<YamlNode> parse(SourceText source, List<YamlProblem> problems) {
        // The parser (3.0.1) fails on a character beyond U+FFFF that straddles the end of its buffer: the whole fits
        // in.
        LoadSettings settings = LoadSettings.builder()
                .setLabel("file")
                .setCodePointLimit(MOST_BYTES)
                .setBufferSize(source.text().length() + 1)
                .build();
        try {
            var events = new Parse(settings).parseString(source.text()).iterator();
            return new TreeBuilder(events, problems).document();
        } catch (TreeBuilder.TooDeepException e) {
            problems.add(new YamlProblem(
                    source.inside(e.at()),
                    "lists and mappings stand in each other deeper than " + MOST_DEPTH,
                    "close those that are opened by mistake"));
        } catch (MarkedYamlEngineException e) {
            problems.add(YamlTrap.explain(e, source));
        } catch (YamlEngineException e) {
            problems.add(new YamlProblem(
                    Position.START,
                    "this YAML cannot be read: " + e.getMessage(),
                    "take out lines that begin with \"%\""));
        }
        return Optional.empty();
    }
}
