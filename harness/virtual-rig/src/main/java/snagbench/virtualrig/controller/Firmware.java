package snagbench.virtualrig.controller;

/** What runs on the controller from one reset to the next. */
@FunctionalInterface
public interface Firmware {
    /** One pass of the loop. */
    void tick();
}
