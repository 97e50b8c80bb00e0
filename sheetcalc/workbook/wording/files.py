"""Words of the findings about saving, and about tabs and books that are not ours to change."""

from sheetcalc.domain.finding import Severity
from sheetcalc.workbook.wording.wording import Wording

_CONTRACT = "the program's own rule"

WORDINGS: tuple[Wording, ...] = (
    Wording(
        code="FILE-OPEN",
        severity=Severity.ERROR,
        found="{file} is open in another program ({lock} stands beside it)",
        expected="a file that nobody has open",
        what_to_do="close it there and run again; if nobody has it open, a crashed program left "
        "{lock}: delete that",
        explain="Spreadsheet programs leave a small lock file while a workbook is open. "
        "Writing beneath an open program would lose what is typed there, so nothing "
        "was written.",
        source=_CONTRACT,
    ),
    Wording(
        code="FILE-CHANGED",
        severity=Severity.ERROR,
        found="{file} was changed by somebody while the run was at work",
        expected="the file as it was when it was read",
        what_to_do="run again: the results then rest on what the file holds now",
        explain="Size, time and content of the file are compared with what was read, right "
        "before saving. The file is as that somebody left it.",
        source=_CONTRACT,
    ),
    Wording(
        code="FILE-BUSY",
        severity=Severity.ERROR,
        found="another run is writing {file}",
        expected="one run at a time for a file",
        what_to_do="wait for it to end, and run again",
        explain="Two runs at once could each undo the other.",
        source=_CONTRACT,
    ),
    Wording(
        code="FILE-GONE",
        severity=Severity.ERROR,
        found="{file} is not there any more, or its folder is not",
        expected="the file where it was read",
        what_to_do="check the drive or the connection, and run again",
        explain="Nothing was written.",
        source=_CONTRACT,
    ),
    Wording(
        code="FILE-EXISTS",
        severity=Severity.ERROR,
        found="{file} is there already",
        expected="a name that is not taken",
        what_to_do="choose another name, or add the input tabs to it with --into",
        explain="A file that exists is never overwritten by a new workbook.",
        source=_CONTRACT,
    ),
    Wording(
        code="FILE-IS-BACKUP",
        severity=Severity.ERROR,
        found="{file} is a backup: the workbook as it was before a run",
        expected="the workbook itself, or a copy of the backup under a name of its own",
        what_to_do="to go back to it, copy it under another name, and run on that copy",
        explain="Backups are told by their names, and are never written to: each is the only copy "
        "of what stood in the workbook before a run.",
        source=_CONTRACT,
    ),
    Wording(
        code="FILE-READ-ONLY",
        severity=Severity.ERROR,
        found="{file} may not be written by you",
        expected="a file that you may write",
        what_to_do="change its permissions, or work on a copy",
        explain="Nothing was written.",
        source=_CONTRACT,
    ),
    Wording(
        code="FOLDER-READ-ONLY",
        severity=Severity.ERROR,
        found="no file can be made in the folder of {file}",
        expected="a folder that you may write into",
        what_to_do="change its permissions, or work on a copy elsewhere",
        explain="The new file is first written beside the old one and then takes its place in "
        "one step; that needs the folder.",
        source=_CONTRACT,
    ),
    Wording(
        code="FILE-LINKED",
        severity=Severity.ERROR,
        found="{file} has {links} names (hard links)",
        expected="a file with one name",
        what_to_do="work on a copy (copying gives it one name)",
        explain="A new file would take the place of one name only; the others would go on "
        "showing the old one.",
        source=_CONTRACT,
    ),
    Wording(
        code="FILE-OWNER",
        severity=Severity.ERROR,
        found="{file} belongs to somebody else, and the new file can not be given to them",
        expected="a file that is yours",
        what_to_do="ask its owner to run this, or work on a copy",
        explain="The new file must have the same owner, or they may be shut out of it.",
        source=_CONTRACT,
    ),
    Wording(
        code="DISK-FULL",
        severity=Severity.ERROR,
        found="there is no room left for {file}: {why}",
        expected="room for the new file and a backup",
        what_to_do="make room, and run again",
        explain="The file is as it was; what was written of the new one is gone.",
        source=_CONTRACT,
    ),
    Wording(
        code="SAVE-FAILED",
        severity=Severity.ERROR,
        found="{file} could not be saved: {why}",
        expected="a file that can be replaced",
        what_to_do="remove the cause, and run again",
        explain="The file is as it was.",
        source=_CONTRACT,
    ),
    Wording(
        code="WRITTEN-WRONG",
        severity=Severity.ERROR,
        found="what was written differs from what it must be, in {part}",
        expected="a file that reads back as it was written",
        what_to_do="run again; if it happens again, check the disk",
        explain="Every part is read back and compared before the new file takes the old one's "
        "place. The file is as it was.",
        source=_CONTRACT,
    ),
    Wording(
        code="RESULT-TAB-EDITED",
        severity=Severity.WARNING,
        found='somebody changed the result tab "{tab}", or put a note, a chart or a picture on it',
        expected="changes in the input tabs; result tabs are made anew at every run",
        what_to_do='look at "{kept}", where the changed tab is kept, and make the change in the '
        "input tab that it belongs to (a waste factor in Waste factors, a price with "
        "its item, a quantity in Rooms); charts and notes belong on a tab of your own",
        explain="Result tabs belong to the program, apart from the columns that are meant to "
        "be typed in. A changed one is never overwritten: it is kept under a new "
        "name, as a tab of yours.",
        source=_CONTRACT,
    ),
    Wording(
        code="RESULT-TAB-FOREIGN",
        severity=Severity.NOTE,
        found='"{tab}" looks like a result tab, but the workbook no longer says that it is one',
        expected="result tabs as the last run left them",
        what_to_do="delete it if it is not needed",
        explain="A program that rewrites workbooks without their names, or a copy made by a "
        "person, leaves such tabs. They are yours from then on; the results are in "
        "new tabs.",
        source=_CONTRACT,
    ),
    Wording(
        code="POINTS-AT-NO-TAB",
        severity=Severity.WARNING,
        found='formulas point at a tab "{tab}" that is not in the workbook: {cells}',
        expected="formulas that point at tabs that are there",
        what_to_do="point them at another tab, or delete them",
        explain="Spreadsheet programs show an error in such a cell, and in every sum that it goes "
        "into. Tabs of yours are never changed, so the formulas are left as they are.",
        source=_CONTRACT,
    ),
    Wording(
        code="RESULT-TAB-KEPT",
        severity=Severity.NOTE,
        found='there is nothing for the tab "{tab}" any more, but this points at it: {cells}',
        expected="result tabs that the run has something for",
        what_to_do="nothing, or point the formulas elsewhere: then the tab goes with the next run",
        explain="An order's tab goes when nothing is ordered from its supplier any more, Sources "
        "when no item has a second supplier, Call-offs, Heating rules, Room cards and Cable plans "
        "when there are none. A formula, rule, name, chart or pivot table that points at one would "
        "be broken then, so that tab stays, without lines and with a total of nothing.",
        source=_CONTRACT,
    ),
    Wording(
        code="BOOK-SIGNED",
        severity=Severity.WARNING,
        found="the workbook is digitally signed",
        expected="a workbook that may be changed",
        what_to_do="work on with the copy that is written beside it; its signature does not "
        "hold any more",
        explain="Any change breaks a signature, so the results were written to a copy and the "
        "signed book is as it was.",
        source=_CONTRACT,
    ),
    Wording(
        code="BOOK-LOCKED",
        severity=Severity.WARNING,
        found="the structure of the workbook is locked: no tabs may be added",
        expected="a workbook whose structure is not protected",
        what_to_do="work on with the copy that is written beside it where tabs are added or "
        "removed, or take the protection off and run again",
        explain="Its owner has said that its tabs shall stay as they are, so tabs are added to a "
        "copy. What is in tabs of ours that are there already is made anew in place.",
        source=_CONTRACT,
    ),
    Wording(
        code="RESULTS-CURRENT",
        severity=Severity.NOTE,
        found="the results in the workbook are of the very inputs that it holds",
        expected="results of these inputs",
        what_to_do="nothing",
        explain="The Findings tab keeps a fingerprint (SHA-256) of each input tab of the run: of "
        "every cell in a declared column, whatever the order of rows and columns. All of them "
        "agree with the inputs as they are now.",
        source=_CONTRACT,
    ),
    Wording(
        code="RESULTS-FOLLOW",
        severity=Severity.NOTE,
        found="since the last run, only figures that results look up have changed, in: {tabs}",
        expected="results of these inputs",
        what_to_do="nothing, if the workbook has been recalculated since; else run takeoff, which "
        "also brings what is stored beside the formulas up to date",
        explain="Waste factors, prices and pack sizes are looked up by live formulas, so the "
        "results follow in any spreadsheet program that recalculates. A program that does not "
        "calculate sees the values of the last run. What is counted in whole tiles, rolls and "
        "cables does not depend on them.",
        source=_CONTRACT,
    ),
    Wording(
        code="RESULTS-OUT-OF-DATE",
        severity=Severity.NOTE,
        found="inputs have changed since the last run, in: {tabs}",
        expected="results of the inputs as they are",
        what_to_do="run takeoff again",
        explain="The fingerprints (SHA-256) that the last run left on Findings differ from those "
        "of the inputs as they are now, so the result tabs are of other inputs.",
        source=_CONTRACT,
    ),
    Wording(
        code="RESULTS-OF-NO-RUN",
        severity=Severity.NOTE,
        found="the last run was stopped by errors and made no results",
        expected="results of the inputs as they are",
        what_to_do="correct the errors and run takeoff; result tabs other than Findings, if there "
        "are any, are of an earlier run",
        explain="A run with errors writes the Findings tab and touches nothing else, so the other "
        "result tabs are of inputs that are not known any more.",
        source=_CONTRACT,
    ),
)
