"""Parts of workbooks of many kinds: what real programs leave, made small.

``Features`` says what a book has.  Each part's content is plain enough that a reader of this file
sees what the book holds.
"""

from collections.abc import Mapping
from urllib.parse import quote

from msgspec import Struct, field

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
STRICT_MAIN = "http://purl.oclc.org/ooxml/spreadsheetml/main"
STRICT_RELATIONS = "http://purl.oclc.org/ooxml/officeDocument/relationships"
PACKAGE_RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships"
SHEET_ML = "application/vnd.openxmlformats-officedocument.spreadsheetml."
MS = "application/vnd.ms-"


class Features(Struct, frozen=True):
    """What a book has.

    ``targets`` is how relationships name parts: relative, absolute, backslash or percent.
    ``states`` are those of its worksheets, at least one visible.
    """

    folder: str = "xl"
    workbook_name: str = "workbook.xml"
    prefix: str = ""
    strict: bool = False
    targets: str = "relative"
    states: tuple[str, ...] = ("visible",)
    sheet_names: tuple[str, ...] = ()
    styles: str = "plain"  # plain, none, redefined, empty
    shared_strings: bool = True
    properties: bool = True
    calc_chain: bool = False
    date_1904: bool = False
    macros: bool = False
    chart_sheet: bool = False
    dialog_sheet: bool = False
    comments: bool = False
    threaded: bool = False
    controls: bool = False
    slicer: bool = False
    pivot: bool = False
    external_link: bool = False
    data_model: bool = False
    custom_xml: bool = False
    locked: bool = False
    signed: bool = False
    names: Mapping[str, str] = field(default_factory=dict)
    local_names: Mapping[str, str] = field(default_factory=dict)
    tables: tuple[str, ...] = ()
    active_tab: int = 0
    stored: bool = False
    zip64: bool = False
    descriptors: bool = False
    folders: bool = False
    comment: bytes = b""
    rels_default: bool = True
    case: str = "as is"  # as is, upper: names in the zip against those in relationships
    utf16: bool = False
    extension_lists: bool = False
    alternate_content: bool = False


class Package:
    """Parts, content types and relationships while a book is made."""

    def __init__(self, features: Features) -> None:
        self.f = features
        self.parts: dict[str, bytes] = {}
        self.overrides: dict[str, str] = {}
        self.rels: dict[str, list[tuple[str, str, str, bool]]] = {}
        self.main = STRICT_MAIN if features.strict else MAIN
        self.relations = STRICT_RELATIONS if features.strict else RELATIONS
        self.p = f"{features.prefix}:" if features.prefix else ""
        self.xmlns = f"xmlns:{features.prefix}" if features.prefix else "xmlns"

    @property
    def base(self) -> str:
        return f"{self.f.folder}/" if self.f.folder else ""

    @property
    def workbook(self) -> str:
        return self.base + self.f.workbook_name

    def add(self, name: str, content: str | bytes, kind: str = "") -> str:
        if isinstance(content, str):
            content = (
                b'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n' + content.encode()
            )
        self.parts[name] = content
        if kind:
            self.overrides[name] = kind
        return name

    def relate(self, source: str, kind: str, target: str, *, outside: bool = False) -> str:
        rows = self.rels.setdefault(source, [])
        full = kind if "://" in kind else f"{self.relations}/{kind}"
        if not outside:
            target = self._target(source, target)
        rows.append((f"rId{len(rows) + 1}", full, target, outside))
        return rows[-1][0]

    def _target(self, source: str, target: str) -> str:
        style = self.f.targets
        if style == "absolute":
            return "/" + target
        up = source.count("/")
        folder = source.rpartition("/")[0] + "/" if up else ""
        path = target[len(folder) :] if target.startswith(folder) else "../" * up + target
        if style == "backslash":
            return path.replace("/", "\\")
        if style == "percent":
            return quote(path, safe="/.").replace("s", "%73")
        return path

    def tag(self, name: str, attributes: str, inner: str = "", *, root: bool = False) -> str:
        declared = f' {self.xmlns}="{self.main}" xmlns:r="{self.relations}"' if root else ""
        space = " " if attributes else ""
        return f"<{self.p}{name}{declared}{space}{attributes}>{inner}</{self.p}{name}>"


