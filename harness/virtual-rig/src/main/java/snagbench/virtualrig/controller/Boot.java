package snagbench.virtualrig.controller;

import snagbench.probe.Arming;
import snagbench.probe.ProbeClock;
import snagbench.probe.ProbeLine;
import snagbench.wire.ResetCause;

/**
 * What a controller gives to the firmware that it starts.
 *
 * @param id of this start, from 1 on, never again the same
 * @param cause why it started
 * @param line to the bench
 * @param clock which is 0 at the start
 * @param arming what the rig does at the start of a program
 */
public record Boot(int id, ResetCause cause, ProbeLine line, ProbeClock clock, Arming arming) {}
