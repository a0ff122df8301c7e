package snagbench.bench.run;

import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.IntSupplier;
import org.jspecify.annotations.Nullable;
import snagbench.bench.link.Link;
import snagbench.bench.link.LinkException;
import snagbench.bench.script.RigFile;
import snagbench.bench.session.RigSession;
import snagbench.bench.session.SessionException;
import snagbench.bench.session.SessionSettings;
import snagbench.wire.ResetCause;

/**
 * The rig in the harness's hand, from one script to the next: its line, its session, and how it is brought to ready and let go.
 *
 * <p>However a run ends, a rig that holds a lease is asked for its safe stop before the line is closed.
 */
final class HeldRig implements AutoCloseable {
    /** Its lease ran out, or a guard tripped, just before it was asked. */
    private static final String STOPPED_BEFORE =
            "; it had stopped by itself before it was asked, and that stop is latched: look at the machine before it runs again";

    private final RunPlan plan;
    private final RunTerms terms;
    private final RigConnector connector;
    private final BooleanSupplier cancelled;
    private final IntSupplier nonces;

    private @Nullable Link link;
    private @Nullable RigSession session;
    private boolean latched;
    private boolean begun;

    HeldRig(RunPlan plan, RunTerms terms, RigConnector connector, BooleanSupplier cancelled, IntSupplier nonces) {
        this.plan = plan;
        this.terms = terms;
        this.connector = connector;
        this.cancelled = cancelled;
        this.nonces = nonces;
    }

    /** The first session; a rig that is not the one the scripts were checked against is refused. */
    void begin() throws SessionException {
        requireTheRightRig(connect());
    }

    private void requireTheRightRig(RigSession connected) throws SessionException {
        List<String> differences = DescriptionCheck.differences(plan.description(), connected.description());
        if (!differences.isEmpty()) {
            throw new SessionException(
                    SessionException.Reason.REFUSED,
                    "the rig is not the one that the scripts were checked against: "
                            + String.join("; ", differences)
                            + ". If it was changed on purpose, run \"identify --save\" and check the scripts again");
        }
        Optional<String> objection = terms.objection(connected.hello());
        if (objection.isPresent()) {
            throw new SessionException(SessionException.Reason.REFUSED, objection.get());
        }
        connected.loadGuards(plan.rig().guards());
    }

    boolean isReal() {
        return current().hello().real != 0;
    }

    RigSession current() {
        RigSession open = session;
        if (open == null) {
            throw new IllegalStateException("no session");
        }
        return open;
    }

    /** The safe stop behind a script. */
    void letGo(RigSession at) throws SessionException {
        latched = at.letGo();
    }

    /** Another session behind a restart; nothing that moves is sent by that. */
    void reopenAfterRestart() throws SessionException {
        if (current().restart().isPresent()) {
            latched = false;
            reopen(0);
        }
    }

    /** Brings the rig to ready; after a restart, or where it was lost and came back by itself, in a new session. */
    void prepare(Consumer<String> waits) throws SessionException {
        BetweenRuns between = new BetweenRuns(plan.between(), waits);
        try {
            reopenUnlessReal();
            if (begun) {
                between.rest(current());
                reopenUnlessReal();
            }
            between.waitForStart(current());
            makeReady();
        } catch (SessionException e) {
            Optional<RigReturn> back =
                    e.reason() == SessionException.Reason.LINK ? comeBack(current()) : Optional.empty();
            if (isGivenUpForUser()) {
                throw new SessionException(SessionException.Reason.CANCELLED, "stopped by the user", e);
            }
            if (back.isEmpty()) {
                throw e;
            }
            if (!mayGoOn(back.get())) {
                throw new SessionException(
                        e.reason(), e.getMessage() + "; it came back by itself" + words(back.get()), e);
            }
            between.waitForStart(current());
            makeReady();
        }
    }

    /**
     * A controller that restarts between two scripts does so because somebody is at the machine, or because something is wrong
     * with it; and it has forgotten what was latched. So a real rig is looked at first.
     */
    private void reopenUnlessReal() throws SessionException {
        requireNoLatch();
        Optional<ResetCause> restart = current().restart();
        if (isReal() && restart.isPresent()) {
            throw new SessionException(
                    SessionException.Reason.RESTARTED,
                    "the controller restarted (" + RigReturn.name(restart.get())
                            + ") between two scripts, and a real rig does not move unattended after that: look at the"
                            + " machine, and run again");
        }
        reopenAfterRestart();
    }

    private void requireNoLatch() throws SessionException {
        if (latched && isReal()) {
            throw new SessionException(
                    SessionException.Reason.REFUSED,
                    "a stop is latched on the rig; look at the machine, bring it to ready by hand, and run again");
        }
    }

