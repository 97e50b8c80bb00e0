"""Writing sheets that are described as data to a fresh workbook."""
