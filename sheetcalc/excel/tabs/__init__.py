"""Our tabs in a workbook: known again, and what their cells hold."""
