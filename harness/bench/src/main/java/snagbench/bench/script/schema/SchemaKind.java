package snagbench.bench.script.schema;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** Kinds of files that have a schema. */
public enum SchemaKind {
    /** A fault script. */
    FAULT_SCRIPT("fault-script"),
    /** A test plan. */
    TEST_PLAN("test-plan"),
    /** A rig's file. */
    RIG("rig"),
    /** A fail-safe register. */
    FAILSAFES("failsafes");

    private final String word;

    SchemaKind(String word) {
        this.word = word;
    }

    /**
     * The kind as people write it.
     *
     * @return such as "fault-script"
     */
    public String word() {
        return word;
    }

    /**
     * Finds a kind.
     *
     * @param word as people write it
     * @return the kind, if there is one
     */
    public static Optional<SchemaKind> of(String word) {
        return Arrays.stream(values()).filter(kind -> kind.word.equals(word)).findFirst();
    }

    /**
     * All kinds as people write them.
     *
     * @return in their order
     */
    public static List<String> words() {
        return Arrays.stream(values()).map(SchemaKind::word).toList();
    }
}
