"""Every file that must be refused, and the code that says why."""

from collections.abc import Callable
from pathlib import Path

import damaged_files
import exhausting_files

HOSTILE: dict[Callable[[Path], Path], str] = {
    exhausting_files.one_large_part: "PART-TOO-LARGE",
    exhausting_files.one_ratio: "ZIP-BOMB",
    exhausting_files.many_large_parts: "BOOK-TOO-LARGE",
    exhausting_files.nested_packages: "ZIP-BOMB",
    exhausting_files.nested_bomb: "ZIP-BOMB",
    exhausting_files.overlapping_members: "ZIP-BOMB",
    exhausting_files.many_cells: "SHEET-TOO-WIDE",
    exhausting_files.one_long_cell: "PART-TOO-LARGE",
    exhausting_files.a_long_shared_string: "CELL-TOO-LONG",
    exhausting_files.a_far_cell: "SHEET-TOO-WIDE",
    exhausting_files.a_far_cell_with_prefix: "SHEET-TOO-WIDE",
    exhausting_files.a_far_cell_in_utf16: "SHEET-TOO-WIDE",
    exhausting_files.a_row_beyond_the_last: "BAD-REFERENCE",
    exhausting_files.a_column_beyond_the_last: "BAD-REFERENCE",
    exhausting_files.a_merge_of_everything: "TOO-MANY-RANGES",
    exhausting_files.a_link_on_everything: "TOO-MANY-RANGES",
    exhausting_files.many_merges: "TOO-MANY-RANGES",
    exhausting_files.many_validations: "TOO-MANY-RANGES",
    exhausting_files.deep_sheet: "XML-TOO-DEEP",
    exhausting_files.deep_custom_part: "XML-TOO-DEEP",
    exhausting_files.deep_workbook: "XML-BROKEN",
    damaged_files.duplicate_member: "DUPLICATE-PARTS",
    damaged_files.steps_upwards: "PART-NAME",
    damaged_files.steps_upwards_with_backslashes: "PART-NAME",
    damaged_files.a_drive_letter: "PART-NAME",
    damaged_files.a_target_outside: "TARGET-OUTSIDE",
    damaged_files.wrong_checksum: "ZIP-CHECKSUM",
    damaged_files.damaged_data: "ZIP-BROKEN",
    damaged_files.truncated: "ZIP-TRUNCATED",
    damaged_files.truncated_at_the_end: "ZIP-TRUNCATED",
    damaged_files.lying_size: "ZIP-BROKEN",
    damaged_files.encrypted_part: "ZIP-ENCRYPTED",
    damaged_files.odd_method: "ZIP-METHOD",
    damaged_files.two_names: "ZIP-BROKEN",
    damaged_files.many_members: "TOO-MANY-PARTS",
    damaged_files.encrypted_book: "ENCRYPTED",
    damaged_files.old_book: "OLD-FORMAT",
    damaged_files.binary_book: "BINARY-WORKBOOK",
    damaged_files.shared_book: "SHARED-REVISIONS",
    damaged_files.a_text_document: "NOT-A-WORKBOOK",
    damaged_files.an_open_document: "NOT-A-WORKBOOK",
    damaged_files.a_csv: "NOT-A-WORKBOOK",
    damaged_files.an_empty_file: "FILE-EMPTY",
    damaged_files.an_empty_zip: "NOT-A-WORKBOOK",
    damaged_files.broken_workbook_part: "XML-BROKEN",
    damaged_files.no_sheets: "NOT-A-WORKBOOK",
    damaged_files.missing_workbook_part: "NOT-A-WORKBOOK",
    damaged_files.unknown_encoding: "XML-ENCODING",
    damaged_files.empty_deflate: "ZIP-BROKEN",
}
"""Maker -> the code that its file is refused with."""

LARGE = ("many_cells", "one_long_cell", "one_large_part", "many_large_parts")
"""Makers that take long: their files are looked at once, within limits."""
