"""The page, opened from disk in a real Chromium: on a phone, on a desk, in the dark, on paper."""

from __future__ import annotations

import re
import shutil
import unicodedata
from collections.abc import Callable, Iterator
from functools import cache, partial
from itertools import pairwise
from pathlib import Path
from typing import Any

import axe_playwright_python
import pypdf
import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, sync_playwright

from tests.command import DEMOS, ROOT, notchbook

pytestmark = pytest.mark.xdist_group("demos")

_FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PHONE = {"width": 390, "height": 844}
# WCAG 2.2: 1.4.3 asks for 4.5 to 1; 2.5.5 for targets of 44 CSS pixels.
LEAST_CONTRAST, LEAST_TARGET = 4.5, 44

Open = Callable[..., Page]


def _chromium() -> str | None:
    """Debian's, or another on the path; None lets Playwright take its own."""
    names = ("chromium", "chromium-browser", "google-chrome")
    return next((found for name in names if (found := shutil.which(name))), None)


@pytest.fixture(scope="module")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="module")
def browser(playwright: Playwright) -> Iterator[Browser]:
    launched = playwright.chromium.launch(executable_path=_chromium(), args=_FLAGS)
    yield launched
    launched.close()


class Told:
    """What a page had to complain of, and what it asked the network for."""

    def __init__(self, page: Page) -> None:
        self.complaints: list[str] = []
        page.on("console", lambda message: self.complaints.append(message.text))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("dialog", lambda dialog: self.complaints.append(dialog.message))
        page.on("request", lambda request: self._asked(request.url))

    def _asked(self, address: str) -> None:
        if not address.startswith(("file:", "data:")):
            self.complaints.append(address)


@pytest.fixture(params=DEMOS)
def demo(request: pytest.FixtureRequest) -> str:
    """Each demo in turn."""
    name: str = request.param
    return name


@pytest.fixture
def open_file(browser: Browser) -> Iterator[Open]:
    """Opens a page in a context of its own; in the end, it must have complained of nothing."""
    contexts: list[BrowserContext] = []
    told: list[Told] = []

    def opened(file: Path, script: str = "", **options: Any) -> Page:
        contexts.append(browser.new_context(**{"viewport": PHONE, **options}))
        page = contexts[-1].new_page()
        if script:
            page.add_init_script(script)
        told.append(Told(page))
        page.goto(file.as_uri())
        return page

    yield opened
    for context in contexts:
        context.close()
    assert [complaint for one in told for complaint in one.complaints] == []


@pytest.fixture
def open_page(open_file: Open, demos: Path, demo: str) -> Open:
    """Opens the demo's page."""
    return partial(open_file, page_of(demos, demo))


def page_of(demos: Path, demo: str) -> Path:
    return demos / demo / "page" / "index.html"


def choose(page: Page, name: str, value: str) -> None:
    page.check(f"input[name={name}][value='{value}']", force=True)


def letters(page: Page) -> list[str]:
    found: list[str] = page.eval_on_selector_all("input[name=view]", "all => all.map(input => input.value)")
    return [letter for letter in found if letter]


def unfold(page: Page) -> None:
    page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true })")


def seen(page: Page, selector: str) -> list[str]:
    """The words of the elements that can be seen."""
    words: list[str] = page.eval_on_selector_all(
        selector, "all => all.filter(one => one.checkVisibility()).map(one => one.innerText)"
    )
    return [" ".join(text.split()) for text in words]


@cache
def list_of(file: Path) -> tuple[dict[int, tuple[str, str]], list[str]]:
    """A step list in Markdown, read back: a step's number -> its title and words; and the lines of what is left out."""
    steps: dict[int, tuple[str, str]] = {}
    gaps: list[str] = []
    number = 0
    for block in re.split(r"\n{2,}", file.read_text(encoding="utf-8")):
        if head := re.match(r"### ([0-9]+)\. (.+)", block):
            number = int(head[1])
            steps[number] = (bare(head[2]), "")
        elif block.startswith("#"):
            number = 0
        elif re.fullmatch(r"\(Steps? .*\)", block):
            gaps.append(bare(block[1:-1]))
        elif number and not block.startswith(("*Figure.*", "![")) and block != "Optional.":
            steps[number] = (steps[number][0], f"{steps[number][1]} {bare(block)}".strip())
    return steps, gaps


