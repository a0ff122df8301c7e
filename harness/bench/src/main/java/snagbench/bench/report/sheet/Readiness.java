package snagbench.bench.report.sheet;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeSet;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.ValueMargin;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.Family;
import snagbench.bench.report.Sentences;
import snagbench.bench.report.register.RegisterSheet;
import snagbench.bench.run.RunHeader;
import snagbench.bench.run.RunRecord;
import snagbench.bench.run.ScriptResult;

/**
 * What runs prove of a rig's fail-safes, fail-safe by fail-safe: the newest run in which all that was run of one passed is its proof.
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
        /** The newest run of it is its proof, on the build that is on the machine, or nobody knows which that is. */
        PROVEN,
        /** It has a proof, on another build than the one on the machine. */
        OTHER_BUILD,
        /** The newest run of it settles nothing. */
        UNSETTLED,
        /** In the newest run of it something failed, or the rig or the line did. */
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
     * @param trouble what its newest run ended with, where that is no proof; empty otherwise
     * @param notCovered scripts that the register names for it and that did not pass in the proof's run, and what that proof is not
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
     * A run in which all that was run of a fail-safe passed.
     *
     * @param when it began, by the host's clock
     * @param build on which
     * @param real true if on a rig that really moves
     * @param evidence told, physical, or both
     * @param scripts how many scripts of the register
     * @param runs how many runs of them
     * @param margin the least in time, in microseconds
     * @param marginValues the least in value, one for each channel, in words
     */
    public record Proof(
            Instant when,
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
                .sorted(Comparator.comparing((RunRecord run) -> run.header().started())
                        .reversed())
                .toList();
        List<Line> lines = register.failSafes().stream()
                .map(failSafe -> line(failSafe, runs, machineBuild))
                .toList();
        return new Readiness(rig, machineBuild, lines, runs.size());
    }

    private static Line line(RegisterSheet.FailSafe failSafe, List<RunRecord> runs, Optional<String> machineBuild) {
        List<RunRecord> own =
                runs.stream().filter(run -> !of(run, failSafe).isEmpty()).toList();
        if (own.isEmpty()) {
            List<String> all = failSafe.scripts().isEmpty() ? List.of("no script") : failSafe.scripts();
            return new Line(failSafe, State.NEVER, Optional.empty(), "", all);
        }
        // A proof on the build that is on the machine goes before a newer one on another.
        Optional<RunRecord> proof = own.stream()
                .filter(run -> proves(run, failSafe))
                .filter(run -> machineBuild.isEmpty() || run.header().build().equals(machineBuild.get()))
                .findFirst()
                .or(() -> own.stream().filter(run -> proves(run, failSafe)).findFirst());
        // A failure on another build says nothing of the one on the machine.
        Optional<RunRecord> newestHere = own.stream()
                .filter(run -> machineBuild.isEmpty() || run.header().build().equals(machineBuild.get()))
                .findFirst();
        RunRecord decides = newestHere.orElse(own.get(0));
        Verdict newest = worst(of(decides, failSafe));
        boolean otherBuild = machineBuild.isPresent()
                && proof.map(run -> !run.header().build().equals(machineBuild.get()))
                        .orElse(false);
        State state = newest == Verdict.PASS
                ? otherBuild ? State.OTHER_BUILD : State.PROVEN
                : newest.compareTo(Verdict.FAIL) >= 0 ? State.FAILED : State.UNSETTLED;
        return new Line(
                failSafe,
                state,
                proof.map(run -> proof(run, failSafe)),
                newest == Verdict.PASS ? "" : trouble(decides, failSafe),
                proof.map(run -> notCovered(run, failSafe)).orElse(failSafe.scripts()));
    }

    private static List<ScriptResult> of(RunRecord run, RegisterSheet.FailSafe failSafe) {
        return run.results().stream()
                .filter(result -> result.failSafes().contains(failSafe.name()))
                .filter(result -> result.judgement().verdict() != Verdict.NONE)
                .toList();
    }

    private static boolean proves(RunRecord run, RegisterSheet.FailSafe failSafe) {
        List<ScriptResult> results = of(run, failSafe);
        return !results.isEmpty() && worst(results) == Verdict.PASS;
    }

    private static Verdict worst(List<ScriptResult> results) {
        return results.stream().map(one -> one.judgement().verdict()).reduce(Verdict.NONE, Verdict::worse);
    }

    private static String trouble(RunRecord run, RegisterSheet.FailSafe failSafe) {
        ScriptResult result = of(run, failSafe).stream()
                .max(Comparator.comparing(one -> one.judgement().verdict()))
                .orElseThrow();
        RunHeader header = run.header();
        return result.judgement().verdict().word() + " on build " + header.build() + ", " + day(header.started()) + ", "
                + Sentences.title(result) + ": " + Sentences.cause(result.judgement());
    }

    /** The day in UTC, as all stamps are. */
    static String day(Instant when) {
        return when.toString().substring(0, 10);
    }

    private static Proof proof(RunRecord run, RegisterSheet.FailSafe failSafe) {
        List<ScriptResult> results = of(run, failSafe);
        boolean told = results.stream().anyMatch(one -> one.evidence() != ScriptResult.Evidence.PHYSICAL);
        boolean physical = results.stream().anyMatch(one -> one.evidence() != ScriptResult.Evidence.TOLD);
        return new Proof(
                run.header().started(),
                run.header().build(),
                run.header().real(),
                told && physical
                        ? ScriptResult.Evidence.TOLD_AND_PHYSICAL
                        : physical ? ScriptResult.Evidence.PHYSICAL : ScriptResult.Evidence.TOLD,
                files(results).size(),
                results.size(),
                results.stream()
                        .map(Family::marginOf)
                        .filter(OptionalLong::isPresent)
                        .mapToLong(OptionalLong::getAsLong)
                        .min(),
                leastValues(results));
    }

    private static List<String> leastValues(List<ScriptResult> results) {
        List<ValueMargin> all = results.stream()
                .flatMap(one -> one.judgement().findings().stream())
                .map(Finding::marginValue)
                .flatMap(Optional::stream)
                .toList();
        return all.stream()
                .map(ValueMargin::channel)
                .distinct()
                .sorted()
                .map(channel -> channel + " "
                        + all.stream()
                                .filter(one -> one.channel().equals(channel))
                                .min(Comparator.comparing(ValueMargin::figure))
                                .orElseThrow()
                                .show())
                .toList();
    }

    private static Set<String> files(List<ScriptResult> results) {
        Set<String> files = new TreeSet<>();
        results.forEach(one -> files.add(String.valueOf(one.place().file().getFileName())));
        return files;
    }

    private static List<String> notCovered(RunRecord run, RegisterSheet.FailSafe failSafe) {
        Set<String> left = new LinkedHashSet<>(failSafe.scripts());
        left.removeAll(files(of(run, failSafe)));
        return new ArrayList<>(left);
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
