"""Workbooks of many kinds: ``write_book`` writes one, ``ODD`` is a small collection."""

import io
import zipfile
from pathlib import Path

from odd_parts import PACKAGE_RELATIONS, Features, Package, add_side_parts, add_styles, add_workbook


def package_parts(features: Features) -> dict[str, bytes]:
    """Name in the zip -> content, content types first."""
    package = Package(features)
    add_workbook(package)
    add_styles(package)
    add_side_parts(package)
    for source, rows in package.rels.items():
        body = "".join(
            f'<Relationship Id="{i}" Type="{kind}" Target="{target}"'
            + (' TargetMode="External"/>' if outside else "/>")
            for i, kind, target, outside in rows
        )
        folder, _, name = source.rpartition("/")
        place = f"{folder}/_rels/{name}.rels" if folder else f"_rels/{name}.rels"
        package.add(place, f'<Relationships xmlns="{PACKAGE_RELATIONS}">{body}</Relationships>')
        if not features.rels_default:
            package.overrides[place] = "application/vnd.openxmlformats-package.relationships+xml"
    rels = (
        '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.'
        'relationships+xml"/>'
    )
    types = (rels if features.rels_default else "") + (
        '<Default Extension="xml" ContentType="application/xml"/>'
        '<Default Extension="vml" ContentType="application/vnd.openxmlformats-officedocument.'
        'vmlDrawing"/>'
    )
    types += "".join(
        f'<Override PartName="/{name}" ContentType="{kind}"/>'
        for name, kind in package.overrides.items()
    )
    space = "http://schemas.openxmlformats.org/package/2006/content-types"
    head = b'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
    content = head + f'<Types xmlns="{space}">{types}</Types>'.encode()
    return {"[Content_Types].xml": content, **package.parts}


class _Unseekable(io.RawIOBase):
    """A stream that can't go back: the zip library then puts sizes behind the data."""

    def __init__(self, out: io.BytesIO) -> None:
        self._out = out

    def writable(self) -> bool:
        return True

    def write(self, data: object) -> int:
        return self._out.write(data)  # type: ignore[arg-type]


def write_book(path: Path, features: Features) -> Path:
    """Write the book."""
    out = io.BytesIO()
    target = _Unseekable(out) if features.descriptors else out
    method = zipfile.ZIP_STORED if features.stored else zipfile.ZIP_DEFLATED
    with zipfile.ZipFile(target, "w", method) as package:  # type: ignore[arg-type]
        package.comment = features.comment
        for name, content in package_parts(features).items():
            shown = name
            if features.case == "upper" and not name.startswith("["):
                shown = name.upper()
            if features.folders and "/" in shown:
                folder = shown.rpartition("/")[0] + "/"
                if folder not in package.namelist():
                    package.writestr(zipfile.ZipInfo(folder), b"")
            info = zipfile.ZipInfo(shown, (2024, 2, 29, 12, 30, 0))
            info.compress_type = method
            info.external_attr = 0o644 << 16
            with package.open(info, "w", force_zip64=features.zip64) as part:
                part.write(content)
    path.write_bytes(out.getvalue())
    return path


ODD: dict[str, Features] = {
    "plain": Features(),
    "three tabs, hidden and very hidden": Features(states=("visible", "hidden", "veryHidden")),
    "255 tabs": Features(states=("visible",) * 255, active_tab=200),
    "prefixed namespaces": Features(prefix="x", tables=("Prices",), names={"Rate": "1.5"}),
    "strict variant": Features(strict=True, tables=("Prices",), date_1904=True),
    "strict and prefixed": Features(strict=True, prefix="s"),
    "absolute targets": Features(targets="absolute", comments=True),
    "backslash targets": Features(targets="backslash", comments=True),
    "percent-coded targets": Features(targets="percent", comments=True),
    "workbook in the root": Features(folder="", workbook_name="book.xml"),
    "workbook elsewhere": Features(folder="parts/office", workbook_name="main.part.xml"),
    "names in capitals": Features(case="upper", tables=("Prices",)),
    "no styles": Features(styles="none"),
    "empty styles": Features(styles="empty"),
    "built-in format redefined": Features(styles="redefined"),
    "no shared strings": Features(shared_strings=False),
    "no properties": Features(properties=False),
    "calculation chain": Features(calc_chain=True),
    "dates from 1904": Features(date_1904=True),
    "macros": Features(macros=True),
    "chart and dialog sheets": Features(chart_sheet=True, dialog_sheet=True),
    "comments, threads, controls": Features(comments=True, threaded=True, controls=True),
    "slicer and pivot table": Features(slicer=True, pivot=True),
    "external link, model, custom parts": Features(
        external_link=True, data_model=True, custom_xml=True
    ),
    "our names taken": Features(
        sheet_names=("Takeoff", "FINDINGS"),
        states=("visible", "visible"),
        tables=("OutTakeoff", "outfindings"),
        names={"sheetcalc_tab_1": "7", "OutOrderA": "'Takeoff'!$A$1"},
    ),
    "names of every scope": Features(
        names={"Rate": "1.5", "Here": "'Data 1'!$B$1", "Text": '"a!b"'},
        local_names={"_xlnm.Print_Area": "'Data 1'!$A$1:$C$9", "Mine": "'Data 1'!$A$1"},
    ),
    "stored": Features(stored=True),
    "zip64": Features(zip64=True),
    "data descriptors": Features(descriptors=True),
    "folders in the zip": Features(folders=True, comment=b"made by hand"),
    "relationships by override": Features(rels_default=False),
    "utf-16": Features(utf16=True),
    "extension lists": Features(extension_lists=True, alternate_content=True),
}
"""A small collection of books, by what is odd about them."""
