"""The wheel is whole: what `pip install` gives works far from any checkout."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import sysconfig
import venv
import zipfile
from collections.abc import Sequence
from email.parser import Parser
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent


# One worker builds the wheel for all of these.
pytestmark = pytest.mark.xdist_group("package")


def run(command: Sequence[str | Path], folder: Path) -> subprocess.CompletedProcess[str]:
    """As a user's shell would run it: nothing of this checkout on the path."""
    environment = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    return subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, check=False)


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel of this checkout, built with the locked backend so that nothing is fetched."""
    folder = tmp_path_factory.mktemp("wheel")
    options = ["--quiet", "--no-deps", "--no-build-isolation", "--no-index", "--wheel-dir", str(folder)]
    built = run([sys.executable, "-m", "pip", "wheel", *options, ROOT], folder)
    assert built.returncode == 0, built.stderr
    (found,) = folder.glob("*.whl")
    return found


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel alone in a fresh venv; its dependencies are lent by the venv that runs the tests. Gives its `bin`."""
    folder = tmp_path_factory.mktemp("installed")
    venv.create(folder / "venv", with_pip=False)
    paths = sysconfig.get_paths("venv", vars={"base": str(folder / "venv"), "platbase": str(folder / "venv")})
    python = Path(paths["scripts"]) / "python"
    options = ["--quiet", "--no-deps", "--no-index"]
    done = run([sys.executable, "-m", "pip", "--python", python, "install", *options, wheel], folder)
    assert done.returncode == 0, done.stderr
    # A plain path line, whose own .pth files (the editable checkout's) are not read.
    lent = Path(paths["purelib"]) / "lent.pth"
    lent.write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    return Path(paths["scripts"])


def packed_files(source: str, target: str) -> set[str]:
    """The files under a folder of the checkout, under the names they must have in the wheel."""
    folder = ROOT / source
    files = (path.relative_to(folder) for path in folder.rglob("*") if path.is_file())
    return {f"{target}/{path.as_posix()}" for path in files if "__pycache__" not in path.parts}


def test_the_wheel_has_all_data_of_the_package(wheel: Path) -> None:
    """Whatever stands in booklet/ and styles/ of the checkout is in the wheel, in its place, and nothing else."""
    packed = {name for name in zipfile.ZipFile(wheel).namelist() if ".dist-info/" not in name}
    assert packed == packed_files("booklet", "booklet") | packed_files("styles", "booklet/styles")


def test_the_wheel_carries_the_licences(wheel: Path) -> None:
    """The code's licence and the type's own travel with the files that they are for."""
    names = zipfile.ZipFile(wheel).namelist()
    assert any(name.endswith(".dist-info/licenses/LICENSE") for name in names)
    assert any(name.startswith("booklet/styles/") and "OFL" in name for name in names)


def test_the_wheel_says_what_it_needs(wheel: Path) -> None:
    """The metadata names the interpreter, the command and the libraries, and no library of the tests without asking."""
    archive = zipfile.ZipFile(wheel)
    (metadata_name,) = (name for name in archive.namelist() if name.endswith("METADATA"))
    metadata = Parser().parsestr(archive.read(metadata_name).decode())
    lines = [line for line in metadata.get_all("Requires-Dist", []) if "extra ==" not in line]
    needs = {re.split("[<>=!~ ;]", line)[0].lower() for line in lines}
    assert metadata["Requires-Python"] == ">=3.11"
    assert needs == {
        "ezdxf",
        "fonttools",
        "jinja2",
        "markdown-it-py",
        "numpy",
        "pyyaml",
        "shapely",
        "svgwrite",
        "weasyprint",
        "webvtt-py",
    }


def test_the_installed_program_is_not_the_checkout(installed: Path, tmp_path: Path) -> None:
    """Guards the tests below: the booklet package they run is the one from the wheel."""
    where = run([installed / "python", "-c", "import booklet; print(booklet.__file__)"], tmp_path).stdout
    assert Path(where.strip()).is_relative_to(installed.parent)


def test_the_installed_program_finds_its_styles_and_type(installed: Path, tmp_path: Path) -> None:
    """Style sheets and fonts are read from inside the package."""
    code = "from booklet.styles_folder import styles_folder; print(styles_folder())"
    folder = Path(run([installed / "python", "-c", code], tmp_path).stdout.strip())
    assert folder.is_relative_to(installed.parent)
    assert list(folder.glob("*.css"))
    assert list(folder.rglob("*.ttf"))


def test_the_installed_command_prints_a_schema(installed: Path, tmp_path: Path) -> None:
    """`notchbook schema` works outside of the checkout."""
    printed = run([installed / "notchbook", "schema"], tmp_path)
    assert (printed.returncode, printed.stderr) == (0, "")
    assert '"$schema"' in printed.stdout


def test_the_installed_command_explains_every_rule(installed: Path, tmp_path: Path) -> None:
    """Rules are found by looking into the package, so the wheel must hold all of them."""
    rules = {path.stem.replace("_", "-") for path in (ROOT / "booklet" / "check" / "rules").rglob("[!_]*.py")}
    listed = run([installed / "notchbook", "explain"], tmp_path)
    assert (listed.returncode, listed.stderr) == (0, "")
    assert rules
    assert rules <= set(listed.stdout.split())
    page = run([installed / "notchbook", "explain", min(rules)], tmp_path)
    assert (page.returncode, page.stderr) == (0, "")
    assert min(rules) in page.stdout


def test_the_installed_command_starts_checks_and_builds(installed: Path, tmp_path: Path) -> None:
    """From an empty folder to a booklet with nothing but the wheel: it has starter, templates, styles and type."""
    for arguments in (["start", "first"], ["check", "first"], ["build", "first", "--paper", "a4"]):
        done = run([installed / "notchbook", *arguments], tmp_path)
        assert done.returncode == 0, done.stdout + done.stderr
    assert (tmp_path / "build" / "first" / "booklet-a4.pdf").read_bytes().startswith(b"%PDF-")
