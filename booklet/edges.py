"""The command `edges`: a page that shows every piece of a pattern with all its marks numbered."""

from __future__ import annotations

import base64
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from booklet.draw import edges as sheets
from booklet.draw.edges.sheet import scale_for, sheet
from booklet.model.build import build_pattern
from booklet.read.faults import Faults
from booklet.read.folder import read_folder
from booklet.read.tree import same_name
from booklet.shape.course import length
from booklet.shape.propose import proposed_corners
from booklet.shape.shapes import Shapes
from booklet.styles_folder import styles_folder

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.finding import Finding
    from booklet.model.pattern import Pattern, Piece
    from booklet.shape.outline import Outline
    from booklet.shape.piece import PieceShape

# The largest piece fills this much of a screen, in px; and no piece is drawn larger than this many px to a millimetre.
ACROSS, DOWN, MOST_SCALE = 760.0, 980.0, 1.6


class Written(NamedTuple):
    """target: the page, or None where it could not be made; lines: what is told besides; findings: what is wrong."""

    target: Path | None
    lines: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()


class Edges(NamedTuple):
    """page: HTML; lines: what a person at a terminal is told besides; faults: what is wrong with the outlines."""

    page: str
    lines: tuple[str, ...]
    faults: Faults


class _Shown(NamedTuple):
    piece: Piece
    outline: Outline
    shape: PieceShape | None
    fitting: str
    says: str


def edges_page(pattern: Pattern, only: str | None = None) -> Edges:
    """Every piece in the size of the figures, or the one piece that is named."""
    faults = Faults()
    shapes = Shapes(pattern, faults)
    shown = [row for row in _shown(pattern, shapes) if only is None or same_name(row.piece.name) == same_name(only)]
    scale = scale_for([row.outline for row in shown], ACROSS, DOWN, MOST_SCALE)
    figures = "\n".join(_figure(pattern, row, scale) for row in shown)
    missing = [
        piece.name
        for key, piece in pattern.pieces.items()
        if (only is None or key == same_name(only)) and not any(row.piece is piece for row in shown)
    ]
    left_out = f"<p>Not in the outlines: {escape(', '.join(missing))}.</p>" if missing else ""
    page = (
        (Path(sheets.__file__).parent / "page.html")
        .read_text(encoding="utf-8")
        .format(
            title=escape(pattern.name),
            size=escape(f"Size {shapes.figure_size}. " if shapes.figure_size else ""),
            css=_css(),
            figures=figures,
            missing=left_out,
        )
    )
    return Edges(page, tuple(_told(shown)), faults)


def _shown(pattern: Pattern, shapes: Shapes) -> Iterator[_Shown]:
    for key, piece in pattern.pieces.items():
        for fitting in shapes.fittings_of(key):
            outline = shapes.outline(key, shapes.figure_size, fitting)
            if outline is None:
                continue
            before = len(shapes.faults.findings)
            shape = shapes.of(key, shapes.figure_size, fitting)
            says = shapes.faults.findings[before].says if len(shapes.faults.findings) > before else ""
            yield _Shown(piece, outline, shape, fitting, says)


def _told(shown: Sequence[_Shown]) -> Iterator[str]:
    """The line to write for each piece whose edges are not named."""
    told: set[str] = set()
    for row in shown:
        if row.shape is None and row.piece.name not in told and (proposed := proposed_corners(row.piece, row.outline)):
            told.add(row.piece.name)
            yield f"{row.piece.name}: perhaps corners: [{', '.join(proposed)}]"


def _figure(pattern: Pattern, row: _Shown, scale: float) -> str:
    about = " · ".join(part for part in (f"piece {row.piece.number}", row.fitting) if part)
    made = sheet(row.outline, row.shape, scale, f"{row.piece.name}, {about}")
    under = _edge_list(pattern, row) if row.shape else _proposal(row)
    return (
        f'<figure style="max-width:{max(made.width, 260):.0f}px"><figcaption><b>{escape(row.piece.name)}</b> '
        f"<span>{escape(about)}</span></figcaption>{made.svg}{under}</figure>"
    )


def _edge_list(pattern: Pattern, row: _Shown) -> str:
    assert row.shape is not None
    begins = [mark.value for mark in row.piece.corners] or [str(at + 1) for at in range(len(row.piece.edges))]
    lines = [
        f"<tr><td>{escape(edge.name)}</td><td>{escape(first)} – {escape(last)}</td>"
        f"<td>{_spelled(length(edge.seam), pattern.metric)}</td></tr>"
        for edge, first, last in zip(row.shape.edges.values(), begins, [*begins[1:], begins[0]], strict=False)
    ]
    return f"<table><tr><th>edge</th><th>from – to</th><th>on the seam line</th></tr>{''.join(lines)}</table>"


def _spelled(millimetres: float, metric: bool) -> str:
    return f"{millimetres / 10:.1f} cm" if metric else f"{millimetres / 25.4:.2f} in"


def _proposal(row: _Shown) -> str:
    proposed = proposed_corners(row.piece, row.outline)
    if proposed is None:
        return f"<p>{escape(row.says)}</p>"
    names = list(row.piece.edges.values())
    reads = ", ".join(f"{edge.name} from {mark}" for edge, mark in zip(names, proposed, strict=True))
    return (
        f"<p>{escape(row.says)} Perhaps, for {escape(reads)}:</p>"
        f"<pre>{escape(row.piece.name)}:\n  corners: [{escape(', '.join(proposed))}]</pre>"
    )


def _css() -> str:
    fonts = styles_folder() / "fonts"
    faces = "".join(
        f'@font-face{{font-family:"Source Sans 3";font-weight:{weight};'
        f"src:url(data:font/woff2;base64,{base64.b64encode((fonts / name).read_bytes()).decode()})}}"
        for weight, name in ((400, "SourceSans3-Regular.ttf.woff2"), (600, "SourceSans3-Semibold.ttf.woff2"))
    )
    return faces + (styles_folder() / "edges.css").read_text(encoding="utf-8")


def write_edges(folder: Path, into: Path, only: str | None = None) -> Written:
    """read -> model -> shape -> draw; the page is put beside where a build of that pattern goes."""
    faults = Faults()
    source = read_folder(folder, faults)
    pattern = None if faults.unread else build_pattern(source, faults)
    name = folder.resolve().name
    if pattern is None:
        return Written(None, (), tuple(faults.findings))
    if not pattern.outlines:
        return Written(None, (f"{name} names no outlines. Write where they are, as in outlines: pieces.dxf.",))
    if only is not None and same_name(only) not in pattern.pieces:
        pieces = ", ".join(piece.name for piece in pattern.pieces.values())
        return Written(None, (f"{name} has no piece “{only}”. Its pieces are {pieces}.",))
    made = edges_page(pattern, only)
    target = into / f"{name}-edges.html"
    try:
        into.mkdir(parents=True, exist_ok=True)
        target.write_text(made.page, encoding="utf-8")
    except OSError as error:
        return Written(None, (f"{target} can't be written: {error.strerror or error}.",))
    return Written(target, made.lines, tuple(made.faults.findings))
