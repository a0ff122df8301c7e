package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Record;
import snagbench.wire.RequestBody;

/** Random programs and inputs: the probe against a slow, obviously right model, tick by tick. */
class ModelTests {
    private static final int CASES = 2500;
    private static final int TICKS = 70;
    private static final long FIRST_SEED = 20_240_601;

    @Test
    void doesWhatTheModelDoes() {
        Map<EventKind, Integer> seen = new EnumMap<>(EventKind.class);
        for (int i = 0; i < CASES; i++) {
            long seed = FIRST_SEED + i;
            try {
                new Case(seed).run(seen);
            } catch (AssertionError | RuntimeException e) {
                throw new AssertionError("seed " + seed, e);
            }
        }
        for (EventKind kind : new EventKind[] {
            EventKind.ENTRY_ON, EventKind.ENTRY_OFF, EventKind.STAGE_DONE, EventKind.STAGE_TIMED_OUT
        }) {
            int count = seen.getOrDefault(kind, 0);
            assertEquals(true, count > CASES / 20, kind + " came about " + count + " times: the cases say little");
        }
    }

    private static final class Case {
        private final Random random;
        private final TestRig rig;
        private final RandomProgram program;
        private final ReferenceModel model;
        private final int channels;
        private final int zeroMicros;
        private final int zero;
        private final int[] heldReal;
        private final int[] heldTold;
        private final boolean[] heldForced;

        Case(long seed) {
            random = new Random(seed);
            // Near the wrap of the clock, so that many cases run over it.
            rig = new TestRig(TestRig.ROOMY, false, -random.nextInt(1_000_000));
            rig.begin();
            program = new RandomProgram(random, rig);
            rig.load(program.messages.toArray(new RequestBody[0]));
            channels = rig.description.channels().size();
            heldReal = new int[channels];
            heldTold = new int[channels];
            heldForced = new boolean[channels];
            model = new ReferenceModel(program, TestRig.SEED, rig.description.channels());
            rig.send(rig.armRequest());
            rig.replies.clear();
            zero = rig.tick + 1;
            zeroMicros = rig.micros + TestRig.TICK;
        }

        void run(Map<EventKind, Integer> seen) {
            List<String> events = new ArrayList<>();
            for (int tick = 0; tick < TICKS; tick++) {
                tick(tick);
                takeEvents(events, seen);
                rig.replies.clear();
            }
            assertEquals(model.events, events);
        }

        private void takeEvents(List<String> into, Map<EventKind, Integer> seen) {
            for (Event event : rig.all(Event.class)) {
                EventKind kind = EventKind.of(event.kind);
                if (kind == EventKind.ENTRY_ON
                        || kind == EventKind.ENTRY_OFF
                        || kind == EventKind.STAGE_DONE
                        || kind == EventKind.STAGE_TIMED_OUT) {
                    into.add((event.tick - zero) + ":" + kind + ":" + event.a + ":" + event.b);
                    seen.merge(kind, 1, Integer::sum);
                    assertEquals(rig.micros, event.micros);
                }
            }
        }

        private void tick(int tick) {
            inputs(tick);
            Set<Integer> answered = new HashSet<>();
            for (FailSafe failSafe : rig.answering) {
                answered.add(failSafe.number());
            }
            int lastAnswer = rig.description.lastAnswer().index();
            for (FailSafe failSafe : rig.answering) {
                heldReal[lastAnswer] = failSafe.number();
                heldTold[lastAnswer] = failSafe.number();
            }
            heldReal[rig.description.answerCount().index()] += rig.answering.size();
            heldTold[rig.description.answerCount().index()] += rig.answering.size();

            rig.tickAfter(tick == 0 ? TestRig.TICK : elapsed());
            model.begin((rig.micros - zeroMicros) & 0xFFFFFFFFL);
            for (int channel = 2; channel < channels; channel++) {
                if (!rig.leftOut[channel]) {
                    heldReal[channel] = rig.real[channel];
                    heldTold[channel] = model.told(channel, rig.real[channel]);
                    heldForced[channel] = model.isForced(channel);
                    assertEquals(
                            heldTold[channel],
                            rig.told[channel],
                            "told on " + rig.description.channels().get(channel) + " in tick " + tick);
                }
            }
            assertEquals(model.activeMask(), rig.record().active, "active in tick " + tick);
            compareRecord(tick);
            model.end(heldReal, heldTold, answered);
        }

        /** Walks about in small steps; now and then a channel is not read, and a fail-safe answers. */
        private void inputs(int tick) {
            for (Channel channel : Arrays.asList(
                    rig.position, rig.current, rig.trigger, rig.step, rig.runs, rig.motor, rig.wide, rig.start)) {
                if (tick == 0 || random.nextInt(3) == 0) {
                    int least = Math.max(channel.lowest(), -4);
                    int most = Math.min(channel.highest(), 4);
                    rig.real(channel, least + random.nextInt(most - least + 1));
                }
                rig.leftOut[channel.index()] = tick > 0 && random.nextInt(8) == 0;
            }
            if (random.nextInt(6) == 0) {
                rig.answering.add(random.nextBoolean() ? rig.fs1 : rig.fs2);
            }
        }

        private int elapsed() {
            return switch (random.nextInt(4)) {
                case 0 -> 1 + random.nextInt(20);
                case 1 -> 1 + random.nextInt(3 * TestRig.TICK);
                default -> TestRig.TICK;
            };
        }

        private void compareRecord(int tick) {
            int channel = 0;
            for (Record part : rig.all(Record.class)) {
                assertEquals(zero + tick, part.tick);
                assertEquals(rig.micros, part.micros);
                assertEquals(channel, part.first);
                for (int place = 0; place < part.count(); place++, channel++) {
                    String where = rig.description.channels().get(channel) + " in the record of tick " + tick;
                    assertEquals(heldTold[channel], part.told(place), "told of " + where);
                    assertEquals(heldReal[channel], part.real(place), "real of " + where);
                    assertEquals(rig.leftOut[channel], (part.stale >>> place & 1) != 0, "stale: " + where);
                    assertEquals(heldForced[channel], (part.forced >>> place & 1) != 0, "forced: " + where);
                }
            }
            assertEquals(channels, channel, "channels in the record of tick " + tick);
        }
    }
}
