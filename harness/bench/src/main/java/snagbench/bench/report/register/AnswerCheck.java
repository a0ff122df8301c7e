package snagbench.bench.report.register;

import java.util.List;
import java.util.Optional;

/**
 * The register laid against traces: whether that fail-safe answered whose symptom was there, and the other way round.
 *
 * @param traces how many were looked at
 * @param failSafes one for each of the register, in its order
 * @param findings where register and control code do not agree
 * @param together who answered where the symptoms of several were there
 * @param holes for each hole of the table, in its order, how often it was met
 */
public record AnswerCheck(
        int traces, List<Counts> failSafes, List<Finding> findings, List<Together> together, List<Met> holes) {
    /** Copies the lists. */
    public AnswerCheck {
        failSafes = List.copyOf(failSafes);
        findings = List.copyOf(findings);
        together = List.copyOf(together);
        holes = List.copyOf(holes);
    }

    /**
     * A fail-safe's answers.
     *
     * @param failSafe its name
     * @param answers how often it answered
     * @param withSymptom how often one of its conditions had held for its time then, or may have
     * @param beside how often none had, and the register says that there is more to it than conditions
     * @param symptoms how often one of its conditions came to have held for its time
     * @param answered how often it answered to that
     * @param gaveWay how often another one answered to that
     * @param open how often the trace ended before, or left it open
     */
    public record Counts(
            String failSafe,
            int answers,
            int withSymptom,
            int beside,
            int symptoms,
            int answered,
            int gaveWay,
            int open) {}

    /** What does not agree. */
    public enum Kind {
        /** It answered, and none of its conditions can have held for its time. */
        WITHOUT_SYMPTOM,
        /** One of its conditions certainly held for its time, and neither it nor another one answered. */
        WITHOUT_ANSWER,
        /** It answered, though one that stands before it in the register's order had its symptom too. */
        OUT_OF_ORDER
    }

    /**
     * A place where register and control code do not agree.
     *
     * @param kind what does not agree
     * @param failSafe its name
     * @param other the one that should have come first; empty but for {@link Kind#OUT_OF_ORDER}
     * @param trace which trace
     * @param tick when
     * @param micros when, in microseconds since arming
     * @param readings what its conditions look at read then
     */
    public record Finding(
            Kind kind,
            String failSafe,
            Optional<String> other,
            String trace,
            int tick,
            long micros,
            List<DecisionTable.Range> readings) {
        /** Copies the list. */
        public Finding {
            readings = List.copyOf(readings);
        }
    }

    /**
     * Symptoms that were there together when one answered.
     *
     * @param answered the one that answered
     * @param others whose symptoms had held for their time too
     * @param times how often
     */
    public record Together(String answered, List<String> others, int times) {
        /** Copies the list. */
        public Together {
            others = List.copyOf(others);
        }
    }

    /**
     * How often a combination that none answers was met.
     *
     * @param ticks in how many ticks of traces with a fault
     * @param nominalTicks in how many ticks of nominal runs
     * @param first where first, such as "pot slips, 2.315 s"; empty where nowhere
     */
    public record Met(long ticks, long nominalTicks, String first) {}
}
