package snagbench.bench.trace;

import snagbench.wire.ResetCause;

/**
 * The controller started anew. Its clock started anew too, so what follows is a part of its own.
 *
 * @param cause as the controller tells it
 * @param afterTick the last tick that was heard of before; -1 where there was none since arming
 */
public record Restart(ResetCause cause, int afterTick) {}
