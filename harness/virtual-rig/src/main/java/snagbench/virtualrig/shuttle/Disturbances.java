package snagbench.virtualrig.shuttle;

/**
 * What the bench may do to the shuttle, as numbers in the steps of its channels; 0 everywhere is a shuttle that is left
 * alone.
 */
final class Disturbances {
    /** Something solid in the arm's way out, in 0.1 mm from home. */
    int obstacle;
    /** Something that keeps the arm from coming further home than this, in 0.1 mm from home. */
    int jam;
    /** The arm's friction, in 0.1 of that of an arm as drawn; 0 for the run's own. */
    int reachDrag;
    /** The lift's friction, in 0.1 of that of a lift as drawn; 0 for the run's own. */
    int liftDrag;
    /** More resistance of the battery, in 0.01 ohm. */
    int batteryWear;
    /** A hand in the beam across the fingers: not 0. */
    int gripperHand;
    /** A hand in the throat's beam: not 0. */
    int throatHand;
    /** How far another vehicle shoves the base, in 0.1 mm; it then stands there. */
    int push;
    /** How far something sticks out from the shelf, in 0.1 mm. */
    int visitor;
    /** The rack has not fed a pot: not 0. */
    int rackEmpty;
    /** The pot stays where it is when the lift takes it: not 0. */
    int potStays;
    /** The pot slips out of the fingers: not 0. */
    int potSlips;
    /** How far off the middle of the fingers the pot sits when it is gripped, in 0.1 mm. */
    int potOffset;
    /** The controller's supply is cut for a moment when this becomes other than 0. */
    int supplyCut;

    void clear() {
        obstacle = 0;
        jam = 0;
        reachDrag = 0;
        liftDrag = 0;
        batteryWear = 0;
        gripperHand = 0;
        throatHand = 0;
        push = 0;
        visitor = 0;
        rackEmpty = 0;
        potStays = 0;
        potSlips = 0;
        potOffset = 0;
        supplyCut = 0;
    }
}
