package snagbench.fitting;

/** The lift's hardware, as the control code has always used it. */
interface Lift {
    /** In 0.1 mm above the bottom. */
    int height();

    /** In 10 mA. */
    int current();

    boolean isButtonPressed();

    /** In 0.1 %, above 0 upwards; 0 brakes, and the brake holds a pot. */
    void motor(int drive);
}
