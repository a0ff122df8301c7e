package snagbench.bench.cli;

import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import snagbench.bench.judge.Verdict;
import snagbench.bench.report.Family;
import snagbench.bench.run.ChangeResult;
import snagbench.bench.run.Conclusions;
import snagbench.bench.run.PlannedRun;
import snagbench.bench.run.Role;
import snagbench.bench.run.RunListener;
import snagbench.bench.run.ScriptResult;

/**
 * Shows how a run goes: a line for each result, and on a terminal one more that tells what runs and how much time is
 * left.
 */
final class ProgressLine implements RunListener {
    private static final double MICROS_PER_SECOND = 1e6;
    private static final double MILLIS_PER_SECOND = 1e3;

    private final Clock clock;
    private final Results results;
    private final LiveLine live;
    private final String of;
    private final int planned;
    private final long beganMillis;
    private String title = "";
    private int ended;
    private final List<ScriptResult> family = new ArrayList<>();
    private final List<ScriptResult> controls = new ArrayList<>();
    private boolean isComplete;

    /**
     * Of a run that begins now.
     *
     * @param to where it is shown
     * @param results takes the results
     * @param of what runs on which rig
     * @param planned how many scripts
     */
    ProgressLine(Surroundings to, Results results, String of, int planned) {
        this.clock = to.clock();
        this.results = results;
        this.live = new LiveLine(to);
        this.of = of;
        this.planned = planned;
        this.beganMillis = clock.millis();
    }

    /** Until a rig has answered there is nothing to tell of it. */
    void connecting(String how) {
        live.show("connecting " + how + " ...");
    }

    @Override
    public void started(int index, PlannedRun run) {
        begin();
        title = run.title();
        if (run.control().isEmpty() && isComplete) {
            showFamily();
        }
    }

    private void begin() {
        live.erase();
        results.begin(of);
    }

    @Override
    public void waits(int index, String why) {
        live.show(String.format(Locale.ROOT, "%d of %d  %s", index + 1, planned, why));
    }

    @Override
    public void progressed(int index, long rigMicros) {
        if (!live.isDue()) {
            return;
        }
        live.show(String.format(
                Locale.ROOT,
                "%d of %d  %s  %.1f s%s",
                index + 1,
                planned,
                title,
                rigMicros / MICROS_PER_SECOND,
                timeLeft(clock.millis())));
    }

    private String timeLeft(long now) {
        if (ended == 0) {
            return "";
        }
        double each = (now - beganMillis) / MILLIS_PER_SECOND / ended;
        return String.format(Locale.ROOT, "  about %.0f s left", Math.ceil(each * (planned - ended)));
    }

    @Override
    public void ended(ScriptResult result) {
        if (result.role() != Role.FAULT) {
            controls.add(result);
            return;
        }
        begin();
        ended++;
        Optional<ScriptResult.Variation> variant = result.variant();
        if (isComplete || (!family.isEmpty() && !Family.belongTogether(family.get(family.size() - 1), result))) {
            showFamily();
        }
        family.add(result);
        boolean alone = variant.isEmpty() && result.judgement().verdict() != Verdict.NONE;
        isComplete = alone || variant.map(one -> one.number() == one.of()).orElse(false);
    }

    @Override
    public void tried(ChangeResult result) {
        showFamily();
        title = "adequacy, " + result.words();
    }

    /** A file that varies something is shown as a whole, or as far as it came; and only once its control runs are made. */
    private void showFamily() {
        if (!family.isEmpty()) {
            begin();
            results.rows(new Family(Conclusions.concluded(family, controls)));
            family.clear();
            isComplete = false;
        }
    }

    /** The run is over: shows what is left to show. */
    void finish() {
        begin();
        showFamily();
    }

    /** Takes the progress line away, so that something else can stand there. */
    void erase() {
        live.erase();
    }
}