def bare(text: str) -> str:
    """Words alone, whatever signs of Markdown and of type they were set in."""
    text = re.sub(r"^(?:\*Tip\.\*|-|[0-9]+\.) ", "", text, flags=re.MULTILINE)
    text = re.sub(r"(?<!\\)\*", "", text).replace("\\", "")
    return plain(text)


def plain(text: str) -> str:
    """Fractions with a slash (`1 5/8`), blanks made one."""
    text = re.sub(r"(?<=[0-9])(?=[½¼¾⅛⅜⅝⅞⅓⅔])", " ", text)
    return " ".join(unicodedata.normalize("NFKC", text).replace("\u2044", "/").split())


def test_opens_from_disk_with_no_complaint_and_no_request(open_page: Open, demo: str) -> None:
    """Nothing in the console, nothing from the network, also while every control is used."""
    page = open_page()
    unfold(page)
    for letter in [*letters(page), ""] if letters(page) else []:
        choose(page, "view", letter)
    for units in ("inch", "metric", "both"):
        choose(page, "units", units)
    for tick in page.locator(".tick input").all():
        tick.check(force=True)
    assert page.inner_text(".next") == "All done"
    page.click(".again")
    assert page.inner_text(".next") == "Begin"


def test_a_view_shows_its_own_steps_and_says_which_it_leaves_out(open_page: Open, demos: Path, demo: str) -> None:
    """The steps and the lines between them are those of the view's step list, in its order."""
    page = open_page()
    everything = seen(page, ".step .number")
    assert seen(page, ".gap") == []
    for letter in letters(page):
        choose(page, "view", letter)
        steps, gaps = list_of(demos / demo / "steps" / f"{letter}.md")
        assert [int(number) for number in seen(page, ".step .number")] == list(steps)
        assert seen(page, ".gap") == gaps
        assert seen(page, ".for-views") == [], "in one view, no step needs a mark"
    choose(page, "view", "")
    assert seen(page, ".step .number") == everything


@pytest.mark.parametrize(
    ("units", "hidden"), [("inch", r"[0-9½¼¾⅛⅜⅝⅞] (?:mm|cm|m)\b"), ("metric", r"[0-9½¼¾⅛⅜⅝⅞] (?:in|yd)\b")]
)
def test_one_system_of_measures_alone(open_page: Open, demo: str, units: str, hidden: str) -> None:
    """Where both systems stand, in prose, charts and cloth, the chosen one is left; figures are drawn in one."""
    page = open_page()
    unfold(page)
    words = """() => {
        const walker = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT);
        const found = [];
        while (walker.nextNode()) {
            const parent = walker.currentNode.parentElement;
            if (parent.closest("svg, .measure:not(.pair), .scroll:not(.inch):not(.metric) caption")) continue;
            if (parent.checkVisibility()) found.push(walker.currentNode.textContent);
        }
        return found.join("").replace(/\\s+/g, " ");
    }"""
    assert re.search(hidden, page.evaluate(words))
    choose(page, "units", units)
    text = page.evaluate(words)
    assert re.findall(f".{{0,30}}{hidden}", text) == []
    assert not re.search(r"\( ?\)|\([^)]*$", text), "no bracket is left over"


