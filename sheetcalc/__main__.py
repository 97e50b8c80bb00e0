"""``python -m sheetcalc``."""

from sheetcalc.cli import main

if __name__ == "__main__":
    main()
