/**
 * Control code of the seedling shuttle, as the team that builds it would write it for its controller.
 *
 * <p>For: the reader who wants to see how control code carries the probe. It knows the probe and its own inputs and
 * outputs, and must not know what is behind them: neither the virtual machine nor the bench. The same code runs whether
 * time is virtual or real.
 */
@NullMarked
package snagbench.virtualrig.shuttle.control;

import org.jspecify.annotations.NullMarked;
