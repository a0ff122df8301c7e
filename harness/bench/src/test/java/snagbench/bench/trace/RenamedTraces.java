package snagbench.bench.trace;

import java.util.stream.IntStream;
import snagbench.bench.script.RigDescription;

/** Traces of a rig whose channels have other names, whatever these are. */
public final class RenamedTraces {
    private RenamedTraces() {}

    /** Channel by channel in the same order. */
    public static Trace of(Trace trace, RigDescription other) {
        int[] same = IntStream.range(0, other.channels().size()).toArray();
        return trace.renamed(other, same, trace.events());
    }
}
