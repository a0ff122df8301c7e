package snagbench.bench.run;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.LongConsumer;
import org.jspecify.annotations.Nullable;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.script.FaultScript;
import snagbench.bench.script.RigDescription;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.Programs;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.SessionSettings;
import snagbench.bench.trace.StoredTrace;
import snagbench.bench.trace.Trace;
import snagbench.bench.trace.TraceHeader;
import snagbench.bench.trace.TraceRecorder;
import snagbench.wire.Record;

/** Records a rig without a fault: brings it to ready, arms it with nothing but a beginning, and listens. */
public final class RigRecorder {
    private static final long CYCLE_MICROS = 100_000;
    private static final long LONGEST_WITHOUT_RECORDS_MICROS = 5_000_000;

    private final RigFile rig;
    private final RigDescription description;
    private final RunTerms terms;
    private final RigConnector connector;
    private final BooleanSupplier cancelled;
    private final int nonce;

    /**
     * A recorder of one rig.
     *
     * @param rig what people know of it
     * @param description as it is stored
     * @param terms on what terms it is driven
     * @param connector connects to it
     * @param cancelled true once the user wants to stop: what was seen until then is kept
     * @param nonce names the session, not 0
     */
    public RigRecorder(
            RigFile rig,
            RigDescription description,
            RunTerms terms,
            RigConnector connector,
            BooleanSupplier cancelled,
            int nonce) {
        this.rig = rig;
        this.description = description;
        this.terms = terms;
        this.connector = connector;
        this.cancelled = cancelled;
        this.nonce = nonce;
    }

    /**
     * What was recorded.
     *
     * @param stored the trace
     * @param trouble why it ended early, if the rig or the line had its part in that; empty otherwise
     */
    public record Recorded(StoredTrace stored, Optional<String> trouble) {}

    /**
     * Records.
     *
     * @param beginning what the rig is armed with: a script without injections, see {@link Recordings}
     * @param seed of a virtual rig's variation
     * @param forMicros for how long, on the rig's clock, from arming on
     * @param file takes the trace, also while it grows
     * @param progress is told the rig's time
     * @return what was recorded, which is in the file
     * @throws SessionException if nothing could be recorded
     * @throws IOException if the trace cannot be written; the rig has been asked for its safe stop by then
     */
    public Recorded record(FaultScript beginning, int seed, long forMicros, Path file, LongConsumer progress)
            throws SessionException, IOException {
        Link link;
        try {
            link = connector.connect();
        } catch (LinkException e) {
            throw new SessionException(SessionException.Reason.LINK, String.valueOf(e.getMessage()), e);
        }
        try (link) {
            return record(link, beginning, seed, forMicros, file, progress);
        }
    }

    private Recorded record(
            Link link, FaultScript beginning, int seed, long forMicros, Path file, LongConsumer progress)
            throws SessionException, IOException {
        TraceHeader header;
        TraceKeeper keeper;
        Trace trace;
        SessionException failure;
        // The safe stop comes first, whatever becomes of the file.
        try (RigSession session = open(link)) {
            header = new TraceHeader(
                    TraceHeader.Origin.RECORD,
                    beginning.name(),
                    seed,
                    Programs.digestOf(beginning),
                    session.hello().build);
            keeper = new TraceKeeper(file, header);
            if (rig.ready().isPresent()) {
                session.makeReady(rig.ready().get(), false);
            }
            TraceRecorder recorder = session.arm(beginning, seed);
            failure = listen(session, recorder, forMicros, keeper, progress);
            session.endRecording();
            trace = recorder.trace().upTo(forMicros);
        }
        keeper.finish(trace);
        return new Recorded(new StoredTrace(header, trace, true, 0), trouble(trace, failure));
    }

    private RigSession open(Link link) throws SessionException {
        SessionSettings settings =
                SessionSettings.usual(nonce, rig.leaseMillis(), cancelled).withGreeting(connector.greetingMicros(), 0);
        RigSession session = RigSession.open(link, settings, Optional.of(description));
        List<String> differences = DescriptionCheck.differences(description, session.description());
        if (!differences.isEmpty()) {
            throw new SessionException(
                    SessionException.Reason.REFUSED,
                    "the rig is not the one whose description is stored: " + String.join("; ", differences)
                            + ". If it was changed on purpose, run \"identify --save\"");
        }
        Optional<String> objection = terms.objection(session.hello());
        if (objection.isPresent()) {
            throw new SessionException(SessionException.Reason.REFUSED, objection.get());
        }
        session.loadGuards(rig.guards());
        return session;
    }

    private static @Nullable SessionException listen(
            RigSession session, TraceRecorder recorder, long forMicros, TraceKeeper keeper, LongConsumer progress) {
        int rows = 0;
        long heardMicros = session.nowMicros();
        while (true) {
            try {
                session.work(session.nowMicros() + CYCLE_MICROS);
            } catch (SessionException e) {
                return e;
            }
            Trace trace = recorder.trace();
            if (trace.rows() > rows) {
                rows = trace.rows();
                heardMicros = session.nowMicros();
                keeper.append(trace.upTo(forMicros));
                progress.accept(trace.micros(rows - 1));
            } else if (session.nowMicros() - heardMicros >= LONGEST_WITHOUT_RECORDS_MICROS) {
                return new SessionException(SessionException.Reason.SILENT, "no record of the rig comes any more");
            }
            if (trace.restart().isPresent() || isOver(trace, forMicros)) {
                return null;
            }
        }
    }

    private static boolean isOver(Trace trace, long forMicros) {
        int last = trace.rows() - 1;
        return last >= 0
                && (trace.micros(last) >= forMicros
                        || (trace.flags(last) & (Record.LATCHED | Record.STOPPING)) == Record.LATCHED);
    }

    private static Optional<String> trouble(Trace trace, @Nullable SessionException failure) {
        if (failure != null) {
            return failure.reason() == SessionException.Reason.CANCELLED
                    ? Optional.empty()
                    : Optional.of(failure.getMessage());
        }
        if (trace.restart().isPresent()) {
            return Optional.of("the controller restarted ("
                    + RigReturn.name(trace.restart().get().cause()) + ")");
        }
        boolean latched = trace.rows() > 0 && (trace.flags(trace.rows() - 1) & Record.LATCHED) != 0;
        return latched ? Optional.of("the rig has stopped by itself and latched") : Optional.empty();
    }
}
