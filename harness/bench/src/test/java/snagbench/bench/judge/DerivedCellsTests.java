package snagbench.bench.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class DerivedCellsTests {
    @Test
    void whatWasNotSetIsNotKnown() {
        DerivedCells cells = new DerivedCells(2);
        cells.set(0, 3, 5);

        assertEquals(3, cells.least(0));
        assertEquals(5, cells.greatest(0));
        assertFalse(cells.isOpen(0));
        assertTrue(cells.isOpen(1));
        assertEquals(Cells.LEAST, cells.least(1));
        assertEquals(Cells.GREATEST, cells.greatest(1));
    }

    @Test
    void outsideOfItsTicksNothingIsKnown() {
        DerivedCells cells = new DerivedCells(2);
        cells.set(0, 3, 5);
        cells.set(1, 3, 5);

        for (int tick : new int[] {-1, 2}) {
            assertEquals(Cells.LEAST, cells.least(tick));
            assertEquals(Cells.GREATEST, cells.greatest(tick));
        }
    }

    @Test
    void aValueOutOfAllRangeIsAsGoodAsUnknown() {
        DerivedCells cells = new DerivedCells(4);
        cells.set(0, Cells.LEAST - 1, 5);
        cells.set(1, 3, Cells.GREATEST + 1);
        cells.set(2, Cells.GREATEST, Cells.LEAST);
        cells.set(3, Cells.LEAST + 1, Cells.GREATEST - 1);

        assertTrue(cells.isOpen(0));
        assertEquals(Cells.LEAST, cells.least(0));
        assertEquals(5, cells.greatest(0));
        assertTrue(cells.isOpen(1));
        assertEquals(Cells.GREATEST, cells.greatest(1));
        assertEquals(Cells.LEAST, cells.least(2));
        assertEquals(Cells.GREATEST, cells.greatest(2));
        assertFalse(cells.isOpen(3));
        assertEquals(Cells.LEAST + 1, cells.least(3));
        assertEquals(Cells.GREATEST - 1, cells.greatest(3));
    }

    @Test
    void oneSideThatIsNotBoundedIsEnough() {
        assertTrue(Spans.of(Spans.span(Cells.LEAST, 5)).isOpen(0));
        assertTrue(Spans.of(Spans.span(5, Cells.GREATEST)).isOpen(0));
        assertFalse(Spans.of(Spans.span(Cells.LEAST + 1, Cells.GREATEST - 1)).isOpen(0));
    }
}
