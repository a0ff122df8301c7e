package snagbench.bench.script;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * The fail-safe register of a rig: what goes wrong, how it is seen, and what the machine does about it; checked against the
 * rig's description, of whose fail-safes each has one entry.
 *
 * @param place where the file starts
 * @param rig name of the rig
 * @param severityBy by which standard the severities are meant; may be empty
 * @param order which answers where two look for what is there in the same tick: the first of them in this list; may be empty
 * @param entries one for each fail-safe of the rig, in the order of the file
 */
public record FailSafeRegister(
        Place place, String rig, String severityBy, List<FailSafeDescription> order, List<Entry> entries) {
    /** Copies the lists. */
    public FailSafeRegister {
        order = List.copyOf(order);
        entries = List.copyOf(entries);
    }

    /**
     * One fail-safe.
     *
     * @param place where it is written
     * @param failSafe which one
     * @param title what it is called
     * @param cause what makes it necessary
     * @param effect what would come of it otherwise
     * @param severity how bad that would be
     * @param symptoms how it is seen
     * @param response what the machine does
     * @param recovery where the machine is once it has recovered
     * @param costs what the recovery takes of the run's reserve
     * @param parts parts of the machine that it is about, at least one
     * @param scripts files of the scripts that prove it; none where there are none yet
     */
    public record Entry(
            Place place,
            FailSafeDescription failSafe,
            String title,
            String cause,
            String effect,
            Severity severity,
            Symptoms symptoms,
            String response,
            Recovery recovery,
            Costs costs,
            List<String> parts,
            List<Path> scripts) {
        /** Copies the lists. */
        public Entry {
            parts = List.copyOf(parts);
            scripts = List.copyOf(scripts);
        }
    }

    /** The four categories of MIL-STD-1629A (1980), from the worst on; figures and names from memory. */
    public enum Severity {
        /** Category I, catastrophic. */
        I,
        /** Category II, critical. */
        II,
        /** Category III, marginal. */
        III,
        /** Category IV, minor. */
        IV
    }

    /**
     * How the trouble is seen, in what the control code is told.
     *
     * @param words for people
     * @param when conditions, any of which is the symptom; none where it cannot be said by channels
     * @param beside what of it no channel shows, in words; may be empty. Where it is not, the conditions are a part of it
     * @param constants constants of the control code by which the limits can be moved
     */
    public record Symptoms(String words, List<Symptom> when, String beside, List<ChannelDescription> constants) {
        /** Copies the lists. */
        public Symptoms {
            when = List.copyOf(when);
            constants = List.copyOf(constants);
        }
    }

    /**
     * One way in which the trouble is seen.
     *
     * @param condition on the told readings
     * @param heldMicros how long it must have held, in microseconds on the rig's clock; from 0 on
     * @param stepLastedMicros how long the step must have lasted when it answers, in microseconds on the rig's clock; from 0 on
     */
    public record Symptom(Condition condition, long heldMicros, long stepLastedMicros) {}

    /**
     * The state in which the machine is once it has recovered.
     *
     * @param channel the step, or another state
     * @param values any of these, in the channel's steps; at least one
     * @param withinMicros time allowed from the first tick with the trouble, in microseconds on the rig's clock
     */
    public record Recovery(ChannelDescription channel, List<Integer> values, long withinMicros) {
        /** Copies the list. */
        public Recovery {
            values = List.copyOf(values);
        }
    }

    /**
     * What a recovery takes of the run's reserve: how much later the run is done than a nominal one of the same seed.
     *
     * @param reserve least and greatest, in microseconds; empty where it is no time, or nobody has measured it
     * @param words what else it costs; may be empty
     */
    public record Costs(Optional<Expectation.Window> reserve, String words) {}
}
