package snagbench.bench.report.register;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import snagbench.bench.judge.ControlReadings;
import snagbench.bench.script.ChannelDescription;
import snagbench.bench.script.FailSafeRegister;
import snagbench.bench.script.Source;
import snagbench.bench.trace.Happening;

/** Symptoms and answers in one trace, tick by tick. */
final class TraceAnswers {
    private final AnswerChecker all;
    private final String trace;
    private final ControlReadings readings;
    private final TickReadings tickReadings;
    private final int step;
    private final HoleVisits holes;
    private final List<Watched> watched = new ArrayList<>();
    private long stepSince;
    private long leastStep;
    private long greatestStep;

    TraceAnswers(AnswerChecker all, String trace, ControlReadings readings, boolean isNominal) {
        this.all = all;
        this.trace = trace;
        this.readings = readings;
        this.tickReadings = new TickReadings(readings);
        this.step = tickReadings.place(new Axis(all.step(), Source.REAL));
        this.holes = all.holes(tickReadings, trace, isNominal);
        all.register().entries().forEach(entry -> watched.add(new Watched(entry)));
    }

    void look() {
        List<Happening> answers = readings.answers();
        int next = 0;
        for (int tick = 0; tick < readings.ticks(); tick++) {
            long now = readings.micros(tick);
            tickReadings.goTo(tick);
            long least = tickReadings.least(step);
            long greatest = tickReadings.greatest(step);
            if (tick > 0 && (least != leastStep || greatest != greatestStep)) {
                stepSince = readings.micros(tick - 1);
            }
            leastStep = least;
            greatestStep = greatest;
            boolean mayAnyHold = false;
            for (Watched one : watched) {
                mayAnyHold |= one.look(tick, now, now - stepSince);
            }
            if (!mayAnyHold && least == greatest) {
                holes.look((int) least, now);
            }
            while (next < answers.size() && answers.get(next).tick() <= tick) {
                answer(answers.get(next), now);
                next++;
            }
            for (Watched one : watched) {
                one.expire(tick, now);
            }
        }
        watched.forEach(Watched::end);
    }

    private void answer(Happening event, long now) {
        Optional<Watched> found = watched.stream()
                .filter(one -> one.entry.failSafe().number() == event.a())
                .findFirst();
        if (found.isEmpty()) {
            return;
        }
        Watched answering = found.get();
        answering.answered(event.tick(), now);
        List<String> others = new ArrayList<>();
        for (Watched other : watched) {
            if (other != answering && other.isWaiting) {
                others.add(other.name());
                if (isBefore(other, answering)) {
                    all.found(answering.finding(
                            AnswerCheck.Kind.OUT_OF_ORDER, Optional.of(other.name()), event.tick(), now));
                }
                other.gaveWay();
            }
        }
        if (!others.isEmpty()) {
            all.together(answering.name(), others);
        }
    }

    private boolean isBefore(Watched one, Watched other) {
        int place = all.register().order().indexOf(one.entry.failSafe());
        int otherPlace = all.register().order().indexOf(other.entry.failSafe());
        return place >= 0 && otherPlace >= 0 && place < otherPlace;
    }

    /** One condition, with since when it has held. */
    private static final class Held {
        private final FailSafeRegister.Symptom symptom;
        private final Optional<Seen> seen;
        private boolean holds;
        private boolean mayHold;
        private long since;
        private long mayHaveSince;
        private boolean isThere;
        private boolean mayBeThere;

        private Held(FailSafeRegister.Symptom symptom, TickReadings readings) {
            this.symptom = symptom;
            this.seen = Alternatives.of(symptom.condition()).map(boxes -> new Seen(readings, boxes));
        }

        private void look(long now, long inStep) {
            boolean did = holds;
            boolean mightHave = mayHold;
            // What is more than comparisons is not known here.
            holds = seen.isPresent() && seen.get().holds();
            mayHold = seen.isEmpty() || seen.get().mayHold();
            since = did ? since : now;
            mayHaveSince = mightHave ? mayHaveSince : now;
            isThere = holds && now - since >= symptom.heldMicros() && inStep >= symptom.stepLastedMicros();
            mayBeThere = mayHold && now - mayHaveSince >= symptom.heldMicros() && inStep >= symptom.stepLastedMicros();
        }
    }

