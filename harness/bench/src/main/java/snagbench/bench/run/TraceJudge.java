package snagbench.bench.run;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import snagbench.bench.judge.Fact;
import snagbench.bench.judge.Finding;
import snagbench.bench.judge.Judge;
import snagbench.bench.judge.Judgement;
import snagbench.bench.judge.Verdict;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.Expectation;
import snagbench.bench.script.FailSafeDescription;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.script.Wanted;
import snagbench.bench.session.Programs;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceHeader;

/**
 * Judges a stored trace again, with the script as it is now. What the rig was loaded with then cannot be changed any more: a
 * script that injects something else finds none of its injections in the trace.
 */
public final class TraceJudge {
    private final StoredTrace stored;
    private final RigFile rig;
    private final RigDescription description;

    /**
     * A judge of one trace.
     *
     * @param stored the trace
     * @param rig what only people know of the rig
     * @param description against which scripts are read; channels of the trace go by their names
     */
    public TraceJudge(StoredTrace stored, RigFile rig, RigDescription description) {
        this.stored = stored;
        this.rig = rig;
        this.description = description;
    }

    /**
     * Judges. The trace of a control run of the script is judged as that.
     *
     * @param script what had to follow
     * @param file of the trace, for the result to name
     * @return what a run would have shown, of this trace and this script
     */
    public ScriptResult judge(FaultScript script, String file) {
        Trace trace = stored.trace().under(description);
        List<String> notes = notes();
        if (!holdsTheProgramOf(script)) {
            if (stored.header().origin() == TraceHeader.Origin.RUN) {
                Optional<ControlRun> control =
                        new StoredControl(script, trace, rig, description).madeOf(stored.header());
                if (control.isPresent()) {
                    return judge(control.get(), trace, notes, file);
                }
            }
            trace = trace.withoutProgram();
            if (stored.header().origin() == TraceHeader.Origin.RUN) {
                notes.add(
                        "the trace is of a rig that was loaded with other injections, or another beginning, than the script"
                                + " has now: none of these can be found in it; run it again");
            }
        }
        Judgement judgement = withoutWhatLacks(Judge.judge(script, trace, rig), script, trace);
        return result(script, Optional.empty(), judgement.noted(notes), trace, file);
    }

    private ScriptResult judge(ControlRun control, Trace trace, List<String> notes, String file) {
        FaultScript script = control.script();
        Judgement judgement = control.taken(withoutWhatLacks(Judge.judge(script, trace, rig), script, trace));
        return result(script, Optional.of(control.control()), judgement.noted(notes), trace, file);
    }

    private ScriptResult result(
            FaultScript script, Optional<Control> control, Judgement judgement, Trace trace, String file) {
        return new ScriptResult(
                0,
                script.name(),
                script.place(),
                1,
                1,
                stored.header().seed(),
                script.failSafes().stream().map(FailSafeDescription::name).toList(),
                ScriptResult.Evidence.of(script),
                judgement,
                trace.rows() == 0 ? 0 : trace.micros(trace.rows() - 1),
                ScriptResult.LoopTimes.of(trace),
                ScriptRun.gapTicks(trace),
                Optional.of(file),
                script.variant().map(variant -> new ScriptResult.Variation(variant.show(), 1, 1)),
                control);
    }

    private List<String> notes() {
        List<String> notes = new ArrayList<>();
        if (stored.header().origin() == TraceHeader.Origin.IMPORT) {
            notes.add("the trace is made of a table from elsewhere; what it says of injections is what the table says");
        }
        if (stored.header().origin() == TraceHeader.Origin.RECORD) {
            notes.add("the trace was recorded without a fault: none of the script's injections is in it");
        }
        if (!stored.whole()) {
            notes.add("the trace was not written to its end: the run was cut short");
        }
        if (stored.damagedFrames() > 0) {
            notes.add("the trace file is damaged in " + stored.damagedFrames()
                    + (stored.damagedFrames() == 1 ? " place" : " places") + "; what was there counts as a gap");
        }
        return notes;
    }

    /** Whether entries that the trace speaks of are those of the script. */
    private boolean holdsTheProgramOf(FaultScript script) {
        return switch (stored.header().origin()) {
            case RUN -> stored.header().program() == Programs.digestOf(script);
            case RECORD -> stored.header().program() == Programs.digestOf(Recordings.beginningOf(script));
            case IMPORT -> true;
        };
    }

    /** An expectation about something that the trace does not have is settled neither way. */
    private Judgement withoutWhatLacks(Judgement judgement, FaultScript script, Trace trace) {
        List<Finding> findings = new ArrayList<>(judgement.findings());
        List<String> reasons = new ArrayList<>();
        for (int i = 0; i < script.expectations().size(); i++) {
            Expectation expectation = script.expectations().get(i);
            Optional<String> lacking = lacking(Wanted.of(expectation, script), trace);
            if (lacking.isPresent()) {
                findings.set(i, notJudged(findings.get(i), lacking.get()));
                if (!reasons.contains(lacking.get())) {
                    reasons.add(lacking.get());
                }
            }
        }
        if (reasons.isEmpty()) {
            return judgement;
        }
        return judgement.withFindings(findings, reasons);
    }

    private Optional<String> lacking(Wanted wanted, Trace trace) {
        List<String> names = new ArrayList<>();
        for (ChannelDescription channel : wanted.channels()) {
            if (channel.index() >= description.channels().size() || !trace.isWatched(channel.index())) {
                boolean isOther = stored.trace().rig().channel(channel.name()).isPresent();
                names.add(channel.name() + (isOther ? " as the rig describes it now" : ""));
            }
        }
        for (FailSafeDescription failSafe : wanted.failSafes()) {
            if (stored.trace().rig().failSafe(failSafe.name()).isEmpty()) {
                names.add("fail-safe " + failSafe.name());
            }
        }
        names.sort(null);
        return names.isEmpty() ? Optional.empty() : Optional.of("the trace has no " + String.join(", no ", names));
    }

    private static Finding notJudged(Finding finding, String why) {
        List<Fact> facts = new ArrayList<>();
        finding.facts().stream()
                .filter(fact -> fact.label().equals("expected") || fact.label().equals("script"))
                .forEach(facts::add);
        facts.add(facts.isEmpty() ? 0 : 1, new Fact("but was", "not judged: " + why));
        return new Finding(
                finding.name(),
                finding.place(),
                Verdict.INCONCLUSIVE,
                facts,
                OptionalLong.empty(),
                OptionalLong.empty(),
                OptionalLong.empty());
    }
}
