"""Sections through the cloth: exact along the cloth, legible, the same every time."""

from __future__ import annotations

import logging
import re
import subprocess
import sys
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.draw.figures import draw_all
from booklet.draw.ink import look
from booklet.draw.key import draw_key
from booklet.draw.section import draw_section
from booklet.length import Length, parse
from booklet.plan.plan import Section, Stage
from booklet.styles_folder import styles_folder
from tests.draw import sections as these
from tests.draw.reading import SVG, Read, meet, read
from tests.draw.sections import section, stage

CASES = pytest.mark.parametrize("wanted", these.ALL.values(), ids=these.ALL)
EXACT = 0.0101  # two roundings to hundredths of a millimetre
KINDS = (
    "right side", "wrong side", "interfacing", "lining", "stitching", "cut edge", "fold", "press arrow", "grain",
)  # fmt: skip


def scale_of(shows: str) -> Fraction:
    found = re.search(r"drawn at (?:(\d+) percent of )?life size", shows)
    assert found
    return Fraction(int(found[1] or 100), 100)


def on_paper(length: str, shows: str) -> float:
    return float(parse(length).millimetres * scale_of(shows))


def drawn(wanted: Section) -> tuple[list[Read], str]:
    drawing = draw_section(wanted)
    return read(drawing.svg)[0], drawing.shows


# To scale


@CASES
def test_every_measure_line_is_as_long_as_its_words_say(wanted: Section) -> None:
    stages, shows = drawn(wanted)
    written = 0
    for one in stages:
        words = [text for text, _ in one.texts[: len(one.measures)]]
        for (start, end, _), text in zip(one.measures, words, strict=True):
            assert end - start == pytest.approx(on_paper(text, shows), abs=EXACT)
            written += 1
    assert written


@CASES
def test_a_measure_line_runs_between_a_row_an_edge_or_a_fold_at_each_end(wanted: Section) -> None:
    """A hem's edge is measured at the inner face of its fold, a hair inside the outermost point of the line."""
    near = 0.5 if wanted.construction in ("double hem", "blind hem", "rolled hem", "casing") else EXACT
    for one in drawn(wanted)[0]:
        features = [*one.rows, *(x for layer in one.layers for x in outermost(layer)), *seam_lines(one)]
        for start, end, _ in one.measures:
            for x in (start, end):
                assert min(abs(x - feature) for feature in features) < near


def outermost(layer: list[tuple[float, float]]) -> list[float]:
    """Where a layer ends and where its half circles stand out."""
    found = [layer[0][0], layer[-1][0]]
    for (x0, y0), (x1, y1) in pairwise(layer):
        if abs(x0 - x1) < EXACT and abs(y0 - y1) > EXACT:
            found += [x0 + abs(y1 - y0) / 2, x0 - abs(y1 - y0) / 2]
    return found


def seam_lines(one: Read) -> list[float]:
    """Seams pressed open are stitched level: their line is the stroke's middle."""
    return [(x0 + x1) / 2 for x0, _, x1, _ in one.stitches if x0 != x1]


def test_plain_both_cut_edges_stand_the_allowance_from_the_stitching() -> None:
    (first, second), shows = drawn(these.PLAIN)
    allowance = on_paper("5/8 in", shows)
    assert [layer[-1][0] - first.rows[0] for layer in first.layers] == pytest.approx([allowance] * 2, abs=EXACT)
    seam = seam_lines(second)[0]
    assert sorted(layer[-1][0] - seam for layer in second.layers) == pytest.approx([-allowance, allowance], abs=EXACT)


@pytest.mark.parametrize(
    ("wanted", "first", "trimmed", "second"),
    [(these.FRENCH, "3/8 in", "1/8 in", "1/4 in"), (these.FRENCH_METRIC, "1 cm", "3 mm", "6 mm")],
)
def test_french_the_second_pass_encloses_both_cut_edges(wanted: Section, first: str, trimmed: str, second: str) -> None:
    """3/8 in wrong sides together, trimmed to 1/8 in, 1/4 in from the fold.

    Source: Oklahoma Cooperative Extension, 4-H Fabrics & Fashions No. 810.
    """
    stages, shows = drawn(wanted)
    assert len(stages) == 4
    assert stages[0].layers[0][-1][0] - stages[0].rows[0] == pytest.approx(on_paper(first, shows), abs=EXACT)
    folded = stages[2]
    seam, sewn_again = folded.rows
    fold = max(outermost(folded.layers[0]))
    assert fold - sewn_again == pytest.approx(on_paper(second, shows), abs=EXACT)
    for layer in folded.layers:
        cut = layer[-1][0]
        assert sewn_again < cut < seam < fold
        assert seam - cut == pytest.approx(on_paper(trimmed, shows), abs=EXACT)
    opened = stages[3]
    between = sorted(opened.rows)
    for layer in opened.layers:
        assert between[0] < layer[-1][0] < between[1]


