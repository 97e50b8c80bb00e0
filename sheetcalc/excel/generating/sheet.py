"""The writing library's sheet, with formulas left alone."""

from xlsxwriter.worksheet import CellFormulaTuple, Worksheet


class ExactSheet(Worksheet):  # type: ignore[misc]  # the library has no types
    """A sheet that writes formulas exactly as said.

    The library looks in every formula for functions of newer programs, to prefix them or to make
    it an array formula.  It would find them in a quoted text too, such as the name of a supplier,
    and takes half of the writing time of a large job.  Our formulas carry the prefix where one is
    needed, and none is an array formula.
    """

    def _write_formula(
        self, row: int, col: int, formula: str, cell_format: object = None, value: object = 0
    ) -> int:
        if self._check_dimensions(row, col):
            return -1
        self.table[row][col] = CellFormulaTuple(formula.removeprefix("="), cell_format, value)
        return 0
