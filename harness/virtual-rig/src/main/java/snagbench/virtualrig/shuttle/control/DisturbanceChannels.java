package snagbench.virtualrig.shuttle.control;

import snagbench.probe.Channel;
import snagbench.probe.ChannelSpec;
import snagbench.probe.Description;
import snagbench.wire.ChannelKind;

/** The channels by which the bench has the rig disturb itself; 0 is undisturbed everywhere. */
public final class DisturbanceChannels {
    private static final int FAR = 4500;

    /** Something solid in the arm's way out, as its place in 0.1 mm from home. */
    public final Channel obstacle;
    /** Something that the arm gets caught at on its way home, as its place in 0.1 mm from home. */
    public final Channel jam;
    /** The arm's friction, in 0.1 of that of an arm as drawn. */
    public final Channel reachDrag;
    /** The lift's friction, in 0.1 of that of a lift as drawn. */
    public final Channel liftDrag;
    /** More resistance of the battery, in 0.01 ohm. */
    public final Channel batteryWear;
    /** A hand in the beam across the fingers. */
    public final Channel gripperHand;
    /** A hand in the throat's beam. */
    public final Channel throatHand;
    /** How far another vehicle shoves the base, in 0.1 mm, above 0 away from the rack. */
    public final Channel push;
    /** How far something sticks out from the shelf, in 0.1 mm. */
    public final Channel visitor;
    /** The rack has not fed a pot. */
    public final Channel rackEmpty;
    /** The pot stays in the throat when the lift rises. */
    public final Channel potStays;
    /** The pot slips out of the fingers. */
    public final Channel potSlips;
    /** How far off the middle of the fingers a pot is gripped, in 0.1 mm. */
    public final Channel potOffset;
    /** The controller's supply is cut for 30 ms. */
    public final Channel supplyCut;

    DisturbanceChannels(Description.Builder to, Channel obstacle) {
        this.obstacle = obstacle;
        jam = to.channel(disturbance("jam.position").unit("mm", 1, -1).range(0, FAR));
        reachDrag = to.channel(disturbance("reach.drag").unit("", 1, -1).range(0, 200));
        liftDrag = to.channel(disturbance("lift.drag").unit("", 1, -1).range(0, 200));
        batteryWear = to.channel(disturbance("battery.wear").unit("ohm", 1, -2).range(0, 500));
        gripperHand = to.channel(disturbance("gripper.hand").withValueNames("away", "in-beam"));
        throatHand = to.channel(disturbance("throat.hand").withValueNames("away", "in-beam"));
        push = to.channel(disturbance("base.push").unit("mm", 1, -1).range(-FAR, FAR));
        visitor = to.channel(disturbance("shelf.visitor").unit("mm", 1, -1).range(0, FAR));
        rackEmpty = to.channel(disturbance("rack.empty").withValueNames("no", "yes"));
        potStays = to.channel(disturbance("pot.stays").withValueNames("no", "yes"));
        potSlips = to.channel(disturbance("pot.slips").withValueNames("no", "yes"));
        potOffset = to.channel(disturbance("pot.offset").unit("mm", 1, -1).range(-300, 300));
        supplyCut = to.channel(disturbance("supply.cut").withValueNames("no", "yes"));
    }

    private static ChannelSpec disturbance(String name) {
        return ChannelSpec.of(ChannelKind.DISTURBANCE, name);
    }
}