def test_flat_felled_the_fold_covers_the_trimmed_edge_and_the_row_catches_both() -> None:
    """5/8 in, the under allowance trimmed to 1/4 in, the other folded over it, 3/8 in from the seam.

    Source: Central Washington University, costume text, ch. 21.
    """
    stages, shows = drawn(these.FELLED)
    trimmed, over = stages[-1].layers
    seam, topstitched = stages[-1].rows
    assert trimmed[-1][0] - seam == pytest.approx(on_paper("1/4 in", shows), abs=EXACT)
    fold = max(outermost(over))
    assert fold - seam == pytest.approx(on_paper("3/8 in", shows), abs=EXACT)
    turned_in = fold - over[-1][0]
    assert turned_in == pytest.approx(on_paper("1/4 in", shows), abs=EXACT)  # 5/8 less 3/8
    assert trimmed[-1][0] < topstitched < fold
    assert over[-1][0] < topstitched


def test_mock_french_both_folds_stand_the_width_inside_the_cut_edges_and_the_last_row_holds_all_four() -> None:
    """Each allowance of 5/8 in is turned in by 1/4 in: its fold 3/8 in from the seam, its cut edge 1/8 in."""
    stages, shows = drawn(these.MOCK_FRENCH)
    folded = stages[1]
    seam, last = folded.rows
    for layer in folded.layers:
        fold, cut = max(outermost(layer)), layer[-1][0]
        assert fold - seam == pytest.approx(on_paper("3/8 in", shows), abs=EXACT)
        assert cut - seam == pytest.approx(on_paper("1/8 in", shows), abs=EXACT)
        assert cut < last < fold


def test_bound_one_strip_goes_round_both_cut_edges_and_its_row_catches_them() -> None:
    stages, shows = drawn(these.BOUND)
    near, far, strip = stages[-1].layers
    start, end, fold = strip[0][0], strip[-1][0], max(outermost(strip))
    assert start == end
    assert fold - start == pytest.approx(on_paper("1/4 in", shows), abs=EXACT)
    row = stages[-1].rows[-1]
    for layer in (near, far):
        assert start < row < layer[-1][0] < fold


def test_hong_kong_each_allowance_has_its_own_strip_sewn_at_its_width_and_caught_in_the_ditch() -> None:
    """1/8 in from the edge. Source: from memory, and an encyclopedia's page on French seams."""
    stages, shows = drawn(these.HONG_KONG)
    opened = stages[-1]
    assert len(opened.layers) == 4
    edge, strip = opened.layers[2][-1][0], opened.layers[3]
    sewn, ditch = sorted((x for x in opened.rows if x > max(opened.rows) - 3), reverse=True)
    assert edge - sewn == pytest.approx(on_paper("1/8 in", shows), abs=EXACT)
    assert strip[-1][0] < ditch < sewn < edge


def test_slot_the_strip_lies_under_both_rows() -> None:
    stages, _ = drawn(these.SLOT)
    strip = stages[-1].layers[-1]
    left, right = sorted(stages[-1].rows)
    assert strip[0][0] < left < right < strip[-1][0]


def test_piped_the_row_stands_beside_the_cord_and_through_the_lip() -> None:
    """Seam with piping: FED-STD-751a, class SSk."""
    stages, _ = drawn(these.PIPED)
    strip, cord = stages[0].layers[2:]
    (row,) = stages[0].rows
    assert max(outermost(cord)) < row < strip[-1][0]
    assert min(outermost(strip)) < min(outermost(cord))


def test_blind_hem_the_row_comes_up_into_the_outer_cloth_and_not_through_it() -> None:
    stages, _ = drawn(these.BLIND)
    outer = stages[-1].layers[0][0][1]
    ((_, y0, _, y1),) = stages[-1].stitches
    assert min(y0, y1) == pytest.approx(outer, abs=EXACT)
    assert max(y0, y1) > max(y for _, y in stages[-1].layers[0])


