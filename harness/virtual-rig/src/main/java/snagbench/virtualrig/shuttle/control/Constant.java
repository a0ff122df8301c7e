package snagbench.virtualrig.shuttle.control;

import snagbench.probe.Channel;
import snagbench.probe.Probe;

/**
 * A constant of the control code that the bench may adjust.
 *
 * @param channel by which
 * @param value as written, in the channel's steps
 */
record Constant(Channel channel, int value) {
    int read(Probe probe) {
        return probe.read(channel, value);
    }
}
