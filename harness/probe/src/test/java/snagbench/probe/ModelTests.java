package snagbench.probe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import snagbench.wire.Comparison;
import snagbench.wire.EntryEnd;
import snagbench.wire.EntryKind;
import snagbench.wire.Event;
import snagbench.wire.EventKind;
import snagbench.wire.Record;
import snagbench.wire.RequestBody;

/** Random programs and inputs: the probe against a slow, obviously right model, tick by tick. */
class ModelTests {
    private static final Set<EventKind> EVENTS =
            EnumSet.of(EventKind.ENTRY_ON, EventKind.ENTRY_OFF, EventKind.STAGE_DONE, EventKind.STAGE_TIMED_OUT);
    private static final String HELD_BACK = "an entry behind its gate";

    private static final int FEW = 500;
    private static final int MANY = 10_000;
    private static final int TICKS = 70;
    private static final long FIRST_SEED = 20_240_601;
    private static final long OTHER_SEED = 77_000_000;

    /** How often things came about, so that it is sure that they did. */
    private final Map<Object, Integer> seen = new HashMap<>();

    private void saw(Object what) {
        seen.merge(what, 1, Integer::sum);
    }

    @Test
    void doesWhatTheModelDoes() {
        run(FIRST_SEED, FEW);
    }

    @Test
    @Tag("long")
    void doesWhatTheModelDoesInManyCases() {
        run(OTHER_SEED, MANY);
    }

    private void run(long firstSeed, int cases) {
        for (int i = 0; i < cases; i++) {
            long seed = firstSeed + i;
            try {
                new Case(seed).run();
            } catch (AssertionError | RuntimeException e) {
                throw new AssertionError("seed " + seed, e);
            }
        }
        Set<Object> wanted = new HashSet<>(EVENTS);
        wanted.addAll(EnumSet.complementOf(EnumSet.of(EntryKind.WAIT)));
        wanted.addAll(EnumSet.allOf(Comparison.class));
        wanted.addAll(EnumSet.complementOf(EnumSet.of(EntryEnd.RELEASED)));
        wanted.add(HELD_BACK);
        for (Object each : wanted) {
            int count = seen.getOrDefault(each, 0);
            assertTrue(count > cases / 20, () -> each + " came about " + count + " times: the cases say little");
        }
    }

    private final class Case {
        private final Random random;
        private final TestRig rig;
        private final RandomProgram program;
        private final RandomInputs inputs;
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
            inputs = new RandomInputs(random, rig);
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

        void run() {
            List<String> events = new ArrayList<>();
            for (int tick = 0; tick < TICKS; tick++) {
                tick(tick);
                takeEvents(events);
                rig.replies.clear();
            }
            assertEquals(model.events, events);
        }

        private void takeEvents(List<String> into) {
            for (Event event : rig.all(Event.class)) {
                EventKind kind = EventKind.of(event.kind);
                if (kind != null && EVENTS.contains(kind)) {
                    into.add((event.tick - zero) + ":" + kind + ":" + event.a + ":" + event.b);
                    saw(kind);
                    if (kind == EventKind.ENTRY_OFF) {
                        saw(Objects.requireNonNull(EntryEnd.of(event.b)));
                    }
                    assertEquals(rig.micros, event.micros);
                }
            }
        }

        private void tick(int tick) {
            inputs.next();
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

            rig.tickAfter(tick == 0 ? TestRig.TICK : inputs.elapsed());
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
            model.forcing().forEach(ModelTests.this::saw);
            model.holding().forEach(ModelTests.this::saw);
            if (model.heldBack() > 0) {
                saw(HELD_BACK);
            }
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