def _sheet(package: Package, number: int, name: str) -> str:
    f, t = package.f, package.tag
    text = f'<{package.p}c r="A1" t="s"><{package.p}v>0</{package.p}v></{package.p}c>'
    if not f.shared_strings:
        text = t("c", 'r="A1" t="inlineStr"', t("is", "", t("t", "", f"about {number}")))
    style = ' s="1"' if f.styles in ("plain", "redefined") else ""
    cells = text + t("c", f'r="B1"{style}', t("v", "", str(40 + number)))
    cells += t("c", 'r="C1"', t("f", "", "B1*2") + t("v", "", str(80 + 2 * number)))
    inner = t("sheetData", "", t("row", 'r="1"', cells))
    part = f"{package.base}worksheets/sheet{number}.xml"
    tail = ""
    if number == 1:
        if f.comments or f.controls:
            tail += f'<{package.p}legacyDrawing r:id="{_comments(package, part)}"/>'
        if f.threaded:
            _threaded(package, part)
        if f.controls:
            control = package.add(
                f"{package.base}ctrlProps/ctrlProp1.xml",
                '<formControlPr xmlns="http://schemas.microsoft.com/office/'
                'spreadsheetml/2009/9/main" objectType="CheckBox"/>',
                f"{MS}excel.controlproperties+xml",
            )
            package.relate(part, "ctrlProp", control)
        if f.pivot:
            _pivot(package, part)
        if f.slicer:
            slicer = package.add(
                f"{package.base}slicers/slicer1.xml", "<slicers/>", f"{MS}excel.slicer+xml"
            )
            package.relate(
                part, "http://schemas.microsoft.com/office/2007/relationships/slicer", slicer
            )
        tail += _tables(package, part)
    del name
    package.add(
        part, package.tag("worksheet", "", inner + tail, root=True), SHEET_ML + "worksheet+xml"
    )
    return part


def _tables(package: Package, part: str) -> str:
    rows = ""
    for number, name in enumerate(package.f.tables, 1):
        top = 10 * number
        table = package.add(
            f"{package.base}tables/table{number}.xml",
            package.tag(
                "table",
                f'id="{number}" name="{name}" displayName="{name}" ref="A{top}:B{top + 1}"',
                package.tag(
                    "tableColumns",
                    'count="2"',
                    package.tag("tableColumn", 'id="1" name="One"')
                    + package.tag("tableColumn", 'id="2" name="Two"'),
                ),
                root=True,
            ),
            SHEET_ML + "table+xml",
        )
        rel = package.relate(part, "table", table)
        rows += package.tag("tablePart", f'r:id="{rel}"')
    count = len(package.f.tables)
    return package.tag("tableParts", f'count="{count}"', rows) if count else ""


def _comments(package: Package, part: str) -> str:
    t = package.tag
    note = t("comment", 'ref="B1" authorId="0"', t("text", "", t("t", "", "a note")))
    inner = t("authors", "", t("author", "", "somebody")) + t("commentList", "", note)
    comments = package.add(
        f"{package.base}comments1.xml",
        t("comments", "", inner, root=True),
        SHEET_ML + "comments+xml",
    )
    package.relate(part, "comments", comments)
    drawing = package.add(
        f"{package.base}drawings/vmlDrawing1.vml",
        b'<xml xmlns:v="urn:schemas-microsoft-com:vml"><v:shape><br></v:shape></xml>',
    )
    return package.relate(part, "vmlDrawing", drawing)