def test_faced_hem_the_facing_lies_under_the_garment_and_its_free_edge_is_held() -> None:
    stages, shows = drawn(these.FACED)
    garment, facing = stages[-1].layers
    row = min(stages[-1].rows)
    assert min(outermost(facing)) < row < facing[0][0] < garment[-1][0]
    assert max(y for _, y in facing) > max(y for _, y in garment)
    assert "hem facing turned to the wrong side; its free edge turned under and stitched down" in shows


def test_a_bound_hem_and_a_lettuce_hem_turn_nothing_up() -> None:
    """A binding round the edge, and the thread round the edge alone."""
    (bound,), shows = drawn(these.BOUND_HEM)
    garment, binding = bound.layers
    assert garment[0][1] == garment[-1][1]
    assert binding[0][0] < bound.rows[0] < garment[-1][0] < max(outermost(binding))
    assert "Section through the hem of skirt. A binding round the cut edge" in shows
    (edge,), shows = drawn(these.BOUND_EDGE)
    assert len(edge.measures) == 1
    assert "Section through the edge of neckline. A binding, 1/2 in wide, round the cut edge" in shows
    (lettuce,), shows = drawn(these.LETTUCE)
    assert len(lettuce.layers) == 1
    assert "stretched and covered with close stitches" in shows


def test_double_hem_the_cut_edge_reaches_the_fold_and_no_further() -> None:
    """Two equal turns of 1/2 in. Source: Goodheart-Willcox, Apparel (2012), p. 464."""
    stages, _ = drawn(these.HEM)
    layer = stages[-1].layers[0]
    inner, edge, cut = min(x for x, _ in layer[1:-1]), *stages[-1].measures[0][1:2], layer[-1][0]
    assert cut == pytest.approx(edge, abs=EXACT)
    assert cut < max(outermost(layer))
    assert inner < stages[-1].rows[0] < cut


def test_enclosed_each_graded_edge_has_its_own_width_inside() -> None:
    stages, shows = drawn(these.ENCLOSED)
    seam = max(stages[-1].rows)
    left = sorted(seam - layer[-1][0] for layer in stages[-1].layers)
    assert left == pytest.approx([on_paper("1/8 in", shows), on_paper("1/4 in", shows)], abs=EXACT)
    fold = max(x for layer in stages[-1].layers for x in outermost(layer))
    assert fold - min(stages[-1].rows) == pytest.approx(on_paper("3/8 in", shows), abs=EXACT)


def test_one_scale_for_the_whole_strip_and_a_readable_one() -> None:
    for wanted in these.ALL.values():
        shows = draw_section(wanted).shows
        longest = max(
            float(length.millimetres)
            for one in wanted.stages
            if one.op in ("stitch", "fold", "bind")
            for length in one.measures
        )
        least = (
            10.8 if scale_of(shows) < look()["strip"]["largest_scale"] else 0
        )  # a rolled hem is no larger than twice
        assert least <= longest * scale_of(shows) <= 18.01


# Legible


def no_words_meet_or_leave(svg: str) -> None:
    root = ElementTree.fromstring(svg)
    _, _, wide, high = (float(number) for number in root.get("viewBox", "").split(","))
    stages, everywhere = read(svg)
    for one in stages:
        across, down = one.shift
        for words, (left, top, right, bottom) in one.texts:
            box = (left + across, top + down, right + across, bottom + down)
            everywhere.append((words, box))
            for layer in one.layers:
                for (x0, y0), (x1, y1) in pairwise(layer):
                    if y0 == y1:
                        line = (min(x0, x1), y0 - 0.25, max(x0, x1), y0 + 0.25)
                        assert not meet((left, top, right, bottom), line), f"{words} lies on a layer"
            for x0, y0, x1, y1 in one.stitches:
                line = (min(x0, x1) - 0.2, min(y0, y1), max(x0, x1) + 0.2, max(y0, y1))
                assert not meet((left, top, right, bottom), line), f"{words} lies on a row of stitching"
            for start, end, y in one.measures:
                assert not meet((left, top, right, bottom), (start, y - 0.1, end, y + 0.1)), f"{words} lies on a line"
    for place, (words, box) in enumerate(everywhere):
        assert min(box) >= 0, f"{words} leaves the drawing"
        assert box[2] <= wide, f"{words} leaves the drawing"
        assert box[3] <= high, f"{words} leaves the drawing"
        for other, beside in everywhere[place + 1 :]:
            assert not meet(box, beside), f"{words} lies on {other}"


