package snagbench.bench.judge;

import java.util.List;
import java.util.stream.Collectors;

/** That one of several conditions holds. */
final class OneOf implements TermSignal {
    private final List<Signal> alternatives;

    OneOf(List<Signal> alternatives) {
        this.alternatives = List.copyOf(alternatives);
    }

    @Override
    public int at(int tick) {
        int truth = Truth.FALSE;
        for (int i = 0; i < alternatives.size() && truth != Truth.TRUE; i++) {
            truth = Truth.or(truth, alternatives.get(i).at(tick));
        }
        return truth;
    }

    @Override
    public int somewhere(int row, int first, int last) {
        int found = 0;
        int wavering = 0;
        boolean waveringFails = false;
        for (Signal one : alternatives) {
            int everywhere = one.everywhere(first, last);
            int some = everywhere == Truth.UNKNOWN ? one.somewhere(row) : everywhere;
            found |= some & Truth.TRUE;
            if (everywhere != Truth.FALSE) {
                wavering++;
                waveringFails = (some & Truth.FALSE) != 0;
            }
        }
        boolean failsSomewhere = wavering == 0 || (wavering == 1 && waveringFails);
        return found | (failsSomewhere ? Truth.FALSE : 0);
    }

    @Override
    public String reading(int tick) {
        return alternatives.stream().map(one -> one.reading(tick)).distinct().collect(Collectors.joining(", "));
    }

    @Override
    public int firstTick() {
        return alternatives.stream().mapToInt(Signal::firstTick).max().orElse(0);
    }
}
