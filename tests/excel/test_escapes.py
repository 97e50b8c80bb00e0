"""Text as it stands in XML, against the standard library's own functions."""

from xml.sax.saxutils import escape, quoteattr, unescape

from hypothesis import given
from hypothesis import strategies as st

from sheetcalc.excel.opc.escapes import escaped, quoted, unescaped

TEXTS = st.text(st.sampled_from("<>&\"'\n\r\tamp;ltgquo #") | st.characters())


@given(TEXTS)
def test_texts_are_written_and_read_as_the_standard_library_does(text: str) -> None:
    assert escaped(text) == escape(text)
    assert quoted(text) == quoteattr(text)
    assert unescaped(text) == unescape(text, {"&quot;": '"', "&apos;": "'"})
    assert unescaped(escaped(text)) == text