def _threaded(package: Package, part: str) -> None:
    kind = "http://schemas.microsoft.com/office/2017/10/relationships/"
    thread = package.add(
        f"{package.base}threadedComments/threadedComment1.xml",
        "<ThreadedComments/>",
        f"{MS}excel.threadedcomments+xml",
    )
    package.relate(part, kind + "threadedComment", thread)
    person = package.add(
        f"{package.base}persons/person.xml", "<personList/>", f"{MS}excel.person+xml"
    )
    package.relate(package.workbook, kind + "person", person)


def _pivot(package: Package, part: str) -> None:
    cache = package.add(
        f"{package.base}pivotCache/pivotCacheDefinition1.xml",
        "<pivotCacheDefinition/>",
        SHEET_ML + "pivotCacheDefinition+xml",
    )
    table = package.add(
        f"{package.base}pivotTables/pivotTable1.xml",
        "<pivotTableDefinition/>",
        SHEET_ML + "pivotTable+xml",
    )
    package.relate(part, "pivotTable", table)
    package.relate(table, "pivotCacheDefinition", cache)
    package.relate(package.workbook, "pivotCacheDefinition", cache)


def add_styles(package: Package) -> None:
    f, t = package.f, package.tag
    if f.styles == "none":
        return
    if f.styles == "empty":
        content = t("styleSheet", "", "", root=True)
    else:
        code = "0.000" if f.styles == "redefined" else "0.0"
        number = 10 if f.styles == "redefined" else 164
        xf = 'numFmtId="0" fontId="0" fillId="0" borderId="0"'
        extension = (
            "<extLst><ext uri='{1}'/></extLst>" if f.extension_lists and not f.prefix else ""
        )
        content = t(
            "styleSheet",
            "",
            t("numFmts", 'count="1"', t("numFmt", f'numFmtId="{number}" formatCode="{code}"'))
            + t("fonts", 'count="1"', t("font", "", t("sz", 'val="9"') + t("name", 'val="Lato"')))
            + t(
                "fills",
                'count="2"',
                t("fill", "", t("patternFill", 'patternType="none"'))
                + t("fill", "", t("patternFill", 'patternType="gray125"')),
            )
            + t("borders", 'count="1"', t("border", ""))
            + t("cellStyleXfs", 'count="1"', t("xf", xf))
            + t(
                "cellXfs",
                'count="2"',
                t("xf", xf + ' xfId="0"')
                + t("xf", f'numFmtId="{number}" fontId="0" fillId="0" borderId="0" xfId="0"'),
            )
            + t("cellStyles", 'count="1"', t("cellStyle", 'name="Normal" xfId="0" builtinId="0"'))
            + extension,
            root=True,
        )
    package.add(f"{package.base}styles.xml", content, SHEET_ML + "styles+xml")
    package.relate(package.workbook, "styles", f"{package.base}styles.xml")


