package snagbench.virtualrig.shuttle;

import snagbench.probe.Channel;
import snagbench.probe.Controller;
import snagbench.probe.Probe;
import snagbench.probe.ProbeLimits;
import snagbench.virtualrig.controller.Boot;
import snagbench.virtualrig.controller.Firmware;
import snagbench.virtualrig.controller.Machine;
import snagbench.virtualrig.shuttle.control.ShuttleChannels;
import snagbench.virtualrig.shuttle.control.ShuttleControl;
import snagbench.virtualrig.shuttle.control.ShuttleStop;

/** The shuttle with its controller's firmware: the control code in the loop, and the shell that lets the bench disturb the plant. */
final class ShuttleMachine implements Machine {
    private final ShuttleBuild build;
    private final ShuttlePlant plant;

    ShuttleMachine(ShuttleBuild build) {
        this.build = build;
        plant = new ShuttlePlant(build != ShuttleBuild.WITHOUT_RACK, build == ShuttleBuild.WEAK_BATTERY);
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
        Channel obstacle = channels.obstaclePosition();
        Probe probe = new Probe(
                channels.description(),
                new Controller(build.greeting(), boot.id(), boot.cause(), false, 0),
                ProbeLimits.USUAL,
                boot.line(),
                boot.clock(),
                new ShuttleStop(plant, plant, boot.clock()),
                boot.arming());
        ShuttleControl control = new ShuttleControl(probe, channels, plant, plant, build.lookedFor());
        return () -> {
            probe.beginTick();
            plant.putObstacle(probe.read(obstacle, 0));
            plant.sample();
            control.tick();
            probe.endTick();
        };
    }
}