def test_ticks_and_choices_are_kept(playwright: Playwright, demos: Path, demo: str, tmp_path: Path) -> None:
    """Over a reload and over a new start of the browser; and the ticks can be cleared for the next one sewn."""
    file = page_of(demos, demo).as_uri()

    def opened() -> BrowserContext:
        return playwright.chromium.launch_persistent_context(tmp_path, executable_path=_chromium(), args=_FLAGS)

    def states(page: Page) -> tuple[list[str], str, str]:
        done = page.eval_on_selector_all(".step.done", "all => all.map(one => one.dataset.step)")
        chosen = [
            page.locator(f"input[name={name}]:checked").get_attribute("value") or "" for name in ("view", "units")
        ]
        return done, chosen[0], chosen[1]

    context = opened()
    page = context.new_page()
    page.goto(file)
    choose(page, "view", letters(page)[-1])
    choose(page, "units", "metric")
    visible = page.locator(".step:visible .tick input")
    for at in (0, 2):
        visible.nth(at).check(force=True)
    before = states(page)
    assert len(before[0]) == 2
    page.reload()
    assert states(page) == before
    context.close()

    context = opened()
    page = context.new_page()
    page.goto(file)
    assert states(page) == before
    page.click(".again")
    page.reload()
    assert states(page) == ([], *before[1:])
    context.close()


def test_the_next_step_is_one_touch_away(open_page: Open, demo: str) -> None:
    """The link at the top counts what is done and leads to the first step that is not, clear of the bar."""
    page = open_page()
    choose(page, "view", letters(page)[0])
    steps = page.locator(".step:visible")
    for at in range(3):
        steps.nth(at).locator(".tick input").check(force=True)
    assert page.inner_text(".next") == f"Go on, 3 of {steps.count()} done"
    page.click(".next")
    bar, step = page.locator(".bar").bounding_box(), steps.nth(3).bounding_box()
    assert bar
    assert step
    assert bar["y"] + bar["height"] <= step["y"] + 1 < PHONE["height"] / 2


@pytest.mark.parametrize(
    "view", [{"width": 390, "height": 844}, {"width": 820, "height": 1180}], ids=["phone", "tablet"]
)
def test_what_a_step_says_is_seen_without_scrolling(open_page: Open, demo: str, view: dict[str, int]) -> None:
    """Jumped to, a step shows its number, title and words below the bar; figures follow, or stand beside them."""
    page = open_page(viewport=view)
    choose(page, "view", letters(page)[-1])
    steps = page.eval_on_selector_all(
        ".step",
        """all => all.filter(one => one.checkVisibility()).map(one => {
            const top = one.getBoundingClientRect().top - document.querySelector(".bar").offsetHeight;
            const words = one.querySelector(".words").getBoundingClientRect();
            const figures = [...one.querySelectorAll("figure")].map(each => each.getBoundingClientRect());
            return [one.id, words.bottom - top,
                figures.some(each => each.top < words.bottom - 1 && each.left < words.right - 1)];
        })""",
    )
    assert len(steps) > 10
    assert [one for one in steps if one[1] > view["height"] or one[2]] == []


def test_everything_is_used_from_the_keyboard(open_page: Open, demo: str) -> None:
    """Tab reaches every control in the order of the page, and where one is shows; arrows, Space and Enter use it."""
    page = open_page()
    page.keyboard.press("Tab")
    stops: list[str] = []
    where = """() => {
        const one = document.activeElement;
        if (one === document.body) return "";
        const shown = one.matches("input") ? one.nextElementSibling : one;
        const outline = getComputedStyle(shown).outlineStyle;
        return outline === "none" ? "no outline: " + one.outerHTML.slice(0, 80)
            : one.getAttribute("role") === "region" ? one.getAttribute("aria-label")
            : one.name ? one.name : one.type === "checkbox" ? one.closest(".step").id
            : one.className || one.textContent;
    }"""
    while (stop := page.evaluate(where)) not in ("", *stops):
        stops.append(stop)
        if stop == "view":
            page.keyboard.press("ArrowRight")
        page.keyboard.press("Tab")
    visible = page.eval_on_selector_all(".step", "all => all.filter(one => one.checkVisibility()).map(one => one.id)")
    assert [stop for stop in stops if re.fullmatch("step-[0-9]+", stop)] == visible
    assert [stop for stop in stops if stop.startswith("no outline")] == []
    assert {"view", "units", "next", "again"} <= set(stops)
    first = letters(page)[0]
    assert page.locator("input[name=view]:checked").get_attribute("value") == first

    page.focus(f"#{visible[0]} .tick input")
    page.keyboard.press("Space")
    assert seen(page, ".next") == [f"Go on, 1 of {len(visible)} done"]
    page.focus(".next")
    page.keyboard.press("Enter")
    assert page.evaluate("location.hash") == f"#{visible[1]}"
    page.focus("summary >> nth=0")
    page.keyboard.press("Enter")
    assert page.evaluate("document.querySelector('details').open")


