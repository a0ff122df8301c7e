package snagbench.bench.script;

import java.util.OptionalInt;

/**
 * A fail-safe, as the rig describes it.
 *
 * @param number its number on the line, from 1
 * @param name its name in the register, such as "FS-02"
 * @param inhibition index of the channel that leaves it out, if there is one
 */
public record FailSafeDescription(int number, String name, OptionalInt inhibition) {}
