"""The pages of the film in a real Chromium, from disk: the script, one take a screen, and the shot list; no network."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import axe_playwright_python
import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from booklet.publish.outputs import script, shots
from tests.plan import small

pytestmark = pytest.mark.xdist_group("script")

_FLAGS = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"]
NAME = "saltmarsh-tunic"
# WCAG 2.2, 2.5.5: targets of 44 CSS pixels.
LEAST_TARGET = 44


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    found = next((path for name in ("chromium", "chromium-browser") if (path := shutil.which(name))), None)
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=found, args=_FLAGS)
        yield launched
        launched.close()


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("script") / "script.html"
    path.write_bytes(script.files(small.demo(NAME))["film/script.html"])
    return path


def strange(address: str) -> list[str]:
    """What a page that works with no network doesn't ask for."""
    return [] if address.startswith(("file:", "data:")) else [address]


@pytest.fixture
def page(browser: Browser, file: Path) -> Iterator[Page]:
    """On a tablet. Fails where the page complained, or asked for anything but itself."""
    context = browser.new_context(viewport={"width": 1024, "height": 768})
    opened = context.new_page()
    complaints: list[str] = []
    opened.on("console", lambda message: complaints.append(message.text))
    opened.on("pageerror", lambda error: complaints.append(str(error)))
    opened.on("request", lambda asked: complaints.extend(strange(asked.url)))
    opened.goto(file.as_uri())
    yield opened
    context.close()
    assert complaints == []


def shown(page: Page) -> list[str]:
    """The numbers of the takes that can be seen."""
    return [take.get_attribute("id") or "" for take in page.locator(".take").all() if take.is_visible()]


def test_one_take_a_screen_and_keys_go_on(page: Page) -> None:
    """The arrows, space, Enter, and Page Down and Page Up as presenters' remotes send them."""
    assert shown(page) == ["take-1"]
    for key, take in [("ArrowRight", 2), ("Space", 3), ("Enter", 4), ("PageDown", 5), ("PageUp", 4), ("ArrowLeft", 3)]:
        page.keyboard.press(key)
        assert shown(page) == [f"take-{take}"], key
    page.keyboard.press("Home")
    page.keyboard.press("ArrowLeft")
    assert shown(page) == ["take-1"]
    page.keyboard.press("End")
    page.keyboard.press("ArrowRight")
    film = small.demo(NAME).plan.films
    assert film is not None
    assert shown(page) == [f"take-{len(film.shots)}"]


def test_a_tap_goes_on_and_one_at_the_left_back(page: Page) -> None:
    page.mouse.click(700, 500)
    page.mouse.click(700, 500)
    assert shown(page) == ["take-3"]
    page.mouse.click(100, 500)
    assert shown(page) == ["take-2"]


def test_it_can_be_read_in_the_order_of_filming(page: Page) -> None:
    """By one button, without losing the place."""
    filming = small.demo(NAME).filming
    assert filming is not None
    page.keyboard.press("ArrowRight")
    page.get_by_role("button", name="As filmed").click()
    assert shown(page) == ["take-2"]
    order = [shot.take for shot in filming.takes]
    page.locator(".on").click()
    assert shown(page) == [f"take-{order[order.index(2) + 1]}"]


@pytest.mark.parametrize(("width", "height"), [(1024, 768), (390, 844)])
def test_every_take_fits_its_screen_in_large_type(page: Page, width: int, height: int) -> None:
    """Nothing is cut off, nothing scrolls; on a tablet no word of what is said is smaller than 28 pixels."""
    page.set_viewport_size({"width": width, "height": height})
    for _ in range(page.locator(".take").count()):
        take = page.locator(".take.here")
        high, box = take.evaluate("take => [take.scrollHeight, take.clientHeight]")
        assert high <= box, take.get_attribute("id")
        size = take.locator(".say").evaluate("say => parseFloat(getComputedStyle(say).fontSize)")
        assert size >= (28 if width > 1000 else 20)
        page.keyboard.press("ArrowRight")


def test_measures_and_names_are_those_of_the_booklet() -> None:
    """What is said is set from the same prose as the booklet, with both systems."""
    made = script.files(small.demo(NAME))["film/script.html"].decode()
    film = small.demo(NAME).plan.films
    assert film is not None
    measures = [span.measure for shot in film.shots for block in shot.spoken for span in block.spans if span.measure]
    assert measures
    assert made.count('class="measure') >= len(measures)


def test_without_its_script_all_takes_follow_one_another(browser: Browser, file: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    opened = context.new_page()
    opened.goto(file.as_uri())
    film = small.demo(NAME).plan.films
    assert film is not None
    assert len(shown(opened)) == len(film.shots)
    assert not opened.locator("nav").is_visible()
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_is_accessible(page: Page, scheme: str) -> None:
    """By axe-core (Deque), all its rules; the buttons are as large as a finger."""
    page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    page.evaluate((Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8"))
    assert [each["id"] for each in page.evaluate("axe.run()")["violations"]] == []
    for button in page.get_by_role("button").all():
        box = button.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= LEAST_TARGET


@pytest.mark.parametrize("name", small.DEMOS)
def test_every_take_of_every_demo_is_in_it_once(name: str) -> None:
    made = script.files(small.demo(name))["film/script.html"].decode()
    film = small.demo(name).plan.films
    assert film is not None
    assert re.findall(r'id="take-(\d+)"', made) == [str(shot.take) for shot in film.shots]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1024])
def test_the_shot_list_reads_on_a_phone_and_a_tablet(page: Page, file: Path, width: int, scheme: str) -> None:
    """Nothing beyond the screen's edge, and nothing that axe-core (Deque) finds."""
    list_of_shots = file.with_name("shots.html")
    list_of_shots.write_bytes(shots.files(small.demo(NAME))["film/shots.html"])
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    page.goto(list_of_shots.as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") == width
    page.evaluate((Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8"))
    assert [each["id"] for each in page.evaluate("axe.run()")["violations"]] == []