    private void makeReady() throws SessionException {
        requireNoLatch();
        Optional<RigFile.Ready> ready = plan.rig().ready();
        if (!begun && mayBeLatchedOfBefore(ready)) {
            latched = true;
        }
        begun = true;
        if (ready.isPresent()) {
            try {
                current().makeReady(ready.get(), latched);
            } catch (SessionException e) {
                if (e.reason() != SessionException.Reason.LATCHED) {
                    throw e;
                }
                releaseOf(e);
                current().makeReady(ready.get(), true);
            }
        } else if (latched) {
            current().releaseLatch();
        }
        latched = false;
    }

    /** Whether a stop of an earlier run is to be released that nobody here knows of; where the rig is brought to ready, it tells. */
    private boolean mayBeLatchedOfBefore(Optional<RigFile.Ready> ready) {
        return isReal() ? terms.releaseLatch() : ready.isEmpty();
    }

    /** A stop of an earlier run may still be latched. On a virtual rig there is nothing to look at. */
    private void releaseOf(SessionException refusal) throws SessionException {
        if (isReal()) {
            throw new SessionException(
                    SessionException.Reason.LATCHED,
                    refusal.getMessage() + ". Look at the machine first, with its power off; if it may move again, run"
                            + " with --release-latch");
        }
    }

    private RigSession connect() throws SessionException {
        try {
            link = connector.connect();
        } catch (LinkException e) {
            throw new SessionException(SessionException.Reason.LINK, String.valueOf(e.getMessage()), e);
        }
        return open(0);
    }

    private void reopen(long busyMicros) throws SessionException {
        requireTheRightRig(open(busyMicros));
    }

    private RigSession open(long busyMicros) throws SessionException {
        Link open = link;
        if (open == null) {
            throw new IllegalStateException("no link");
        }
        SessionSettings settings = SessionSettings.usual(
                        nonces.getAsInt(), plan.rig().leaseMillis(), cancelled)
                .withGreeting(connector.greetingMicros(), busyMicros);
        RigSession opened = RigSession.open(open, settings, Optional.of(plan.description()));
        session = opened;
        return opened;
    }

    boolean mustMoveToGetReady() {
        return isReal() && plan.rig().ready().isPresent();
    }

    /**
     * Takes a rig up again whose line was lost, if it came back by itself and need not move to get ready. Its lease has to run
     * out first, and its stop to be done.
     */
    Optional<RigReturn> comeBack(RigSession before) {
        if (mustMoveToGetReady()) {
            return Optional.empty();
        }
        closeLink();
        try {
            Optional<Link> again = connector.reconnect(cancelled);
            if (again.isEmpty()) {
                return Optional.empty();
            }
            link = again.get();
            reopen(plan.rig().leaseMillis() * 1000L + SessionSettings.USUAL_STOP_MICROS);
        } catch (LinkException | SessionException e) {
            // What is told is that it was lost.
            closeLink();
            return Optional.empty();
        }
        RigReturn back = RigReturn.of(before.hello(), current().hello());
        latched = back.isSameBoot();
        return Optional.of(back);
    }

    /** Whether a plan may go on on a rig that came back. A real one that has started anew would move unattended. */
    boolean mayGoOn(RigReturn back) {
        return back.isSameBoot() || !isReal();
    }

    /** What a rig that came back tells of itself, and what that comes to. */
    String words(RigReturn back) {
        return back.words()
                + (mayGoOn(back)
                        ? ""
                        : ", and a real rig does not move unattended after that: look at the machine, and run again");
    }

    /** Whether the user wanted to stop while it was waited for a rig whose line was lost. */
    boolean isGivenUpForUser() {
        return link == null && cancelled.getAsBoolean();
    }

    /** The user wants to stop: the machine's safe stop comes first. */
    RunEnd stopForUser() {
        current().endRecording();
        if (link == null) {
            return new RunEnd(
                    RunEnd.Cause.CANCELLED,
                    "stopped by the user while the line was lost; the rig has not confirmed its safe stop, and its lease"
                            + " ends by itself. Look at the machine before going near it");
        }
        boolean stopLatched;
        try {
            stopLatched = current().letGo();
        } catch (SessionException e) {
            return new RunEnd(RunEnd.Cause.CANCELLED, "stopped by the user; " + e.getMessage());
        }
        return new RunEnd(
                RunEnd.Cause.CANCELLED,
                "stopped by the user; the rig has confirmed its safe stop" + (stopLatched ? STOPPED_BEFORE : ""));
    }

    /** A rig that refused something or missed an answer stops now, and not only when its lease runs out. */
    void letGoIfItHears(SessionException failure) {
        boolean mayHear = failure.reason() == SessionException.Reason.REFUSED
                || failure.reason() == SessionException.Reason.LATCHED
                || failure.reason() == SessionException.Reason.SILENT;
        if (mayHear) {
            // What is told is the failure before; where it does not hear, the lease ends by itself.
            current().close();
        }
    }

    /** The safe stop first, if it is still owed, then the line. */
    @Override
    public void close() {
        try {
            if (session != null) {
                session.close();
            }
        } finally {
            closeLink();
        }
    }

    private void closeLink() {
        Link open = link;
        if (open != null) {
            link = null;
            open.close();
        }
    }
}
