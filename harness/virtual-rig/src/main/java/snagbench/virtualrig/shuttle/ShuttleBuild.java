package snagbench.virtualrig.shuttle;

import java.util.EnumSet;
import java.util.Set;
import snagbench.virtualrig.shuttle.control.Symptom;

/** The builds of the rig: which control code, in which state of the machine. */
enum ShuttleBuild {
    STANDARD("standard", "1.0"),
    WITHOUT_FS_01("without-FS-01", "1.0 no FS-01"),
    WITHOUT_FS_02("without-FS-02", "1.0 no FS-02"),
    WITHOUT_FS_03("without-FS-03", "1.0 no FS-03"),
    /** The standard code, with a battery so worn that a stalled arm pulls the controller down. */
    WEAK_BATTERY("weak-battery", "1.0 weak bat"),
    /** Code that does not look whether the arm stands, on a bench without rack and pot: nothing but a guard stops the arm. */
    WITHOUT_RACK("without-rack", "1.0 no rack");

    private final String title;
    private final String greeting;

    ShuttleBuild(String title, String greeting) {
        this.title = title;
        this.greeting = greeting;
    }

    /** Name by which a rig's file asks for it. */
    String title() {
        return title;
    }

    /** Name that the greeting tells. */
    String greeting() {
        return greeting;
    }

    /** What its control code looks for. */
    Set<Symptom> lookedFor() {
        Set<Symptom> all = EnumSet.allOf(Symptom.class);
        switch (this) {
            case WITHOUT_FS_01 -> all.remove(Symptom.CURRENT_OVER_LIMIT);
            case WITHOUT_FS_02 -> all.remove(Symptom.STOPPED_EARLY);
            case WITHOUT_FS_03 -> all.remove(Symptom.GRIP_NOT_THERE);
            case WITHOUT_RACK -> {
                all.remove(Symptom.STOPPED_EARLY);
                all.remove(Symptom.GRIP_NOT_THERE);
                all.remove(Symptom.SENSOR_CONTRADICTS);
            }
            case STANDARD, WEAK_BATTERY -> {
                // The whole code.
            }
        }
        return all;
    }
}
