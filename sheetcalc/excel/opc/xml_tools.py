"""Reading and editing the few XML parts that a graft must touch.

No part is ever parsed with entities, a DTD or the network.  Namespaces: ISO/IEC 29500-1 (strict)
and 29500-4 (transitional) name the same elements differently; a part keeps its own.
"""

from collections.abc import Collection, Iterable, Sequence
from typing import Final, cast

from lxml import etree

from sheetcalc.excel.opc.errors import Code, Refused

Element = etree._Element  # noqa: SLF001 - the only name lxml gives its element type

MAIN: Final = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
STRICT_MAIN: Final = "http://purl.oclc.org/ooxml/spreadsheetml/main"
RELATIONS: Final = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
STRICT_RELATIONS: Final = "http://purl.oclc.org/ooxml/officeDocument/relationships"
PACKAGE_RELATIONS: Final = "http://schemas.openxmlformats.org/package/2006/relationships"
CONTENT_TYPES: Final = "http://schemas.openxmlformats.org/package/2006/content-types"

STRICT_OF: Final = {
    MAIN: STRICT_MAIN,
    RELATIONS: STRICT_RELATIONS,
    "http://schemas.openxmlformats.org/drawingml/2006/main": (
        "http://purl.oclc.org/ooxml/drawingml/main"
    ),
    "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing": (
        "http://purl.oclc.org/ooxml/drawingml/spreadsheetDrawing"
    ),
    "http://schemas.openxmlformats.org/drawingml/2006/chart": (
        "http://purl.oclc.org/ooxml/drawingml/chart"
    ),
}

TRUE_WORDS: Final = frozenset({"1", "true", "on"})


def parse(content: bytes, part: str) -> Element:
    """Root of an XML part.

    Raises
    ------
    Refused
        ``XML-BROKEN`` (not well formed, or nested too deeply), ``XML-DTD``.
    """
    parser = etree.XMLParser(
        resolve_entities=False, load_dtd=False, no_network=True, dtd_validation=False
    )
    try:
        root = etree.fromstring(content, parser)
    except (etree.XMLSyntaxError, ValueError) as trouble:
        raise Refused(Code.XML_BROKEN, {"part": part, "why": str(trouble)[:200]}) from None
    if root.getroottree().docinfo.internalDTD is not None:
        raise Refused(Code.XML_DTD, {"part": part})
    return root


def parse_as(content: bytes, part: str, name: str, spaces: Collection[str]) -> Element:
    """Root of an XML part that must be of one kind.

    Raises
    ------
    Refused
        As ``parse``; ``XML-BROKEN`` too where the root is another element.
    """
    root = parse(content, part)
    if local(root) != name or space_of(root) not in spaces:
        why = f"it begins with {local(root)} in place of {name}"
        raise Refused(Code.XML_BROKEN, {"part": part, "why": why[:200]})
    return root


def write(root: Element) -> bytes:
    """Bytes of a part."""
    return etree.tostring(
        root.getroottree(), encoding="UTF-8", xml_declaration=True, standalone=True
    )


def local(element: Element) -> str:
    """Name without namespace; "" for a comment or an instruction."""
    tag = element.tag
    return tag.rpartition("}")[2] if isinstance(tag, str) else ""


def space_of(element: Element) -> str:
    """Namespace of an element, "" where it has none."""
    tag = element.tag
    return tag[1:].partition("}")[0] if isinstance(tag, str) and tag.startswith("{") else ""


def children(parent: Element, name: str) -> list[Element]:
    """Children of a name in the parent's own namespace."""
    space = space_of(parent)
    return parent.findall(f"{{{space}}}{name}" if space else name)


def child(parent: Element, name: str) -> Element | None:
    """First child of a name in the parent's own namespace."""
    found = children(parent, name)
    return found[0] if found else None


def make(parent: Element, name: str, attributes: Iterable[tuple[str, str]] = ()) -> Element:
    """Make a loose element in the parent's namespace and with its prefix."""
    space = space_of(parent)
    # the types of the library know no default namespace, which has None for a prefix
    prefixes = cast("dict[str, str]", parent.nsmap)
    element = parent.makeelement(f"{{{space}}}{name}" if space else name, nsmap=prefixes)
    for key, value in attributes:
        element.set(key, value)
    return element


def append(parent: Element, name: str, attributes: Iterable[tuple[str, str]] = ()) -> Element:
    """Append an element in the parent's namespace and with its prefix."""
    element = make(parent, name, attributes)
    parent.append(element)
    return element


def child_in_order(parent: Element, name: str, order: Sequence[str]) -> Element:
    """Find the child of a name, made at its place in the schema's order where it is not there.

    Unknown children (extensions of other makers) keep their places: the new one goes before the
    first child that the schema puts after it, else to the end, before a trailing ``extLst``.
    """
    there = child(parent, name)
    if there is not None:
        return there
    element = make(parent, name)
    after = set(order[order.index(name) + 1 :])
    for place, sibling in enumerate(parent):
        if local(sibling) in after and space_of(sibling) == space_of(parent):
            parent.insert(place, element)
            return element
    parent.append(element)
    return element


def is_true(text: str | None) -> bool:
    """Read an xsd:boolean, or the words that older writers used."""
    return text is not None and text.strip().lower() in TRUE_WORDS


def whole(text: str | None, default: int = 0) -> int:
    """Read a whole number of an attribute; the default where it is none."""
    try:
        return int(text) if text is not None else default
    except ValueError:
        return default
