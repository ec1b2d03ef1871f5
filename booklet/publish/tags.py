"""What PDF/UA-1 asks and WeasyPrint 70 leaves undone, done on its tree of PDF objects before it is written.

Source of the demands: ISO 14289-1 by way of the Matterhorn Protocol 1.1, conditions 01-005 (what is no content is an
artifact) and 15-003 (a table's heads have a scope), and ISO 19005's habit of printing annotations.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pydyf

# Which bit of an annotation says that it prints? Source: ISO 32000-1, table 165.
_PRINT = 4


def mend_tags(document: object, pdf: pydyf.PDF) -> None:
    """A `finisher` of WeasyPrint: running heads become artifacts, table heads get their scope, links the print flag."""
    elements = list(_elements(pdf, pdf.catalog["StructTreeRoot"]))
    _mark_artifacts(pdf, elements)
    for element in elements:
        if element["S"] == "/TH":
            above = _object(pdf, _object(pdf, element["P"])["P"])
            element["A"]["Scope"] = "/Column" if above["S"] == "/THead" else "/Row"
    for item in pdf.objects:
        if isinstance(item, pydyf.Dictionary) and item.get("Subtype") == "/Link":
            item["F"] = _PRINT


def _object(pdf: pydyf.PDF, reference: bytes) -> Any:
    return pdf.objects[int(reference.split()[0])]


def _elements(pdf: pydyf.PDF, reference: bytes) -> Iterator[pydyf.Dictionary]:
    """The structure elements under one, in the order of reading."""
    for kid in _object(pdf, reference)["K"]:
        if isinstance(kid, bytes):
            element = _object(pdf, kid)
            if element["Type"] == "/StructElem":
                yield element
                yield from _elements(pdf, kid)


def _mark_artifacts(pdf: pydyf.PDF, elements: list[pydyf.Dictionary]) -> None:
    """What is marked on a page and stands nowhere in the structure is a running head, a foot or a draft's mark."""
    read = {(element["Pg"], kid) for element in elements for kid in element["K"] if isinstance(kid, int)}
    for page in pdf.objects:
        if not isinstance(page, pydyf.Dictionary) or page.get("Type") != "/Page":
            continue
        content = _object(pdf, page["Contents"]).stream
        for at, item in enumerate(content):
            if isinstance(item, pydyf.Dictionary) and "MCID" in item and (page.reference, item["MCID"]) not in read:
                content[at - 1 : at + 1] = ["/Artifact", pydyf.Dictionary({"Type": "/Pagination"})]
