"""Cards over the film: of the size of the screen, transparent round the panel, words within it, the same each time."""

from __future__ import annotations

import io
import re
from xml.etree import ElementTree

import pytest
from PIL import Image

from booklet.draw.cards import Card, card_png, card_svg, title_card, wide, words_card

LONG = (
    "Sew the sides and the sleeves in one long seam, from the hem of the tunic all the way up to the edge of the sleeve"
)
CARDS = {
    "title": title_card(15, "Sew the shoulders"),
    "take": title_card(None, "Welcome"),
    "long": title_card(7, LONG),
    "note": words_card(
        None,
        ("Main fabric: 2⅛\u00a0yd (2\u00a0m), by size, 45\u00a0in wide; more",),
    ),
    "measures": words_card(15, ("⅜\u00a0in (1\u00a0cm)", "1¼\u00a0in (3.2\u00a0cm)")),
}


@pytest.mark.parametrize("card", CARDS.values(), ids=CARDS)
def test_words_stand_within_the_panel_and_the_panel_on_the_screen(card: Card) -> None:
    left, top, right, bottom = card.panel
    assert 0 < left < right < 1920
    assert 0 < top < bottom < 1080
    for line in card.lines:
        assert left < line.x
        assert line.x + wide(line.words, line.size, line.heavy) < right
        assert top < line.y - line.size * 0.72
        assert line.y + line.size * 0.24 < bottom


@pytest.mark.parametrize("card", CARDS.values(), ids=CARDS)
def test_the_picture_is_transparent_outside_its_panel(card: Card) -> None:
    """Read by Pillow: 1920 by 1080 with an alpha channel; dark words on the panel, nothing round it."""
    image = Image.open(io.BytesIO(card_png(card)))
    assert (image.size, image.mode) == ((1920, 1080), "RGBA")
    left, top, right, bottom = (round(edge) for edge in card.panel)
    inside = image.crop((left, top, right, bottom))
    assert min(inside.getchannel("A").tobytes()) > 200
    assert min(inside.getchannel("R").tobytes()) < 64
    image.paste((0, 0, 0, 0), (left - 1, top - 1, right + 2, bottom + 2))
    assert max(image.getchannel("A").tobytes()) == 0


@pytest.mark.parametrize("card", CARDS.values(), ids=CARDS)
def test_the_svg_needs_no_type_of_its_reader(card: Card) -> None:
    text = card_svg(card)
    root = ElementTree.fromstring(text)
    assert (root.get("width"), root.get("height")) == ("1920", "1080")
    assert not re.search(r"<text|font|href|style", text)
    assert text == card_svg(card)


def test_a_long_title_takes_several_lines() -> None:
    assert len(CARDS["long"].lines) == 1 + 3


def test_a_fraction_without_a_sign_of_its_own_is_built_of_small_figures() -> None:
    """`3⁄16` of figures of full size would be read as 316; the bundled type has the small ones."""
    card = words_card(None, ("5\u00a0mm\u00a0(3⁄16\u00a0in)",))
    assert [line.words for line in card.lines] == ["5\u00a0mm\u00a0(³⁄₁₆\u00a0in)"]
    assert wide("³⁄₁₆", 100, heavy=False) < wide("3⁄16", 100, heavy=False) < 400