def test_what_a_thumb_presses_is_large_enough(open_page: Open, demo: str) -> None:
    """44 px both ways, as WCAG 2.2 (2.5.5) asks; links in running text are excepted there."""
    page = open_page()
    sizes = page.eval_on_selector_all(
        "label, summary, button, .bar a",
        """all => all.filter(one => one.checkVisibility()).map(one => {
            const box = one.getBoundingClientRect();
            return [one.outerHTML.slice(0, 60), box.width, box.height];
        })""",
    )
    assert len(sizes) > 10
    assert [one for one in sizes if min(one[1:]) < LEAST_TARGET] == []


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_nothing_runs_off_the_side(open_page: Open, demo: str, width: int) -> None:
    """Only tables scroll, within their own frame; 320 px is what WCAG 2.2 (1.4.10) names."""
    page = open_page(viewport={"width": width, "height": 800})
    unfold(page)
    for units in ("both", "metric"):
        choose(page, "units", units)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    wide = page.eval_on_selector_all(
        ".scroll", "all => all.filter(one => one.scrollWidth > one.clientWidth && one.tabIndex < 0).length"
    )
    assert wide == 0, "what scrolls can be reached from the keyboard"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_stand_out_from_their_ground(open_page: Open, demo: str, scheme: Any) -> None:
    """Contrast by the formula of WCAG 2.2 (relative luminance), of every word that shows, ticked ones too."""
    page = open_page(color_scheme=scheme)
    unfold(page)
    for tick in page.locator(".tick input").all()[:2]:
        tick.check(force=True)
    low = page.evaluate(
        """(least) => {
            const parts = (color) => color.match(/[0-9.]+/g).map(Number);
            const light = (color) => {
                const [r, g, b] = parts(color).slice(0, 3).map((part) => part / 255)
                    .map((part) => part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4);
                return 0.2126 * r + 0.7152 * g + 0.0722 * b;
            };
            const ground = (element) => {
                for (let one = element; one; one = one.parentElement) {
                    const color = getComputedStyle(one).backgroundColor;
                    if ((parts(color)[3] ?? 1) === 1) return color;
                }
                return "rgb(255, 255, 255)";
            };
            const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
            const low = [];
            let count = 0;
            while (walker.nextNode()) {
                const element = walker.currentNode.parentElement;
                const words = walker.currentNode.textContent.trim();
                if (!words || !element.checkVisibility() || element.closest("script, style, title")) continue;
                const drawn = element.closest("svg");
                const fill = getComputedStyle(element)[drawn ? "fill" : "color"];
                const box = element.getBoundingClientRect();
                const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
                // A letter drawn on a square has the square for its ground.
                const square = drawn && [...drawn.querySelectorAll("rect")].filter((one) => {
                    const at = one.getBoundingClientRect();
                    return getComputedStyle(one).fill !== "none" && element.compareDocumentPosition(one) & 2
                        && at.left < x && x < at.right && at.top < y && y < at.bottom;
                }).pop();
                const under = square ? getComputedStyle(square).fill : ground(drawn || element);
                const [a, b] = [light(fill), light(under)];
                count += 1;
                const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
                if (ratio < least) low.push([words.slice(0, 40), ratio]);
            }
            return count > 100 ? low : ["too few words were looked at"];
        }""",
        LEAST_CONTRAST,
    )
    assert low == []
    dark = page.evaluate("getComputedStyle(document.body).backgroundColor") != "rgb(255, 255, 255)"
    assert dark == (scheme == "dark")


