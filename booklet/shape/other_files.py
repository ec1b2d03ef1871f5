"""Files that are neither DXF nor SVG but are given as outlines: what they are, and how they are saved instead."""

from __future__ import annotations

from booklet.shape.outline import BadOutline

_AS_TEXT = "Save it again from your drafting program as DXF, in text, or as a plain SVG."
# By the first bytes. Source: the signatures of ISO 32000-1 (PDF), RFC 1952 (gzip), the ZIP File Format Specification
# 4.3, the DXF Reference (binary DXF), Unicode 23.8 (byte order mark); that of DWG: common practice, no source.
_BEGINNINGS = (
    (b"%PDF", "is a PDF, from which no outline is read", _AS_TEXT),
    (b"%!PS", "is PostScript, from which no outline is read", _AS_TEXT),
    (b"PK\x03\x04", "is a ZIP archive", "Unpack it, and write the names of the files in it."),
    (b"\x1f\x8b", "is packed (gzip), as an .svgz is", "Unpack it, or save it again as a plain SVG."),
    (b"AC10", "is a DWG drawing, which is not read", "Save it again from your drafting program as DXF, in text."),
    (b"AutoCAD Binary DXF", "is a DXF in binary form, which is not read", "Save it again as DXF in text (ASCII)."),
    (b"\xff\xfe", "is text in UTF-16", "Save it again in UTF-8."),
    (b"\xfe\xff", "is text in UTF-16", "Save it again in UTF-8."),
)


def refuse_other_files(data: bytes) -> None:
    """Raises BadOutline for an empty file, and for one of another kind that is often taken for a drawing."""
    if not data.strip():
        raise BadOutline("This file is empty.", "Save it again from your drafting program.")
    for beginning, what, mend in _BEGINNINGS:
        if data.startswith(beginning):
            raise BadOutline(f"This file {what}.", mend)
