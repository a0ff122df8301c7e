/**
 * A control loop before and after the probe was fitted: the code on firmware-notes/fitting-the-probe.md. It stands outside
 * the probe's package, as a user's code does.
 */
package snagbench.fitting;