def test_works_where_nothing_may_be_kept(open_page: Open, demo: str) -> None:
    """A phone that gives the page no storage loses the ticks in the end, and nothing else."""
    page = open_page(
        script="Object.defineProperty(window, 'localStorage', { get() { throw new Error('no storage') } })"
    )
    choose(page, "view", letters(page)[0])
    page.locator(".step:visible .tick input").first.check(force=True)
    assert len(seen(page, ".step.done")) == 1
    assert page.inner_text(".next").startswith("Go on, 1 of ")


@pytest.mark.parametrize("demo", DEMOS[:1], indirect=True)
@pytest.mark.parametrize("kept", ["null", "5", "{", '{"done": 5, "view": {}, "units": null}', '{"view": "Z"}'])
def test_what_another_version_kept_does_no_harm(open_page: Open, demos: Path, demo: str, kept: str) -> None:
    """Whatever lies in the storage, the page shows all its steps and begins."""
    page = open_page(script=f"localStorage.setItem('steps:{demo}/1.0', {kept!r})")
    assert page.locator("body").get_attribute("data-store") == f"{demo}/1.0"
    assert len(seen(page, ".step")) == page.locator(".step").count()
    assert page.inner_text(".next") == "Begin"


def test_reads_without_its_script(open_page: Open, demo: str) -> None:
    """Every step shows, with the views that sew it."""
    page = open_page(java_script_enabled=False)
    assert page.locator(".step:visible").count() == page.locator(".step").count() > 0
    assert page.locator(".for-views:visible").count() > 0


def test_prints_as_a_clean_list(open_page: Open, demos: Path, demo: str, tmp_path: Path) -> None:
    """On paper are the chosen view's steps in order, without the bar and its buttons, and no step is cut by a page."""
    page = open_page()
    letter = letters(page)[-1]
    choose(page, "view", letter)
    page.pdf(path=tmp_path / "page.pdf", format="A4")
    pages = [plain(one.extract_text()) for one in pypdf.PdfReader(tmp_path / "page.pdf").pages]
    text = " ".join(pages)
    steps, _ = list_of(demos / demo / "steps" / f"{letter}.md")
    at = 0
    for number, (title, _) in steps.items():
        at = text.index(f"{number} {title}", at) + 1
        squeezed = [re.sub(r"\s", "", one) for one in pages]
        assert any(re.sub(r"\s", "", steps[number][1])[:60] in one for one in squeezed)
    assert "Clear all ticks" not in text
    assert "Measures" not in text
    page.emulate_media(media="print")
    assert page.eval_on_selector_all(".step", "all => all.every(one => getComputedStyle(one).breakInside === 'avoid')")
    assert page.eval_on_selector_all(
        ".mark", "all => all.every(one => getComputedStyle(one).printColorAdjust === 'exact')"
    )


