"""The type of the pages: inside each, so that one file is enough."""

from __future__ import annotations

import base64
from functools import cache
from hashlib import sha256

from booklet.styles_folder import styles_folder

# The faces that a page needs: weight, style, file.
_FACES = ((400, "normal", "Regular"), (400, "italic", "It"), (600, "normal", "Semibold"))


@cache
def faces() -> str:
    rules = []
    for weight, style, name in _FACES:
        data = base64.b64encode((styles_folder() / "fonts" / f"SourceSans3-{name}.ttf.woff2").read_bytes()).decode()
        rules.append(
            f'@font-face {{ font-family: "Source Sans 3"; font-weight: {weight}; font-style: {style}; '
            f"src: url(data:font/woff2;base64,{data}) format('woff2'); }}\n"
        )
    return "".join(rules)


def style_sheet(name: str) -> str:
    """Of styles/, with the type."""
    return faces() + (styles_folder() / name).read_text(encoding="utf-8")


def script_hash(script: str) -> str:
    """For the page's own Content-Security-Policy: only this script may run."""
    return base64.b64encode(sha256(script.encode()).digest()).decode()
