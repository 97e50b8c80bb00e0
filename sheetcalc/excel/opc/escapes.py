"""Text as it stands in XML.

The standard library's own functions for this load its whole client for the web.
"""


def escaped(text: str) -> str:
    """Text as the content of an element."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def quoted(text: str) -> str:
    """Text as the value of an attribute, with its quotation marks; line breaks are kept."""
    value = escaped(text).replace("\n", "&#10;").replace("\r", "&#13;").replace("\t", "&#9;")
    if '"' in value and "'" not in value:
        return f"'{value}'"
    return '"' + value.replace('"', "&quot;") + '"'


def unescaped(content: str) -> str:
    """Text of an element's content in which the five signs that XML names are all that is coded."""
    if "&" not in content:
        return content
    plain = content.replace("&lt;", "<").replace("&gt;", ">")
    return plain.replace("&quot;", '"').replace("&apos;", "'").replace("&amp;", "&")
