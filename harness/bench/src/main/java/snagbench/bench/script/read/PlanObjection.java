package snagbench.bench.script.read;

import java.nio.file.Path;
import snagbench.bench.script.Place;
import snagbench.bench.script.Problem;

/** Objections to a plan that show only when the scripts that it names have been read. */
public final class PlanObjection {
    private PlanObjection() {}

    /**
     * An error at a place of a plan, told like those that the plan's reader finds.
     *
     * @param plan its file; read again for its line
     * @param place where in it
     * @param message what was found, in a sentence
     * @param cure what would do
     * @return the error, with the line of the file
     */
    public static Problem at(Path plan, Place place, String message, String cure) {
        Findings findings = UserFile.open(plan, PlanReader.WHAT, PlanReader.EXAMPLE)
                .findings()
                .anew();
        findings.error(place, message, cure);
        return findings.all().get(0);
    }
}
