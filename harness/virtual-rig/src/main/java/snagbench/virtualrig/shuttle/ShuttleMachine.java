package snagbench.virtualrig.shuttle;

import snagbench.probe.Controller;
import snagbench.probe.Probe;
import snagbench.probe.ProbeLimits;
import snagbench.virtualrig.controller.Boot;
import snagbench.virtualrig.controller.Firmware;
import snagbench.virtualrig.controller.Machine;
import snagbench.virtualrig.shuttle.control.DisturbanceChannels;
import snagbench.virtualrig.shuttle.control.RunRecord;
import snagbench.virtualrig.shuttle.control.ShuttleChannels;
import snagbench.virtualrig.shuttle.control.ShuttleControl;
import snagbench.virtualrig.shuttle.control.ShuttleStop;

/** The shuttle with its controller's firmware: the control code in the loop, and the shell that lets the bench disturb the plant. */
final class ShuttleMachine implements Machine {
    private final ShuttleBuild build;
    private final ShuttlePlant plant;
    private final RunRecord record = new RunRecord();

    ShuttleMachine(ShuttleBuild build) {
        this.build = build;
        plant = new ShuttlePlant(build != ShuttleBuild.WITHOUT_RACK, build == ShuttleBuild.WEAK_BATTERY);
    }

    /** For who wants to know what really happened. */
    ShuttlePlant plant() {
        return plant;
    }

    @Override
    public void reset(int seed) {
        plant.reset(seed);
    }

    @Override
    public void advance(int micros) {
        plant.advance(micros);
    }

    @Override
    public double supplyVolts() {
        return plant.supplyVolts();
    }

    @Override
    public void outputsOff() {
        plant.outputsOff();
    }

    @Override
    public Firmware boot(Boot boot) {
        ShuttleChannels channels = new ShuttleChannels();
        Probe probe = new Probe(
                channels.description(),
                new Controller(build.greeting(), boot.id(), boot.cause(), false, 0),
                ProbeLimits.USUAL,
                boot.line(),
                boot.clock(),
                new ShuttleStop(plant, plant, boot.clock()),
                boot.arming());
        ShuttleControl control = new ShuttleControl(probe, channels, plant, plant, build.lookedFor(), record);
        Disturbances wanted = new Disturbances();
        return () -> {
            probe.beginTick();
            read(probe, channels.disturbances(), wanted);
            plant.disturb(wanted);
            plant.sample();
            control.tick();
            probe.endTick();
        };
    }

    private static void read(Probe probe, DisturbanceChannels from, Disturbances into) {
        into.obstacle = probe.read(from.obstacle, 0);
        into.jam = probe.read(from.jam, 0);
        into.reachDrag = probe.read(from.reachDrag, 0);
        into.liftDrag = probe.read(from.liftDrag, 0);
        into.batteryWear = probe.read(from.batteryWear, 0);
        into.gripperHand = probe.read(from.gripperHand, 0);
        into.throatHand = probe.read(from.throatHand, 0);
        into.push = probe.read(from.push, 0);
        into.visitor = probe.read(from.visitor, 0);
        into.rackEmpty = probe.read(from.rackEmpty, 0);
        into.potStays = probe.read(from.potStays, 0);
        into.potSlips = probe.read(from.potSlips, 0);
        into.potOffset = probe.read(from.potOffset, 0);
        into.supplyCut = probe.read(from.supplyCut, 0);
    }
}
