"""Makes the helpers in this folder importable by every test: ``recalc`` recalculates a workbook."""
