package snagbench.bench.script.yaml;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;

/**
 * What it most likely means when YAML cannot be parsed. The parser's own words name its grammar; the person at the
 * keyboard has pressed the tab key.
 */
final class YamlTrap {
    private final String context;
    private final String problem;
    private final Position at;
    private final Optional<Position> opened;
    private final SourceText source;

    private YamlTrap(MarkedYamlEngineException e, SourceText source) {
        this.context = textOf(e.getContext());
        this.problem = textOf(e.getProblem());
        this.opened = e.getContextMark().map(TreeBuilder::position).map(source::inside);
        this.at = source.inside(e.getProblemMark().map(TreeBuilder::position).orElse(opened.orElse(Position.START)));
        this.source = source;
    }

    private static String textOf(@Nullable String text) {
        return text == null ? "" : text;
    }

    static YamlProblem explain(MarkedYamlEngineException e, SourceText source) {
        YamlTrap trap = new YamlTrap(e, source);
        return trap.tab().or(trap::sign).or(trap::unclosed).or(trap::character).orElseGet(trap::shape);
    }

    /** A tab in the indentation of the line, or of one of those since the surrounding thing began. */
    private Optional<YamlProblem> tab() {
        int from = Math.min(at.line(), opened.map(Position::line).orElse(at.line()));
        for (int number = from; number <= at.line(); number++) {
            String line = source.line(number);
            int indent = 0;
            while (indent < line.length() && line.charAt(indent) == ' ') {
                indent++;
            }
            if (indent < line.length() && line.charAt(indent) == '\t') {
                return found(
                        new Position(number, indent + 1),
                        "a tab in the indentation; YAML takes spaces only",
                        "put spaces in its place (most editors can be told to, and to do it always)");
            }
        }
        return Optional.empty();
    }

    /** The sign ">" or "|" in front of a value. */
    private Optional<YamlProblem> sign() {
        if (!context.contains("block scalar") || opened.isEmpty()) {
            return Optional.empty();
        }
        Position start = opened.get();
        String line = source.line(start.line());
        int offset = line.offsetByCodePoints(0, Math.min(start.column() - 1, line.codePointCount(0, line.length())));
        String rest = line.substring(offset);
        if (rest.startsWith(">=")) {
            return found(
                    start,
                    "an unquoted \">\" begins a folded text in YAML",
                    "write \"at least " + rest.substring(2).strip() + "\", or put the comparison in quotes");
        }
        if (rest.startsWith(">")) {
            return found(
                    start,
                    "an unquoted \">\" begins a folded text in YAML",
                    "write \"above " + rest.substring(1).strip() + "\", or put the comparison in quotes");
        }
        return found(
                start,
                "an unquoted \"|\" begins a text of several lines in YAML",
                "start the text in the next line, or put it in quotes");
    }

    /** Quotes, brackets and braces that are opened and not closed. */
    private Optional<YamlProblem> unclosed() {
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        if (context.contains("quoted scalar") && problem.contains("end of stream")) {
            return found(opened.get(), "this quote is opened and not closed", "close it in the same line");
        }
        if (context.contains("quoted scalar") && problem.contains("escape")) {
            return found(
                    at,
                    "in double quotes a backslash begins an escape, and this one there is not",
                    "take single quotes, or write the backslash twice");
        }
        boolean mapping = context.contains("flow mapping");
        if (mapping || context.contains("flow sequence")) {
            String bracket = mapping ? "\"{\"" : "\"[\"";
            String closing = mapping ? "\"}\"" : "\"]\"";
            return found(
                    opened.get(),
                    "what is opened here by " + bracket + " goes wrong in line " + at.line() + ", column "
                            + at.column(),
                    "close it by " + closing + ", and put commas between its parts");
        }
        return Optional.empty();
    }

    /** Characters that cannot begin an unquoted text. */
    private Optional<YamlProblem> character() {
        if (!problem.contains("cannot start any token")) {
            return Optional.empty();
        }
        String line = source.line(at.line());
        int offset = line.offsetByCodePoints(0, at.column() - 1);
        String sign = offset < line.length() ? Character.toString(line.codePointAt(offset)) : "";
        if (sign.equals(">")) {
            return found(
                    at,
                    "an unquoted \">\" cannot begin a value in YAML",
                    "write \"above\" or \"at least\" in its place, or put the comparison in quotes");
        }
        return found(at, "an unquoted text cannot begin with " + Shown.quoted(sign) + " in YAML", "put it in quotes");
    }

    /** Colons, dashes and indentation. */
    private YamlProblem shape() {
        if (problem.contains("mapping values are not allowed")) {
            return new YamlProblem(
                    at,
                    "a colon that YAML does not expect here",
                    "a text that holds \": \" wants quotes; a new key wants a line of its own, indented as the other"
                            + " keys beside it");
        }
        if (problem.contains("entries are not allowed")) {
            return new YamlProblem(
                    at, "a list cannot begin here", "put its first \"- \" in a line of its own, under the key");
        }
        if (problem.contains("could not find expected ':'")) {
            return new YamlProblem(
                    opened.orElse(at),
                    "neither a key with its colon nor a part of the value before",
                    "a key wants a colon and a space after it; check the indentation");
        }
        if (problem.contains("expected <block end>")) {
            return new YamlProblem(
                    at,
                    "this does not go on with what began in line "
                            + opened.map(Position::line).orElse(at.line()),
                    "indent it as the lines that it belongs to; a quote inside a quoted text is written twice");
        }
        return new YamlProblem(at, "this YAML cannot be read: " + problem, "check colons, dashes and indentation");
    }

    private static Optional<YamlProblem> found(Position at, String message, String cure) {
        return Optional.of(new YamlProblem(at, message, cure));
    }
}
