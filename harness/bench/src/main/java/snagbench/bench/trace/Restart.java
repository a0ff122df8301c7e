package snagbench.bench.trace;

import java.util.OptionalLong;
import snagbench.wire.ResetCause;

/**
 * The controller started anew. Its clock started anew too, so what follows is a part of its own.
 *
 * @param cause as the controller tells it
 * @param afterTick the last tick that was heard of before; -1 where there was none since arming
 * @param noLaterMicros it was no later than this, by the host's clock, in microseconds since arming; empty where nobody timed
 *     it. The rig's own clock cannot tell, since it began anew
 */
public record Restart(ResetCause cause, int afterTick, OptionalLong noLaterMicros) {}
