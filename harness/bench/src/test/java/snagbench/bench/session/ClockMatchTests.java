package snagbench.bench.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** The clock match, against an example worked by hand, clocks whose truth is known, and bounds got in another way. */
class ClockMatchTests {
    /** Forty readings take no longer. */
    private static final double LONGEST_MICROS = 8e6;

    /**
     * By hand from RFC 5905 (2010), section 8: T1 = 1000, T2 = T3 = 5150, T4 = 1500. Offset ((5150 - 1000) + (5150 - 1500)) / 2
     * = (4150 + 3650) / 2 = 3900; round trip (1500 - 1000) - (5150 - 5150) = 500.
     */
    @Test
    void anExampleWorkedByHandComesOut() {
        ClockMatch match =
                ClockMatch.of(List.of(new ClockReading(1000, 5150, 1500))).orElseThrow();

        assertEquals(3900, match.offsetMicros());
        assertEquals(250, match.offsetBoundMicros());
        assertEquals(1250, match.atMicros());
        assertEquals(500, match.shortestRoundTripMicros());
        assertEquals(Optional.empty(), match.drift());
    }

    @Test
    void withoutAReadingThereIsNoMatch() {
        assertEquals(Optional.empty(), ClockMatch.of(List.of()));
    }

    /** The rig's clock runs over its 32 bits between two readings. */
    @Test
    void aClockThatWrapsGoesOn() {
        ClockMatch match = ClockMatch.of(List.of(
                        new ClockReading(0, -1000, 10_000),
                        new ClockReading(1_000_000, 999_000, 1_010_000),
                        new ClockReading(2_000_000, 1_999_000, 2_002_000),
                        new ClockReading(3_000_000, 2_999_000, 3_010_000)))
                .orElseThrow();

        assertEquals(2_000, match.shortestRoundTripMicros());
        assertEquals(-2_000, match.offsetMicros());
        assertEquals(0, match.drift().orElseThrow().perMillion(), 2_000);
    }

    /**
     * Whatever the two ways of the line take, the truth lies within the bounds. The offset's is got in another way, too: a
     * request cannot be answered before it was sent, nor after the answer was there, so that each reading gives an interval
     * in which the offset must lie, and all together one that lies within that of the best reading.
     */
    @Test
    void theTruthLiesWithinTheBoundsForEveryClockAndEveryLine() {
        for (long seed = 1; seed <= 300; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            double drift = random.nextDouble(-200, 200) * 1e-6;
            double offset = random.nextDouble(-1e9, 1e9);
            List<ClockReading> readings = new ArrayList<>();
            double intervalFrom = Double.NEGATIVE_INFINITY;
            double intervalTo = Double.POSITIVE_INFINITY;
            double sent = random.nextDouble(0, 1e6);
            for (int i = 0; i < 40; i++) {
                double there = random.nextDouble(20, 8000);
                double back = random.nextDouble(20, 8000);
                double rig = (sent + there) * (1 + drift) + offset;
                ClockReading one = new ClockReading(
                        (long) Math.floor(sent), (int) Math.round(rig), (long) Math.ceil(sent + there + back));
                readings.add(one);
                intervalFrom = Math.max(intervalFrom, rig - one.receivedMicros() - Math.abs(drift) * LONGEST_MICROS);
                intervalTo = Math.min(intervalTo, rig - one.sentMicros() + Math.abs(drift) * LONGEST_MICROS);
                sent += random.nextDouble(50_000, 150_000);
            }
            ClockMatch match = ClockMatch.of(readings).orElseThrow();

            String told = "seed " + seed + ": " + match;
            double wide = Math.rint((match.offsetMicros() - offset) / 4294967296.0) * 4294967296.0;
            double truth = match.atMicros() * drift + offset + wide;
            double slack = 2 + Math.abs(drift) * 20_000;
            assertTrue(Math.abs(match.offsetMicros() - truth) <= match.offsetBoundMicros() + slack, told);
            double inAll = (intervalFrom + intervalTo) / 2 + wide;
            double grown = Math.abs(drift) * LONGEST_MICROS;
            assertTrue(Math.abs(match.offsetMicros() - inAll) <= match.offsetBoundMicros() + slack + grown, told);
            ClockMatch.Drift seen = match.drift().orElseThrow();
            assertTrue(Math.abs(seen.perMillion() - drift * 1e6) <= seen.boundPerMillion() + 1, told);
            assertTrue(seen.boundPerMillion() < 5000, told);
            assertEquals(40, match.readings());
        }
    }

    /** A line that takes the same both ways, and a bound that is known to be too wide then. */
    @Test
    void onALineThatTakesTheSameBothWaysTheOffsetIsExact() {
        List<ClockReading> readings = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            long sent = i * 100_000L;
            readings.add(new ClockReading(sent, (int) (sent + 300 + 12_345), sent + 600));
        }
        ClockMatch match = ClockMatch.of(readings).orElseThrow();

        assertEquals(12_345, match.offsetMicros());
        assertEquals(300, match.offsetBoundMicros());
        assertEquals(0, match.drift().orElseThrow().perMillion());
        assertEquals(600, match.medianRoundTripMicros());
    }

    /** On the virtual rig the link's clock and the controller's differ by the time of the start, and run alike. */
    @Test
    void aVirtualRigsClockIsMatchedAsItIs() throws Exception {
        RigSession session = RigSession.open(
                Shuttle.link("standard"),
                SessionSettings.usual(1, 500, () -> false),
                Optional.of(Shuttle.description()));
        Reception reception = new Reception();
        session.observe(reception);
        List<ClockReading> readings = new ArrayList<>();
        for (int i = 0; i < 20; i++) {
            readings.addAll(session.watch(1));
            long until = session.nowMicros() + 97_000;
            while (session.nowMicros() < until) {
                session.work(until);
            }
        }
        ClockMatch match = ClockMatch.of(readings).orElseThrow();

        // The shuttle's start takes 50 ms, in which its clock stands at 0.
        assertTrue(Math.abs(match.offsetMicros() + 50_000) <= match.offsetBoundMicros(), match::toString);
        ClockMatch.Drift drift = match.drift().orElseThrow();
        assertTrue(Math.abs(drift.perMillion()) <= drift.boundPerMillion(), match::toString);
        assertEquals(0, reception.missing());
        assertEquals(0, reception.dropped());
        assertTrue(reception.medianLoopMicros().getAsLong() >= 5000);
        assertTrue(reception.longestLoopMicros().getAsLong() <= 5200);
        long apart = reception.meanLoopMicros().getAsLong()
                - reception.medianLoopMicros().getAsLong();
        assertTrue(Math.abs(apart) <= 50, () -> "mean and median are " + apart + " us apart");
        session.watch(20);
        Reception seldom = new Reception();
        session.observe(seldom);
        long until = session.nowMicros() + 1_000_000;
        while (session.nowMicros() < until) {
            session.work(until);
        }
        assertTrue(seldom.records() >= 8 && seldom.records() <= 11, () -> seldom.records() + " records");
        assertTrue(seldom.longestLoopMicros().getAsLong() <= 5200);
        assertTrue(seldom.shortestLoopMicros().getAsLong() >= 5000);
        assertEquals(0, seldom.missing());
    }
}