def test_axe_finds_nothing(open_page: Open, demo: str) -> None:
    """axe-core (Deque), all its rules, with everything unfolded."""
    page = open_page()
    unfold(page)
    page.evaluate((Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8"))
    result = page.evaluate("axe.run()")
    assert len(result["passes"]) > 20
    assert [(one["id"], [node["html"][:120] for node in one["nodes"]]) for one in result["violations"]] == []


def test_ids_are_unique_and_headings_skip_no_level(open_page: Open, demo: str) -> None:
    """And every drawing says what it shows to a reader who can't see it."""
    page = open_page()
    ids = page.eval_on_selector_all("[id]", "all => all.map(one => one.id)")
    assert len(ids) == len(set(ids))
    levels = page.eval_on_selector_all("h1, h2, h3, h4", "all => all.map(one => Number(one.tagName[1]))")
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    silent = page.eval_on_selector_all(
        "figure svg, figure img",
        "all => all.filter(one => !(one.alt || one.querySelector(':scope > title')?.textContent)).length",
    )
    assert silent == 0


def test_says_the_same_as_the_list_and_the_booklet(open_page: Open, demos: Path, demo: str) -> None:
    """Number, title, words, measures, cautions and piece numbers of every step, in every view: page = list = PDF."""
    page = open_page()
    said = page.eval_on_selector_all(
        ".step",
        """all => all.map(one => [one.querySelector(".number").textContent, one.querySelector(".name").textContent,
            [...one.querySelectorAll("p:not(.only), li")].map(words => words.textContent).join(" ")])""",
    )
    on_page = {int(number): (plain(title), plain(words)) for number, title, words in said}
    for letter in letters(page):
        steps, _ = list_of(demos / demo / "steps" / f"{letter}.md")
        assert {number: on_page[number] for number in steps} == steps
        reader = pypdf.PdfReader(demos / demo / f"booklet-{letter}-a4.pdf")
        printed = re.sub(r"\s", "", plain(" ".join(one.extract_text() for one in reader.pages)))
        for number, (title, words) in steps.items():
            assert re.sub(r"\s", "", f"{number}{title}") in printed
            for sentence in re.split(r"(?<=[.!?:;]) ", words):
                assert re.sub(r"\s", "", sentence) in printed, f"step {number}: {sentence}"


def test_pieces_have_the_numbers_of_the_booklet(open_page: Open, demos: Path, demo: str) -> None:
    """And as many to cut of each cloth."""
    page = open_page()
    unfold(page)
    rows = page.eval_on_selector_all(
        ".pieces tbody tr", "all => all.map(row => [...row.cells].map(cell => cell.innerText).join(' '))"
    )
    reader = pypdf.PdfReader(demos / demo / "booklet-a4.pdf")
    printed = re.sub(r"\s", "", plain(" ".join(one.extract_text() for one in reader.pages)))
    assert len(rows) > 3
    for row in rows:
        assert re.sub(r"\s", "", plain(row)) in printed, row


def test_code_and_braces_of_a_writer_are_words(open_file: Open, tmp_path: Path) -> None:
    """`<script>`, event handlers and template braces stand on the page as they were written, and none runs."""
    nasty = (
        "<script>document.title='ran'</script> <img src=x onerror=alert(1)> {{ plan.title }} {% raw %} &amp; </style>"
    )
    folder = tmp_path / "nasty"
    shutil.copytree(ROOT / "booklet" / "starter", folder)
    for name in ("pattern.yaml", "20-pouch.yaml"):
        file = folder / name
        text = file.read_text(encoding="utf-8")
        for old in ("First Pouch", "Main fabric", "Plain pouch", "Sew the sides and the bottom\n", "Pouch\nsteps"):
            text = text.replace(old, f'"{nasty}"' if not old.endswith("\n") and "\n" not in old else old)
        text = text.replace("title: Thread the cord", f'title: "{nasty}"').replace(
            "Thread the cord through", f"{nasty} Thread the cord through"
        )
        file.write_text(text, encoding="utf-8")
    built = notchbook("build", folder, "--paper", "a4", "--into", tmp_path / "build", "--draft")
    assert built.returncode == 0, built.stderr
    page = open_file(tmp_path / "build" / "nasty" / "page" / "index.html")
    assert page.title() == nasty
    assert page.locator("script:not([type='application/ld+json'])").count() == 1
    assert page.locator("img").count() == 0
    words = seen(page, "h1, .bar-title, .views b, .step .name, .step p")
    assert sum(nasty in one for one in words) >= 4, words