@CASES
def test_no_words_lie_on_words_or_lines_or_leave_the_drawing(wanted: Section) -> None:
    no_words_meet_or_leave(draw_section(wanted).svg)


def test_a_long_name_takes_a_second_line_and_is_cut_short_only_then() -> None:
    lines = [text for text, _ in drawn(these.ALL["two names of middling length, three stages"])[0][0].texts[1:]]
    assert lines == ["Front armhole facing", "and front", "Back armhole facing", "and back"]
    endless = section("plain", "5/8 in", f"front, {'undercollarstand' * 4}", stage("stitch", "5/8 in"), these.OPEN)
    lines = [text for text, _ in drawn(endless)[0][0].texts[1:]]
    assert [line.endswith("…") for line in lines] == [False, True]
    no_words_meet_or_leave(draw_section(endless).svg)


def test_a_piece_sewn_to_itself_is_named_once() -> None:
    first, second = drawn(these.ALL["a piece to itself"])[0]
    assert [text for text, _ in first.texts] == ["⅝\u00a0in", "Long sleeve"]
    assert not second.texts


LENGTHS = st.builds(lambda n, d: Length(Fraction(n, d), "in"), st.integers(1, 24), st.sampled_from([8, 16]))
OPS = st.sampled_from(
    [
        "stitch",
        "trim",
        "grade",
        "clip",
        "press",
        "turn",
        "understitch",
        "topstitch",
        "finish",
        "fold",
        "stitch fold",
        "?",
    ]
)
MANNERS = st.sampled_from(
    ["", "open", "toward front", "toward nobody", "up", "flat", "overlock", "bind", "clean", "pink"]
)
KIND = st.sampled_from(
    ["plain", "french", "flat felled", "mock felled", "lapped", "enclosed", "overlocked", "double hem", "casing", "new"]
)
STAGE = st.builds(Stage, OPS, st.lists(LENGTHS, max_size=3).map(tuple), MANNERS)


@settings(max_examples=120, deadline=None)
@given(
    st.builds(
        Section,
        KIND,
        LENGTHS,
        st.lists(st.sampled_from(["front", "back", "stand collar", "lining"]), min_size=1, max_size=3).map(tuple),
        st.lists(st.sampled_from(["self", "lining", "interfacing"]), max_size=3).map(tuple),
        st.lists(STAGE, max_size=7).map(tuple),
    )
)
def test_any_request_is_drawn_even_one_that_can_not_be_sewn(wanted: Section) -> None:
    """The checks refuse impossible work; a draft is drawn all the same."""
    drawing = draw_section(wanted)
    root = ElementTree.fromstring(drawing.svg)
    assert not re.search(r"\b(nan|inf)\b", drawing.svg.replace("interfacing", ""))
    assert float(root.get("viewBox", "").split(",")[2]) >= drawing.width_mm - 0.01
    assert len(read(drawing.svg)[0]) <= 4


# What it says


@CASES
def test_the_alternative_text_names_every_number_and_every_side(wanted: Section) -> None:
    shows = draw_section(wanted).shows
    for length in (length for one in wanted.stages for length in one.measures):
        assert str(length) in shows
    for side in wanted.sides:
        assert side in shows


def test_the_alternative_text_of_a_french_seam() -> None:
    assert draw_section(these.FRENCH).shows == (
        "Section through the seam of front and back. "
        "Stage 1: wrong sides together, stitched 3/8 in from the edge. "
        "Stage 2: the allowances trimmed to 1/8 in. "
        "Stage 3: folded right sides together along the stitching; stitched 1/4 in from the fold, round the cut edges. "
        "Stage 4: pressed toward back. "
        "Distances along the cloth are drawn at 155 percent of life size; its thickness is not to scale."
    )


def test_the_alternative_text_counts_a_hems_row_from_where_the_hand_does() -> None:
    assert "stitched 1.5 cm from the folded edge" in draw_section(these.ALL["hem turned once"]).shows
    assert "stitched 1/8 in from the inner fold" in draw_section(these.ALL["double hem, uneven"]).shows


@CASES
def test_six_names_at_most_besides_the_measures_in_each_stage(wanted: Section) -> None:
    for one in drawn(wanted)[0]:
        names = [text for text, _ in one.texts[len(one.measures) :]]
        assert len(names) <= 6


# One file, safely


