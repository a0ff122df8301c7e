package snagbench.bench.run;

import java.lang.reflect.RecordComponent;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What a record lacks that was read from a file: JSON that leaves out a member, or has null there, gives a record with null in it, which
 * nobody else reckons with.
 */
final class Missing {
    private Missing() {}

    /**
     * Looks for it in a record, and in the records that it is made of.
     *
     * @return such as "judgement.findings[2].place"; empty where nothing is missing
     */
    static Optional<String> in(Record whole) {
        for (RecordComponent component : whole.getClass().getRecordComponents()) {
            Optional<String> missing = in(valueOf(whole, component), component.getName());
            if (missing.isPresent()) {
                return missing;
            }
        }
        return Optional.empty();
    }

    private static Optional<String> in(@Nullable Object part, String name) {
        if (part == null) {
            return Optional.of(name);
        }
        if (part instanceof Optional<?> optional) {
            return optional.flatMap(one -> in(one, name));
        }
        if (part instanceof Record nested) {
            return in(nested).map(inside -> name + "." + inside);
        }
        if (part instanceof List<?> list) {
            for (int i = 0; i < list.size(); i++) {
                Optional<String> missing = in(list.get(i), name + "[" + i + "]");
                if (missing.isPresent()) {
                    return missing;
                }
            }
        }
        return Optional.empty();
    }

    private static @Nullable Object valueOf(Record whole, RecordComponent component) {
        try {
            return component.getAccessor().invoke(whole);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException(component + " of a record cannot be read", e);
        }
    }
}