    /** A fail-safe of the register. */
    private final class Watched {
        private final FailSafeRegister.Entry entry;
        private final AnswerChecker.Tally tally;
        private final List<Held> conditions;
        private final List<ControlReadings.Reading> adjustable = new ArrayList<>();
        private final List<Integer> usual = new ArrayList<>();
        private boolean wasThere;
        private boolean isWaiting;
        private long waitsSince;
        private boolean isOff;

        private Watched(FailSafeRegister.Entry entry) {
            this.entry = entry;
            this.tally = all.tally(entry);
            this.conditions = entry.symptoms().when().stream()
                    .map(symptom -> new Held(symptom, tickReadings))
                    .toList();
            all.inhibition(entry).ifPresent(channel -> adjustable(channel, 0));
            entry.symptoms().constants().forEach(channel -> adjustable(channel, channel.absent()));
        }

        private void adjustable(ChannelDescription channel, int value) {
            adjustable.add(readings.of(channel, Source.TOLD));
            usual.add(value);
        }

        private String name() {
            return entry.failSafe().name();
        }

        private boolean isAdjusted(int tick) {
            for (int i = 0; i < usual.size(); i++) {
                if (adjustable.get(i).least(tick) != usual.get(i)
                        || adjustable.get(i).greatest(tick) != usual.get(i)) {
                    return true;
                }
            }
            return false;
        }

        /** Whether one of its conditions may hold. */
        private boolean look(int tick, long now, long inStep) {
            boolean isThere = false;
            boolean mayHold = false;
            isOff = isAdjusted(tick);
            for (Held one : conditions) {
                one.look(now, inStep);
                mayHold |= one.mayHold;
                isThere = isThere || one.isThere;
            }
            isThere = isThere && !isOff;
            if (isThere && !wasThere) {
                tally.symptoms++;
                isWaiting = true;
                waitsSince = now;
            }
            wasThere = isThere;
            return mayHold;
        }

        private void answered(int tick, long now) {
            tally.answers++;
            boolean mayBeThere = isOff || conditions.stream().anyMatch(one -> one.mayBeThere);
            if (mayBeThere) {
                tally.withSymptom++;
            } else if (entry.symptoms().when().isEmpty()
                    || !entry.symptoms().beside().isEmpty()) {
                tally.beside++;
            } else {
                all.found(finding(AnswerCheck.Kind.WITHOUT_SYMPTOM, Optional.empty(), tick, now));
            }
            if (isWaiting) {
                isWaiting = false;
                tally.answered++;
            }
        }

        private void gaveWay() {
            isWaiting = false;
            tally.gaveWay++;
        }

        private void expire(int tick, long now) {
            if (isWaiting && !readings.hasAllAnswers(tick)) {
                isWaiting = false;
                tally.open++;
            } else if (isWaiting && now - waitsSince > AnswerChecker.GRACE_MICROS) {
                isWaiting = false;
                all.found(finding(AnswerCheck.Kind.WITHOUT_ANSWER, Optional.empty(), tick, now));
            }
        }

        private void end() {
            tally.open += isWaiting ? 1 : 0;
            isWaiting = false;
        }

        private AnswerCheck.Finding finding(AnswerCheck.Kind kind, Optional<String> other, int tick, long now) {
            Set<Axis> axes = new TreeSet<>();
            conditions.forEach(one -> Alternatives.of(one.symptom.condition())
                    .ifPresent(boxes ->
                            boxes.forEach(box -> axes.addAll(box.spans().keySet()))));
            List<DecisionTable.Range> read = new ArrayList<>();
            for (Axis axis : axes) {
                ControlReadings.Reading reading = readings.of(axis.channel(), axis.source());
                long least = reading.least(tick);
                long greatest = reading.greatest(tick);
                if (least >= Integer.MIN_VALUE && greatest <= Integer.MAX_VALUE) {
                    read.add(new DecisionTable.Range(
                            axis.name(),
                            (int) least,
                            (int) greatest,
                            axis.channel().show((int) least)
                                    + (least == greatest
                                            ? ""
                                            : " .. " + axis.channel().show((int) greatest))));
                }
            }
            return new AnswerCheck.Finding(kind, name(), other, trace, tick, now, read);
        }
    }
}
