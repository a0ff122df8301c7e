package snagbench.bench.script;

/**
 * Something wrong, or suspicious, in a file.
 *
 * @param place where
 * @param severity how bad
 * @param message what was found, in a sentence
 * @param cure what would do, or the nearest right name; may be empty
 * @param sourceLine the line of the file; may be empty
 */
public record Problem(Place place, Severity severity, String message, String cure, String sourceLine) {
    /** How bad a problem is. */
    public enum Severity {
        /** Nothing runs. */
        ERROR,
        /** Legal but suspicious. */
        WARNING
    }
}