def add_side_parts(package: Package) -> None:
    """Parts that hang on the workbook or the package and that nobody may touch."""
    f, base, book = package.f, package.base, package.workbook
    if f.shared_strings:
        t = package.tag
        strings = t(
            "sst", 'count="1" uniqueCount="1"', t("si", "", t("t", "", "shared")), root=True
        )
        package.add(f"{base}sharedStrings.xml", strings, SHEET_ML + "sharedStrings+xml")
        package.relate(book, "sharedStrings", f"{base}sharedStrings.xml")
    if f.calc_chain:
        chain = package.tag("calcChain", "", package.tag("c", 'r="C1" i="1"'), root=True)
        package.add(f"{base}calcChain.xml", chain, SHEET_ML + "calcChain+xml")
        package.relate(book, "calcChain", f"{base}calcChain.xml")
    if f.macros:
        package.add(f"{base}vbaProject.bin", bytes(range(256)) * 9, f"{MS}office.vbaProject")
        package.relate(
            book,
            "http://schemas.microsoft.com/office/2006/relationships/vbaProject",
            f"{base}vbaProject.bin",
        )
    if f.data_model:
        package.add(f"{base}model/item.data", b"\x00MODEL" * 99, f"{MS}excel.model+data")
        package.relate(
            book,
            "http://schemas.microsoft.com/office/2011/relationships/powerPivotData",
            f"{base}model/item.data",
        )
    if f.external_link:
        link = f"{base}externalLinks/externalLink1.xml"
        package.add(
            link, package.tag("externalLink", "", "", root=True), SHEET_ML + "externalLink+xml"
        )
        package.relate(book, "externalLink", link)
        package.relate(link, "externalLinkPath", "file:///C:/prices.xlsx", outside=True)
    if f.custom_xml:
        package.add("customXml/item1.xml", "<prices><![CDATA[<a <b <c]]></prices>")
        package.relate(book, "customXml", "customXml/item1.xml")
    if f.properties:
        kind = "application/vnd.openxmlformats-package.core-properties+xml"
        space = "http://schemas.openxmlformats.org/package/2006/metadata/core-properties"
        package.add("docProps/core.xml", f'<c:coreProperties xmlns:c="{space}"/>', kind)
        package.relate(
            "",
            "http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties",
            "docProps/core.xml",
        )
    if f.signed:
        kind = "application/vnd.openxmlformats-package.digital-signature-origin"
        package.add("_xmlsignatures/origin.sigs", b"", kind)
        package.relate(
            "",
            "http://schemas.openxmlformats.org/package/2006/relationships/digital-signature/origin",
            "_xmlsignatures/origin.sigs",
        )


def add_workbook(package: Package) -> None:
    f, t = package.f, package.tag
    rows, parts = "", []
    for number, state in enumerate(f.states, 1):
        name = f.sheet_names[number - 1] if number <= len(f.sheet_names) else f"Data {number}"
        rel = package.relate(package.workbook, "worksheet", _sheet(package, number, name))
        shown = "" if state == "visible" else f' state="{state}"'
        rows += t("sheet", f'name="{name}" sheetId="{number * 3}"{shown} r:id="{rel}"')
        parts.append(name)
    for wanted, kind, root in (
        (f.chart_sheet, "chartsheet", "chartsheet"),
        (f.dialog_sheet, "dialogsheet", "dialogsheet"),
    ):
        if wanted:
            part = package.add(
                f"{package.base}{kind}s/sheet1.xml",
                t(root, "", "", root=True),
                f"{SHEET_ML}{kind}+xml",
            )
            rel = package.relate(package.workbook, kind, part)
            rows += t("sheet", f'name="{kind}" sheetId="{900 + len(kind)}" r:id="{rel}"')
    names = "".join(t("definedName", f'name="{n}"', text) for n, text in f.names.items())
    names += "".join(
        t("definedName", f'name="{n}" localSheetId="0"', text) for n, text in f.local_names.items()
    )
    settings = ' date1904="1"' if f.date_1904 else ""
    extra = ""
    if f.alternate_content:
        extra = (
            '<mc:AlternateContent xmlns:mc="http://schemas.openxmlformats.org/'
            'markup-compatibility/2006"><mc:Choice Requires="x15"/></mc:AlternateContent>'
        )
    inner = (
        t("workbookPr", settings.strip())
        + extra
        + (t("workbookProtection", 'lockStructure="1"') if f.locked else "")
        + t("bookViews", "", t("workbookView", f'activeTab="{f.active_tab}"'))
        + t("sheets", "", rows)
        + (t("definedNames", "", names) if names else "")
        + ("<extLst><ext uri='{2}'/></extLst>" if f.extension_lists and not f.prefix else "")
    )
    kind = SHEET_ML + "sheet.main+xml"
    if f.macros:
        kind = f"{MS}excel.sheet.macroEnabled.main+xml"
    content = t("workbook", "", inner, root=True)
    if f.utf16:
        declared = '<?xml version="1.0" encoding="UTF-16" standalone="yes"?>' + content
        package.add(package.workbook, declared.encode("utf-16"), kind)
    else:
        package.add(package.workbook, content, kind)
    package.relate("", "officeDocument", package.workbook)
