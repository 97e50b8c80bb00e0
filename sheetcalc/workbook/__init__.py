"""The workbook described as data: tabs and columns declared once; rows to domain, results to cells.

Knows no library: ``excel`` reads and writes what is described here.
"""
