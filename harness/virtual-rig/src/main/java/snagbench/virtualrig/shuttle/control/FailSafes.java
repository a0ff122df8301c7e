package snagbench.virtualrig.shuttle.control;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import snagbench.probe.FailSafe;
import snagbench.probe.Probe;

/** Looks for every symptom in every tick, and lets one fail-safe answer: the first by {@link #ORDER}. */
final class FailSafes {
    /** By power: the run's end, what cannot be believed, the base, then the arm. */
    private static final Symptom[] ORDER = {
        Symptom.TIME_NEARLY_OUT,
        Symptom.SENSOR_CONTRADICTS,
        Symptom.BASE_OFF_PLACE,
        Symptom.SHELF_BLOCKED,
        Symptom.CURRENT_OVER_LIMIT,
        Symptom.STOPPED_EARLY,
        Symptom.GRIP_NOT_THERE,
        Symptom.GRIP_MISSED,
        Symptom.CAUGHT_BEHIND,
        Symptom.JAMMED_IN_THROAT,
        Symptom.HAND_OVER_FAILED
    };

    private final Probe probe;
    private final Symptoms symptoms;
    /** By the fail-safes' numbers, from 1 on. */
    private final List<Watched> watched = new ArrayList<>();

    private record Watched(FailSafe failSafe, boolean isLookedFor, Debounce debounce) {}

    FailSafes(Probe probe, ShuttleChannels channels, Symptoms symptoms, Set<Symptom> lookedFor) {
        this.probe = probe;
        this.symptoms = symptoms;
        for (Symptom symptom : Symptom.values()) {
            watched.add(new Watched(channels.failSafe(symptom), lookedFor.contains(symptom), new Debounce()));
        }
    }

    private Watched of(Symptom symptom) {
        return watched.get(symptom.number() - 1);
    }

    /** The symptom whose fail-safe answers in this tick, which it has then reported; null where none does. */
    @Nullable
    Symptom answering(Step step, int inStepMicros, int nowMicros) {
        Symptom answering = null;
        for (Symptom symptom : ORDER) {
            boolean mayAnswer = mayAnswer(symptom);
            boolean seen = symptoms.isSeen(symptom, step, inStepMicros);
            boolean held = of(symptom).debounce.hasHeld(seen, nowMicros, symptoms.heldMicros(symptom));
            if (answering == null && held && mayAnswer && symptoms.counts(symptom, inStepMicros)) {
                answering = symptom;
            }
        }
        if (answering != null) {
            probe.answered(of(answering).failSafe);
        }
        return answering;
    }

    /** Lets a fail-safe answer at once; false where it is inhibited or left out. */
    boolean answers(Symptom symptom) {
        if (!mayAnswer(symptom)) {
            return false;
        }
        probe.answered(of(symptom).failSafe);
        return true;
    }

    /** Reads the inhibition, which must happen in every tick for it to show. */
    boolean mayAnswer(Symptom symptom) {
        boolean inhibited = probe.read(of(symptom).failSafe.inhibition(), 0) != 0;
        return !inhibited && of(symptom).isLookedFor;
    }

    void restart() {
        watched.forEach(one -> one.debounce.restart());
    }
}
