"""Takes the pictures of the README from real output: python tests/tools/pictures.py, after `make demo`.

Two pages of the tunic's booklet, its page on a phone, and what `check` says of the tote with a step in the wrong place.
"""

from __future__ import annotations

import html
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

ROOT = Path(__file__).parents[2]
PICTURES = ROOT / "steps" / "pictures"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
# The pages of the booklet that are shown, each by words that stand on it: the map of the garment, and the shoulders.
SHOWN = {
    "map": ("How the pieces come together",),
    "booklet": ("Shoulders and collar", "Sew the shoulders", "wrong sides"),
}


def booklet_pages() -> None:
    from pypdf import PdfReader

    pdf = ROOT / "build" / "saltmarsh-tunic" / "booklet-letter.pdf"
    pages = [" ".join(page.extract_text().split()) for page in PdfReader(pdf).pages]
    for name, words in SHOWN.items():
        number = next(at for at, text in enumerate(pages, 1) if all(word in text for word in words))
        options = ["-r", "90", "-f", str(number), "-l", str(number), "-png", "-singlefile"]
        subprocess.run(["pdftoppm", *options, str(pdf), str(PICTURES / name)], check=True)


def phone_page(browser: Browser) -> None:
    page = browser.new_page(viewport={"width": 390, "height": 800}, device_scale_factor=1.5)
    page.goto((ROOT / "build" / "saltmarsh-tunic" / "page" / "index.html").as_uri())
    page.check("input[name=view][value=B]", force=True)
    for number in (12, 13, 14):
        page.check(f"#step-{number} .tick input", force=True)
    page.evaluate("document.querySelector('#step-15').scrollIntoView()")
    page.screenshot(path=PICTURES / "page.png")


def finding(browser: Browser) -> None:
    with tempfile.TemporaryDirectory() as folder:
        broken = Path(folder) / "lantern-tote"
        shutil.copytree(ROOT / "steps" / "lantern-tote", broken)
        _misplace(broken)
        command = [sys.executable, "-m", "booklet.cli", "check", str(broken)]
        said = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, check=False).stdout
    page = browser.new_page(viewport={"width": 860, "height": 300}, device_scale_factor=1.5)
    text = html.escape(f"$ notchbook check steps/lantern-tote\n\n{said}")
    page.set_content(f"<pre style='font: 14px/1.5 monospace; padding: 16px; margin: 0; width: 828px'>{text}</pre>")
    page.locator("pre").screenshot(path=PICTURES / "finding.png")


def _misplace(folder: Path) -> None:
    """The handles are basted to the bag before they are made."""
    for file in sorted(folder.glob("*.yaml")):
        text = file.read_text(encoding="utf-8")
        blocks = text.split("\n  - id: ")
        ids = [block.split("\n", 1)[0].strip() for block in blocks]
        if "make the handles" in ids and "place the handles" in ids:
            first, second = ids.index("make the handles"), ids.index("place the handles")
            blocks[first], blocks[second] = blocks[second], blocks[first]
            file.write_text("\n  - id: ".join(blocks), encoding="utf-8")
            return
    raise SystemExit("The tote has no steps “make the handles” and “place the handles” any more: name two others here.")


def main() -> None:
    PICTURES.mkdir(exist_ok=True)
    booklet_pages()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
        phone_page(browser)
        finding(browser)


if __name__ == "__main__":
    main()
