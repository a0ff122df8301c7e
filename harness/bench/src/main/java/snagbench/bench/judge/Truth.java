package snagbench.bench.judge;

import snagbench.bench.script.Condition.Relation;

/**
 * Kleene's three values, as the set of what can be: a condition that can be true and can be false is unknown. Kept as
 * bits, since one is worked out for every tick.
 */
final class Truth {
    /** It can be false. */
    static final int FALSE = 1;

    /** It can be true. */
    static final int TRUE = 2;

    /** It can be either. */
    static final int UNKNOWN = FALSE | TRUE;

    private Truth() {}

    static int of(boolean known) {
        return known ? TRUE : FALSE;
    }

    /** Kleene's conjunction. */
    static int and(int one, int other) {
        return ((one | other) & FALSE) | (one & other & TRUE);
    }

    /** Kleene's disjunction. */
    static int or(int one, int other) {
        return ((one | other) & TRUE) | (one & other & FALSE);
    }

    /** What a comparison can be while the reading is anywhere between two values. */
    static int of(Relation relation, long raw, long least, long greatest) {
        return switch (relation) {
            case AT_LEAST -> set(greatest >= raw, least < raw);
            case ABOVE -> set(greatest > raw, least <= raw);
            case AT_MOST -> set(least <= raw, greatest > raw);
            case BELOW -> set(least < raw, greatest >= raw);
            case IS -> set(least <= raw && raw <= greatest, least != raw || greatest != raw);
            case IS_NOT -> set(least != raw || greatest != raw, least <= raw && raw <= greatest);
        };
    }

    /** What a comparison of an absolute value can be while the value itself is anywhere between two. */
    static int ofDistance(Relation relation, long raw, long least, long greatest) {
        long nearest = least <= 0 && greatest >= 0 ? 0 : Math.min(Math.abs(least), Math.abs(greatest));
        return of(relation, raw, nearest, Math.max(Math.abs(least), Math.abs(greatest)));
    }

    private static int set(boolean canHold, boolean canFail) {
        return (canHold ? TRUE : 0) | (canFail ? FALSE : 0);
    }
}
