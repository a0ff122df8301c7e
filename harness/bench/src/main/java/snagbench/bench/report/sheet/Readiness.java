package snagbench.bench.report.sheet;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;

/**
 * What runs prove of a rig's fail-safes, fail-safe by fail-safe. The newest results of each script on one build count together: they
 * are a proof where all of them passed and the fail-safe had to answer at least once.
 *
 * @param rig name of the rig
 * @param machineBuild build on the machine now, as somebody says or the rig tells; empty where nobody knows
 * @param lines of the register, in its order
 * @param runs how many runs of that rig were looked at
 */
public record Readiness(String rig, Optional<String> machineBuild, List<Line> lines, int runs) {
    /** Copies the list. */
    public Readiness {
        lines = List.copyOf(lines);
    }

    /** How a fail-safe stands. */
    public enum State {
        /** Its newest results are its proof, on the build that is on the machine, or nobody knows which that is. */
        PROVEN,
        /** It has a proof, on another build than the one on the machine. */
        OTHER_BUILD,
        /** All that was run of it passed, and nothing of it asked the fail-safe to answer. */
        NOT_ASKED,
        /** Of its newest results one settles nothing. */
        UNSETTLED,
        /** Of its newest results one failed, or the rig or the line did. */
        FAILED,
        /** No run of it was found. */
        NEVER
    }

    /**
     * A fail-safe.
     *
     * @param failSafe what the register says
     * @param state how it stands
     * @param proof its newest proof
     * @param trouble the worst of its newest results, where they are no proof; empty otherwise
     * @param notCovered scripts that the register names for it and that its proof is not made of
     */
    public record Line(
            RegisterSheet.FailSafe failSafe,
            State state,
            Optional<Proof> proof,
            String trouble,
            List<String> notCovered) {
        /** Copies the list. */
        public Line {
            notCovered = List.copyOf(notCovered);
        }
    }

    /**
     * The newest results of each script of a fail-safe on one build, all of which passed, and in which it had to answer.
     *
     * @param when the newest run in which it had to answer began, by the host's clock
     * @param since when the oldest run of which results count began
     * @param build on which
     * @param real true if all on a rig that really moves
     * @param evidence told, physical, or both
     * @param scripts how many scripts of the register
     * @param runs how many runs of them
     * @param margin the least in time, in microseconds
     * @param marginValues the least in value, one for each channel, in words
     */
    public record Proof(
            Instant when,
            Instant since,
            String build,
            boolean real,
            ScriptResult.Evidence evidence,
            int scripts,
            int runs,
            OptionalLong margin,
            List<String> marginValues) {
        /** Copies the list. */
        public Proof {
            marginValues = List.copyOf(marginValues);
        }
    }

    /**
     * Looks through runs.
     *
     * @param rig name of the rig; runs of others do not count
     * @param register its fail-safes
     * @param all runs in any order
     * @param machineBuild build on the machine now, where that is known
     * @return how each fail-safe stands
     */
    public static Readiness of(String rig, RegisterSheet register, List<RunRecord> all, Optional<String> machineBuild) {
        List<RunRecord> runs = all.stream()
                .filter(run -> run.header().rig().equals(rig))
                .map(RunRecord::concluded)
                .sorted(Comparator.comparing(run -> run.header().started()))
                .toList();
        List<Line> lines = register.failSafes().stream()
                .map(failSafe -> line(failSafe, runs, machineBuild))
                .toList();
        return new Readiness(rig, machineBuild, lines, runs.size());
    }

