"""The writing library's sheet: formulas left alone, long tables made at once, sized pictures."""

from typing import Any

from xlsxwriter.exceptions import OverlappingRange
from xlsxwriter.utility import xl_range
from xlsxwriter.worksheet import CellFormulaTuple, Worksheet

from sheetcalc.excel.generating.pictures import SizedPictures


class ExactSheet(Worksheet):  # type: ignore[misc]  # the library has no types
    """A sheet that writes formulas exactly as said, and does not visit every cell of a table.

    The library looks in every formula, those of conditional styles and validations among them,
    for functions of newer programs, to prefix them or to make it an array formula.  It would find
    them in a quoted text too, such as the name of a supplier, and takes half of the writing time
    of a large job.  Our formulas carry the prefix where one is needed, and none is an array
    formula.
    """

    drawing: Any

    def __init__(self) -> None:
        """Begin an empty sheet."""
        super().__init__()
        # first row and column, last row and column of each table
        self._taken: list[tuple[int, int, int, int]] = []

    def _write_formula(
        self, row: int, col: int, formula: str, cell_format: object = None, value: object = 0
    ) -> int:
        if self._check_dimensions(row, col):
            return -1
        self.table[row][col] = CellFormulaTuple(formula.removeprefix("="), cell_format, value)
        return 0

    @staticmethod
    def _prepare_formula(formula: str, expand_future_functions: bool = False) -> str:  # noqa: ARG004, FBT001, FBT002 - the library's own
        return formula.removeprefix("=")

    def _prepare_image(self, *picture: Any) -> None:  # noqa: ANN401 - the library's own
        super()._prepare_image(*picture)
        if not isinstance(self.drawing, SizedPictures):
            self.drawing = SizedPictures.of(self.drawing)

    def add_table(
        self,
        first_row: int,
        first_col: int,
        last_row: int,
        last_col: int,
        options: dict[str, Any] | None = None,
    ) -> int:
        """Add a table that has a header and none of its cells filled in by the library.

        The library notes each cell, to find tables that overlap; for a large block that is a
        million notes.  So it makes a table of one record, which is then given its length.

        Raises
        ------
        OverlappingRange
            Where another table is in the way.
        """
        if self._check_dimensions(last_row, last_col, ignore_row=True, ignore_col=True):
            return -1
        for top, left, bottom, right in self._taken:
            apart = last_row < top or bottom < first_row or last_col < left or right < first_col
            if not apart:
                message = f"a table from row {first_row + 1} overlaps one from row {top + 1}"
                raise OverlappingRange(message)
        code: int = super().add_table(first_row, first_col, first_row + 1, last_col, options)
        if code == 0:
            table, place = self.tables[-1], xl_range(first_row, first_col, last_row, last_col)
            table |= {key: place for key in ("range", "a_range", "autofilter") if key in table}
            self._taken.append((first_row, first_col, last_row, last_col))
        return code
