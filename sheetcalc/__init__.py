"""sheetcalc: takeoff and purchase orders for bathroom floors, in the estimator's workbook."""

__version__ = "0.1.0"