    private static Line line(RegisterSheet.FailSafe failSafe, List<RunRecord> runs, Optional<String> machineBuild) {
        String name = failSafe.name();
        List<RunRecord> own =
                runs.stream().filter(run -> !Standing.of(run, name).isEmpty()).toList();
        if (own.isEmpty()) {
            List<String> all = failSafe.scripts().isEmpty() ? List.of("no script") : failSafe.scripts();
            return new Line(failSafe, State.NEVER, Optional.empty(), "", all);
        }
        Map<String, Standing> now = new HashMap<>();
        Map<String, Standing> proofs = new HashMap<>();
        for (RunRecord run : own) {
            String build = run.header().build();
            Standing next = now.getOrDefault(build, Standing.beforeAll(name)).then(run);
            now.put(build, next);
            if (next.isProof()) {
                proofs.put(build, next);
            }
        }
        // A failure on another build says nothing of the one on the machine.
        String newest = own.get(own.size() - 1).header().build();
        String decides = machineBuild.filter(now::containsKey).orElse(newest);
        Standing standing = Objects.requireNonNull(now.get(decides));
        // A proof on the build that is on the machine goes before a newer one on another.
        Optional<Standing> proof = machineBuild
                .or(() -> Optional.of(decides).filter(build -> standing.isProof()))
                .flatMap(build -> Optional.ofNullable(proofs.get(build)))
                .or(() -> proofs.values().stream()
                        .max(Comparator.comparing(one -> one.proof().when())));
        State state = state(standing, proof.map(Standing::proof), machineBuild);
        boolean troubled = state != State.PROVEN && state != State.OTHER_BUILD;
        return new Line(
                failSafe,
                state,
                proof.map(Standing::proof),
                troubled ? standing.trouble() : "",
                notCovered(failSafe, proof.map(Standing::files).orElse(Set.of())));
    }

    private static State state(Standing standing, Optional<Proof> proof, Optional<String> machineBuild) {
        Verdict worst = standing.worst();
        if (worst != Verdict.PASS) {
            return worst.compareTo(Verdict.FAIL) >= 0 ? State.FAILED : State.UNSETTLED;
        }
        boolean otherBuild = machineBuild.isPresent()
                && proof.map(one -> !one.build().equals(machineBuild.get())).orElse(false);
        if (otherBuild) {
            return State.OTHER_BUILD;
        }
        return standing.isProof() ? State.PROVEN : State.NOT_ASKED;
    }

    private static List<String> notCovered(RegisterSheet.FailSafe failSafe, Set<String> files) {
        return failSafe.scripts().stream()
                .filter(file -> !files.contains(file))
                .distinct()
                .toList();
    }

    /** The day in UTC, as all stamps are. */
    static String day(Instant when) {
        return when.toString().substring(0, 10);
    }

    /**
     * How many fail-safes stand so.
     *
     * @param state which
     * @return from 0
     */
    public long count(State state) {
        return lines.stream().filter(line -> line.state() == state).count();
    }

    /**
     * What has to be known before the machine runs.
     *
     * @return sentences without their full stops; none where all is proven, and on the build on the machine
     */
    public List<String> warnings() {
        List<String> warnings = new ArrayList<>();
        if (runs == 0) {
            warnings.add("no run of " + rig + " was found");
        }
        name(warnings, State.FAILED, "failed when last run");
        name(warnings, State.UNSETTLED, "not settled when last run");
        name(warnings, State.NOT_ASKED, "run, but nothing that was run asked it to answer");
        name(
                warnings,
                State.OTHER_BUILD,
                "proven only on another build than the one on the machine, " + machineBuild.orElse(""));
        name(warnings, State.NEVER, "never run");
        if (machineBuild.isEmpty()) {
            List<String> builds = lines.stream()
                    .flatMap(line -> line.proof().stream())
                    .map(Proof::build)
                    .distinct()
                    .toList();
            warnings.add("nobody has said which build is on the machine: compare it by hand with the builds below"
                    + (builds.size() > 1 ? ", of which there are " + builds.size() : ""));
        }
        List<String> virtualOnly = lines.stream()
                .filter(line -> line.proof().map(proof -> !proof.real()).orElse(false))
                .map(line -> line.failSafe().name())
                .toList();
        if (!virtualOnly.isEmpty()) {
            warnings.add("proven on a virtual rig only, where nothing moves: " + names(virtualOnly));
        }
        return warnings;
    }

    private void name(List<String> warnings, State state, String what) {
        List<String> names = lines.stream()
                .filter(line -> line.state() == state)
                .map(line -> line.failSafe().name())
                .toList();
        if (!names.isEmpty()) {
            warnings.add(what + ": " + names(names));
        }
    }

    private String names(List<String> names) {
        return names.size() == lines.size() && names.size() > 1 ? "all of them" : String.join(", ", names);
    }
}
