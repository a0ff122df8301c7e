package snagbench.bench.trace;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** The events of a trace in order of their numbers, whatever the order in which they came. Not threadsafe. */
final class EventLog {
    private final List<Happening> known = new ArrayList<>();
    private final TreeSet<Integer> beyondGap = new TreeSet<>();
    private int contiguous;
    private @Nullable List<Happening> shared;

    /**
     * Tells whether an event was seen before, and remembers that it is now.
     *
     * @param number counted from arming, from 1
     * @return true if it is new
     */
    boolean isNew(int number) {
        if (number <= contiguous || !beyondGap.add(number)) {
            return false;
        }
        while (!beyondGap.isEmpty() && beyondGap.first() == contiguous + 1) {
            beyondGap.pollFirst();
            contiguous++;
        }
        return true;
    }

    void add(Happening happening) {
        int place = known.size();
        while (place > 0 && known.get(place - 1).number() > happening.number()) {
            place--;
        }
        known.add(place, happening);
        shared = null;
    }

    int contiguous() {
        return contiguous;
    }

    /** First and last number of each run of missing events below the greatest that was seen. */
    List<int[]> missing() {
        List<int[]> runs = new ArrayList<>();
        int before = contiguous;
        for (int number : beyondGap) {
            if (number > before + 1) {
                runs.add(new int[] {before + 1, number - 1});
            }
            before = number;
        }
        return runs;
    }

    int greatest() {
        return beyondGap.isEmpty() ? contiguous : beyondGap.last();
    }

    List<Happening> view() {
        List<Happening> view = shared;
        if (view == null) {
            view = List.copyOf(known);
            shared = view;
        }
        return view;
    }
}
