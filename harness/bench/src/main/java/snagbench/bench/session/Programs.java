package snagbench.bench.session;

import snagbench.bench.script.FaultScript;

/** What a rig is loaded with for a script. */
public final class Programs {
    private Programs() {}

    /**
     * The digest of a script's program. Scripts that differ in their expectations only have the same.
     *
     * @param script checked against the rig's description
     * @return 32 bits
     */
    public static int digestOf(FaultScript script) {
        return ProgramCompiler.compile(script).digest();
    }
}
