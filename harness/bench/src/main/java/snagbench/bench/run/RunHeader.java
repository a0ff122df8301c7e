package snagbench.bench.run;

import java.time.Instant;
import java.util.List;
import java.util.Objects;

/**
 * How a run began. All that differs between two runs of the same seed stands here.
 *
 * @param started when, by the host's clock
 * @param harness version of the harness
 * @param java version of the Java that ran it
 * @param plan name of the plan
 * @param file the plan's file
 * @param rig name of the rig
 * @param build name of the control code's build, as the rig told it
 * @param real true if the rig moves something real
 * @param digest digest of the rig's description, 32 bits in hexadecimal
 * @param seed seed of the whole run
 * @param planned titles of all runs, in order, so that what was not run can be told
 * @param restMicros how long the rig was to rest between two runs
 * @param claims what was to be shown of which scripts
 */
public record RunHeader(
        Instant started,
        String harness,
        String java,
        String plan,
        String file,
        String rig,
        String build,
        boolean real,
        String digest,
        int seed,
        List<String> planned,
        long restMicros,
        List<ClaimedScript> claims) {
    /** Copies the lists; a journal from before there were claims has none. */
    public RunHeader {
        planned = List.copyOf(planned);
        claims = Objects.requireNonNullElse(claims, List.<ClaimedScript>of()).stream()
                .toList();
    }

    /**
     * The beginning of a run that claimed nothing and rested nowhere.
     *
     * @param started when, by the host's clock
     * @param harness version of the harness
     * @param java version of the Java that ran it
     * @param plan name of the plan
     * @param file the plan's file
     * @param rig name of the rig
     * @param build name of the control code's build, as the rig told it
     * @param real true if the rig moves something real
     * @param digest digest of the rig's description, 32 bits in hexadecimal
     * @param seed seed of the whole run
     * @param planned titles of all runs, in order
     */
    public RunHeader(
            Instant started,
            String harness,
            String java,
            String plan,
            String file,
            String rig,
            String build,
            boolean real,
            String digest,
            int seed,
            List<String> planned) {
        this(started, harness, java, plan, file, rig, build, real, digest, seed, planned, 0, List.of());
    }
}
