"""Words of the findings about saving, and about tabs and books that are not ours to change."""

from sheetcalc.workbook.wording.wording import Wording, error, note, warning

WORDINGS: tuple[Wording, ...] = (
    error(
        "FILE-OPEN",
        "{file} is open in another program ({lock} stands beside it)",
        "a file that nobody has open",
        "close it there and run again; if nobody has it open, a crashed program left "
        "{lock}: delete that",
        "Spreadsheet programs leave a small lock file while a workbook is open. "
        "Writing beneath an open program would lose what is typed there, so nothing "
        "was written.",
    ),
    error(
        "FILE-CHANGED",
        "{file} was changed by somebody while the run was at work",
        "the file as it was when it was read",
        "run again: the results then rest on what the file holds now",
        "Size, time and content of the file are compared with what was read, right "
        "before saving. The file is as that somebody left it.",
    ),
    error(
        "FILE-BUSY",
        "another run is writing {file}",
        "one run at a time for a file",
        "wait for it to end, and run again",
        "Two runs at once could each undo the other.",
    ),
    error(
        "FILE-GONE",
        "{file} is not there any more, or its folder is not",
        "the file where it was read",
        "check the drive or the connection, and run again",
        "Nothing was written.",
    ),
    error(
        "FILE-EXISTS",
        "{file} is there already",
        "a name that is not taken",
        "choose another name; to add the input tabs to a workbook that is there, use blank --into",
        "A file that exists is never overwritten by a new workbook.",
    ),
    error(
        "FILE-IS-BACKUP",
        "{file} is a backup: the workbook as it was before a run",
        "the workbook itself, or a copy of the backup under a name of its own",
        "to go back to it, copy it under another name, and run on that copy",
        "Backups are told by their names, and are never written to: each is the only copy "
        "of what stood in the workbook before a run.",
    ),
    error(
        "FILE-READ-ONLY",
        "{file} may not be written by you",
        "a file that you may write",
        "change its permissions, or work on a copy",
        "Nothing was written.",
    ),
    error(
        "FOLDER-READ-ONLY",
        "no file can be made in the folder of {file}",
        "a folder that you may write into",
        "change its permissions, or work on a copy elsewhere",
        "The new file is first written beside the old one and then takes its place in "
        "one step; that needs the folder.",
    ),
    error(
        "FILE-LINKED",
        "{file} has {links} names (hard links)",
        "a file with one name",
        "work on a copy (copying gives it one name)",
        "A new file would take the place of one name only; the others would go on "
        "showing the old one.",
    ),
    error(
        "FILE-OWNER",
        "{file} belongs to somebody else, and the new file can not be given to them",
        "a file that is yours",
        "ask its owner to run this, or work on a copy",
        "The new file must have the same owner, or they may be shut out of it.",
    ),
    error(
        "DISK-FULL",
        "there is no room left for {file}: {why}",
        "room for the new file and a backup",
        "make room, and run again",
        "The file is as it was; what was written of the new one is gone.",
    ),
    error(
        "SAVE-FAILED",
        "{file} could not be saved: {why}",
        "a file that can be replaced",
        "remove the cause, and run again",
        "The file is as it was.",
    ),
    error(
        "WRITTEN-WRONG",
        "what was written differs from what it must be, in {part}",
        "a file that reads back as it was written",
        "run again; if it happens again, check the disk",
        "Every part is read back and compared before the new file takes the old one's "
        "place. The file is as it was.",
    ),
    warning(
        "RESULT-TAB-EDITED",
        'somebody changed the result tab "{tab}", or put a note, a chart or a picture on it',
        "changes in the input tabs; result tabs are made anew at every run",
        'look at "{kept}", where the changed tab is kept, and make the change in the '
        "input tab that it belongs to (a waste factor in Waste factors, a price with "
        "its item, a quantity in Rooms); charts and notes belong on a tab of your own",
        "Result tabs belong to the program, apart from the columns that are meant to "
        "be typed in. A changed one is never overwritten: it is kept under a new "
        "name, as a tab of yours.",
    ),
    note(
        "RESULT-TAB-FOREIGN",
        '"{tab}" looks like a result tab, but the workbook no longer says that it is one',
        "result tabs as the last run left them",
        "delete it if it is not needed",
        "A program that rewrites workbooks without their names, or a copy made by a "
        "person, leaves such tabs. They are yours from then on; the results are in "
        "new tabs.",
    ),
    warning(
        "POINTS-AT-NO-TAB",
        'formulas point at a tab "{tab}" that is not in the workbook: {cells}',
        "formulas that point at tabs that are there",
        "point them at another tab, or delete them",
        "Spreadsheet programs show an error in such a cell, and in every sum that it goes "
        "into. Tabs of yours are never changed, so the formulas are left as they are.",
    ),
    note(
        "RESULT-TAB-KEPT",
        'there is nothing for the tab "{tab}" any more, but this points at it: {cells}',
        "result tabs that the run has something for",
        "nothing, or point the formulas elsewhere: then the tab goes with the next run",
        "An order's tab goes when nothing is ordered from its supplier any more, Sources "
        "when no item has a second supplier, Call-offs, Heating rules, Room cards and Cable plans "
        "when there are none. A formula, rule, name, chart or pivot table that points at one would "
        "be broken then, so that tab stays, without lines and with a total of nothing.",
    ),
    warning(
        "BOOK-SIGNED",
        "the workbook is digitally signed",
        "a workbook that may be changed",
        "work on with the copy that is written beside it; its signature does not hold any more",
        "Any change breaks a signature, so the results were written to a copy and the "
        "signed book is as it was.",
    ),
    warning(
        "BOOK-LOCKED",
        "the structure of the workbook is locked: no tabs may be added",
        "a workbook whose structure is not protected",
        "work on with the copy that is written beside it where tabs are added or "
        "removed, or take the protection off and run again",
        "Its owner has said that its tabs shall stay as they are, so tabs are added to a "
        "copy. What is in tabs of ours that are there already is made anew in place.",
    ),
    note(
        "RESULTS-CURRENT",
        "the results in the workbook are of the very inputs that it holds",
        "results of these inputs",
        "nothing",
        "The Findings tab keeps a fingerprint (SHA-256) of each input tab of the run: of "
        "every cell in a declared column, whatever the order of rows and columns. All of them "
        "agree with the inputs as they are now.",
    ),
    note(
        "RESULTS-FOLLOW",
        "since the last run, only figures that results look up have changed, in: {tabs}",
        "results of these inputs",
        "nothing, if the workbook has been recalculated since; else run takeoff, which "
        "also brings what is stored beside the formulas up to date",
        "Waste factors, prices and pack sizes are looked up by live formulas, so the "
        "results follow in any spreadsheet program that recalculates. A program that does not "
        "calculate sees the values of the last run. What is counted in whole tiles, rolls and "
        "cables does not depend on them.",
    ),
    note(
        "RESULTS-OUT-OF-DATE",
        "inputs have changed since the last run, in: {tabs}",
        "results of the inputs as they are",
        "run takeoff again",
        "The fingerprints (SHA-256) that the last run left on Findings differ from those "
        "of the inputs as they are now, so the result tabs are of other inputs.",
    ),
    note(
        "RESULTS-OF-NO-RUN",
        "the last run was stopped by errors and made no results",
        "results of the inputs as they are",
        "correct the errors and run takeoff; result tabs other than Findings, if there "
        "are any, are of an earlier run",
        "A run with errors writes the Findings tab and touches nothing else, so the other "
        "result tabs are of inputs that are not known any more.",
    ),
)
