package snagbench.bench.script;

import java.nio.file.Path;

/**
 * A place in a file that a user wrote.
 *
 * @param file the file, as the user named it
 * @param line from 1
 * @param column from 1
 */
public record Place(Path file, int line, int column) {
    /** The form that editors and terminals jump to. */
    @Override
    public String toString() {
        return file + ":" + line + ":" + column;
    }

    /**
     * The short form for tables.
     *
     * @return file name without folders, and line
     */
    public String brief() {
        return file.getFileName() + ":" + line;
    }
}
