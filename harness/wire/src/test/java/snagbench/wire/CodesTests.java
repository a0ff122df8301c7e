package snagbench.wire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.Set;
import java.util.function.IntFunction;
import java.util.function.ToIntFunction;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class CodesTests {
    @Test
    void everyCodeIsFoundAgainAndNoOtherIs() {
        check(MessageType.values(), MessageType::code, MessageType::of);
        check(ChannelKind.values(), ChannelKind::code, ChannelKind::of);
        check(Comparison.values(), Comparison::code, Comparison::of);
        check(EntryEnd.values(), EntryEnd::code, EntryEnd::of);
        check(EntryKind.values(), EntryKind::code, EntryKind::of);
        check(EventKind.values(), EventKind::code, EventKind::of);
        check(GuardKind.values(), GuardKind::code, GuardKind::of);
        check(ItemKind.values(), ItemKind::code, ItemKind::of);
        check(Refusal.values(), Refusal::code, Refusal::of);
        check(ResetCause.values(), ResetCause::code, ResetCause::of);
        check(StopReason.values(), StopReason::code, StopReason::of);
        check(TermRole.values(), TermRole::code, TermRole::of);
    }

    private static <E extends Enum<E>> void check(E[] all, ToIntFunction<E> code, IntFunction<@Nullable E> of) {
        Set<Integer> codes = new HashSet<>();
        for (E one : all) {
            assertTrue(codes.add(code.applyAsInt(one)), one + " has a code of its own");
            assertSame(one, of.apply(code.applyAsInt(one)));
        }
        for (int other = -2; other < 300; other++) {
            if (!codes.contains(other)) {
                assertNull(of.apply(other), all[0].getDeclaringClass() + " knows no " + other);
            }
        }
        assertEquals(all.length, codes.size());
    }

    @Test
    void entryKindsFitTheGreetingsMask() {
        for (EntryKind kind : EntryKind.values()) {
            assertTrue(kind.code() < 16, kind + " within 16 bits");
        }
    }
}
