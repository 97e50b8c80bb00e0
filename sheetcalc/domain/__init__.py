"""The trade's nouns as frozen records.  Imports nothing of the project.

Lengths are whole numbers of 1/320 mm where the name ends in ``_mm320`` (so that 0.1 mm and
1/64 in are both exact); everything else is SI in floats with the unit in the name.
"""
