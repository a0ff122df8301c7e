package snagbench.virtualrig.shuttle;

import java.util.EnumSet;
import java.util.Set;
import snagbench.virtualrig.shuttle.control.Symptom;

/** The builds of the rig: which control code, in which state of the machine. */
enum ShuttleBuild {
    STANDARD("standard", "1.0", EnumSet.allOf(Symptom.class)),
    WITHOUT_FS_01("without-FS-01", "1.0 no FS-01", EnumSet.of(Symptom.STOPPED_EARLY, Symptom.GRIP_NOT_THERE)),
    WITHOUT_FS_02("without-FS-02", "1.0 no FS-02", EnumSet.of(Symptom.CURRENT_OVER_LIMIT, Symptom.GRIP_NOT_THERE)),
    WITHOUT_FS_03("without-FS-03", "1.0 no FS-03", EnumSet.of(Symptom.CURRENT_OVER_LIMIT, Symptom.STOPPED_EARLY)),
    /** The standard code, with a battery so worn that a stalled arm pulls the controller down. */
    WEAK_BATTERY("weak-battery", "1.0 weak bat", EnumSet.allOf(Symptom.class)),
    /** Code that does not look whether the arm stands, on a bench without rack and pot: nothing but a guard stops the arm. */
    WITHOUT_RACK("without-rack", "1.0 no rack", EnumSet.of(Symptom.CURRENT_OVER_LIMIT));

    private final String title;
    private final String greeting;
    private final Set<Symptom> lookedFor;

    ShuttleBuild(String title, String greeting, Set<Symptom> lookedFor) {
        this.title = title;
        this.greeting = greeting;
        this.lookedFor = lookedFor;
    }

    /** Name by which a rig's file asks for it. */
    String title() {
        return title;
    }

    /** Name that the greeting tells. */
    String greeting() {
        return greeting;
    }

    Set<Symptom> lookedFor() {
        return lookedFor;
    }
}
