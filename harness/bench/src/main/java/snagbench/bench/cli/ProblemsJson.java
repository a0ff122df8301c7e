package snagbench.bench.cli;

import java.util.List;
import java.util.Locale;
import snagbench.bench.script.Place;
import snagbench.bench.script.Problem;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Problems as editors read them: {@code {"problems": [{"file", "line", "column", "severity", "message", "cure", "source"}]}}.
 * Lines and columns count from 1, columns in characters; severity is "error" or "warning"; "cure" may be empty, "source" is
 * the line itself.
 */
final class ProblemsJson {
    private ProblemsJson() {}

    static String text(List<Problem> problems, Surroundings surroundings) {
        JsonMapper mapper = new JsonMapper();
        ObjectNode root = mapper.createObjectNode();
        ArrayNode all = root.putArray("problems");
        for (Problem problem : problems) {
            Place place = problem.place();
            all.addObject()
                    .put("file", surroundings.show(place.file()).toString())
                    .put("line", place.line())
                    .put("column", place.column())
                    .put("severity", problem.severity().name().toLowerCase(Locale.ROOT))
                    .put("message", problem.message())
                    .put("cure", problem.cure())
                    .put("source", problem.sourceLine());
        }
        return mapper.writerWithDefaultPrettyPrinter().writeValueAsString(root);
    }
}
