package snagbench.bench.script.read;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Finds the name that was most likely meant. */
final class NearestName {
    private static final int LONGEST = 64;
    private static final int MOST_LISTED = 24;
    private static final int MOST_BESIDE_A_NEAR_ONE = 8;

    private NearestName() {}

    /**
     * The nearest of the right names, if one is near: by the fewest letters put in, left out, changed or exchanged with
     * their neighbour (Damerau-Levenshtein distance in its restricted form), at most a third of the letters and at least
     * one; otherwise a name that holds the wrong one as a part.
     */
    static Optional<String> of(String wrong, Collection<String> right) {
        String plain = plain(wrong);
        if (plain.isEmpty() || plain.length() > LONGEST) {
            return Optional.empty();
        }
        int most = Math.max(1, plain.length() / 3);
        int least = most + 1;
        int leastWritten = 0;
        Optional<String> near = Optional.empty();
        for (String name : right) {
            int distance = distance(plain, plain(name), Math.min(least, most));
            if (distance > Math.min(least, most)) {
                continue;
            }
            int written = distance(wrong, name, LONGEST);
            if (distance < least || written < leastWritten) {
                near = Optional.of(name);
                least = distance;
                leastWritten = written;
            }
        }
        return near.or(() -> right.stream()
                .filter(name -> isPart(plain, plain(name)) || isPart(plain(name), plain))
                .min(Comparator.comparingInt(name -> Math.abs(name.length() - wrong.length()))));
    }

    /** What would do in place of a wrong name: the nearest right one, or all of them; both where they are few. */
    static String cure(String wrong, Collection<String> right) {
        return cure(wrong, right, "there are");
    }

    /** The same, with words that lead the list of names. */
    static String cure(String wrong, Collection<String> right, String lead) {
        Optional<String> near = of(wrong, right);
        List<String> parts = new ArrayList<>();
        near.ifPresent(name -> parts.add("did you mean \"" + name + "\"?"));
        if (right.isEmpty()) {
            parts.add("there is none");
        } else if (right.size() <= (near.isPresent() ? MOST_BESIDE_A_NEAR_ONE : MOST_LISTED)) {
            parts.add(lead + ": " + String.join(", ", right));
        }
        return String.join(" ", parts);
    }

    private static boolean isPart(String part, String whole) {
        return part.length() >= 3 && whole.contains(part);
    }

    private static String plain(String name) {
        return name.toLowerCase(Locale.ROOT).replace('_', '-').replace(' ', '-');
    }

    /** The distance, or any figure above {@code most} where it is more than that: names of other lengths cost nothing. */
    private static int distance(String a, String b, int most) {
        if (Math.abs(a.length() - b.length()) > most) {
            return most + 1;
        }
        int[] beforeLast = new int[b.length() + 1];
        int[] last = new int[b.length() + 1];
        int[] row = new int[b.length() + 1];
        for (int j = 0; j <= b.length(); j++) {
            last[j] = j;
        }
        for (int i = 1; i <= a.length(); i++) {
            row[0] = i;
            int least = i;
            for (int j = 1; j <= b.length(); j++) {
                int changed = last[j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                row[j] = Math.min(changed, 1 + Math.min(last[j], row[j - 1]));
                boolean exchanged =
                        i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1);
                if (exchanged) {
                    row[j] = Math.min(row[j], beforeLast[j - 2] + 1);
                }
                least = Math.min(least, row[j]);
            }
            // An exchange reaches back two rows, and can be one less than the row before it.
            if (least > most + 1) {
                return most + 1;
            }
            int[] free = beforeLast;
            beforeLast = last;
            last = row;
            row = free;
        }
        return last[b.length()];
    }
}