@CASES
def test_an_svg_is_small_titled_sized_and_has_nothing_to_clash(wanted: Section) -> None:
    drawing = draw_section(wanted)
    root = ElementTree.fromstring(drawing.svg)
    assert len(drawing.svg.encode()) < 15_000
    assert (root[0].tag, root[0].text) == (f"{SVG}title", drawing.shows)
    assert root.get("role") == "img"
    assert root.get("width") == f"{drawing.width_mm:g}mm"
    assert drawing.wide == (drawing.width_mm > 62)
    assert drawing.width_mm in (62, 147)
    assert not [element for element in root.iter() if element.get("id")]
    lines = drawing.svg.replace(drawing.shows, "")
    assert not re.search(r"\d\.\d{3}", re.sub(r'version="[\d.]+"', "", lines))


def test_names_in_a_drawing_are_text_and_never_markup() -> None:
    root = ElementTree.fromstring(draw_section(these.ALL["long names"]).svg)
    assert not root.findall(f".//{SVG}b")
    assert "<b>Rückenpasse</b>" in (root[0].text or "")


def test_the_same_bytes_whatever_the_order_of_hashes() -> None:
    program = (
        "from tests.draw import sections as s; from booklet.draw.section import draw_section; import hashlib;"
        "print(hashlib.sha256(''.join(draw_section(x).svg for x in s.ALL.values()).encode()).hexdigest())"
    )
    root = Path(__file__).parents[2]
    seen = {
        subprocess.run(
            [sys.executable, "-c", program], cwd=root, env={"PYTHONHASHSEED": seed}, capture_output=True, check=True
        ).stdout
        for seed in ("1", "2")
    }
    assert len(seen) == 1


def test_equal_requests_are_one_drawing_and_other_numbers_are_another() -> None:
    again = section("plain", "5/8 in", "front, back", stage("stitch", "5/8 in"), these.OPEN)
    other = section("plain", "1/2 in", "front, back", stage("stitch", "1/2 in"), these.OPEN)
    made = draw_all([these.PLAIN, again, other], None)
    assert list(made) == [these.PLAIN, other]
    assert made[again].name != made[other].name
    assert re.fullmatch(r"plain-[0-9a-f]{10}", made[again].name)


# Ink


def contrast(colour: str) -> float:
    """On white. Source: WCAG 2.2, definitions of relative luminance and contrast ratio."""
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 1.05 / (0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2] + 0.05)


def test_lines_that_carry_meaning_stand_out_on_white_and_words_more_so() -> None:
    """WCAG 2.2: 3 to 1 for graphics (1.4.11), 4.5 to 1 for text (1.4.3)."""
    ink = look()
    for colour in (
        ink["cloth"]["colour"],
        ink["stitch"]["colour"],
        ink["measure"]["colour"],
        ink["arrow"]["colour"],
        ink["right_side"]["hatch"],
        ink["lining"]["hatch"],
        ink["interfacing"]["hatch"],
    ):
        assert contrast(colour) >= 3, colour
    assert contrast(ink["words"]["colour"]) >= 4.5


def test_the_spot_colour_is_for_stitching_alone() -> None:
    spot = look()["stitch"]["colour"]
    for wanted in these.ALL.values():
        root = ElementTree.fromstring(draw_section(wanted).svg)
        for element in root.iter():
            if spot in element.attrib.values():
                assert element.get("class") == "figure-stitching"


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_in_the_key_has_a_swatch_of_its_own(kind: str) -> None:
    swatch = draw_key(kind)
    root = ElementTree.fromstring(swatch.svg)
    assert (swatch.width_mm, swatch.height_mm) == (12, 8)
    assert root[0].text == swatch.shows
    others = [draw_key(other).svg for other in KINDS if other != kind]
    assert swatch.svg not in others


def test_a_kind_that_is_not_in_the_key_is_named_with_those_that_are() -> None:
    with pytest.raises(ValueError, match=r"velvet.*right side"):
        draw_key("velvet")


def test_the_printer_of_the_booklet_takes_every_drawing_without_a_word(caplog: pytest.LogCaptureFixture) -> None:
    import weasyprint

    drawings = [*(draw_section(wanted) for wanted in these.ALL.values()), *(draw_key(kind) for kind in KINDS)]
    with caplog.at_level(logging.WARNING, logger="weasyprint"):
        weasyprint.HTML(string="".join(drawing.svg for drawing in drawings)).write_pdf()
    assert not [record.getMessage() for record in caplog.records if record.name.startswith("weasyprint")]


def test_the_look_is_found_beside_the_package() -> None:
    assert (styles_folder() / "figures.toml").is_file()
