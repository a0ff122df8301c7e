package snagbench.bench.session;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * How the rig's clock stands to the link's, by the formulas of RFC 5905 (2010), section 8: with a request sent at T1, taken
 * at T2, answered at T3 and the answer received at T4, the offset is ((T2 - T1) + (T3 - T4)) / 2 and the round trip
 * (T4 - T1) - (T3 - T2). A rig reads its clock once a tick, so that T2 and T3 are one. Whatever the two ways of the line
 * take, the true offset differs from that by no more than half the round trip.
 *
 * @param offsetMicros the rig's clock less the link's, in microseconds, from the reading with the shortest round trip
 * @param offsetBoundMicros by how much the true offset may differ from that
 * @param atMicros when the offset was so, on the link's clock
 * @param shortestRoundTripMicros shortest round trip, the wait for a tick within it
 * @param medianRoundTripMicros half of them were no longer
 * @param drift how the rig's clock runs against the link's; empty where there were too few readings
 * @param readings how many there were
 */
public record ClockMatch(
        double offsetMicros,
        double offsetBoundMicros,
        double atMicros,
        long shortestRoundTripMicros,
        long medianRoundTripMicros,
        Optional<Drift> drift,
        int readings) {
    private static final int FEWEST_FOR_DRIFT = 4;

    /**
     * How two clocks run against each other.
     *
     * @param perMillion by how many millionths the rig's clock runs faster than the link's
     * @param boundPerMillion by how much the truth may differ from that, if both run evenly
     */
    public record Drift(double perMillion, double boundPerMillion) {}

    /** A reading by the formulas. */
    private record Exchanged(double offset, long roundTrip, double at) {
        static Exchanged of(long t1, long t2, long t3, long t4) {
            return new Exchanged(((t2 - t1) + (t3 - t4)) / 2.0, (t4 - t1) - (t3 - t2), (t1 + t4) / 2.0);
        }
    }

    /**
     * Matches the clocks.
     *
     * @param readings in the order in which they were made, less than 35 minutes from one to the next
     * @return the match; empty where there was no reading
     */
    public static Optional<ClockMatch> of(List<ClockReading> readings) {
        if (readings.isEmpty()) {
            return Optional.empty();
        }
        List<Exchanged> all = new ArrayList<>();
        long rig = readings.get(0).rigMicros();
        int lastWire = readings.get(0).rigMicros();
        for (ClockReading one : readings) {
            rig += one.rigMicros() - lastWire;
            lastWire = one.rigMicros();
            all.add(Exchanged.of(one.sentMicros(), rig, rig, one.receivedMicros()));
        }
        Exchanged best = best(all);
        List<Long> trips = all.stream().map(Exchanged::roundTrip).sorted().toList();
        return Optional.of(new ClockMatch(
                best.offset(),
                best.roundTrip() / 2.0,
                best.at(),
                trips.get(0),
                trips.get(trips.size() / 2),
                drift(all),
                all.size()));
    }

    private static Exchanged best(List<Exchanged> some) {
        return some.stream().min(Comparator.comparingLong(Exchanged::roundTrip)).orElseThrow();
    }

    /** From the best reading of the first third to that of the last: the further apart, the less their bounds matter. */
    private static Optional<Drift> drift(List<Exchanged> all) {
        int third = all.size() / 3;
        if (all.size() < FEWEST_FOR_DRIFT) {
            return Optional.empty();
        }
        Exchanged early = best(all.subList(0, Math.max(1, third)));
        Exchanged late = best(all.subList(all.size() - Math.max(1, third), all.size()));
        double between = late.at() - early.at();
        if (between <= 0) {
            return Optional.empty();
        }
        return Optional.of(new Drift(
                (late.offset() - early.offset()) / between * 1e6,
                (late.roundTrip() + early.roundTrip()) / 2.0 / between * 1e6));
    }
}
