"""Only what lies in a pattern's folder is opened, and what is an address is known for one."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.read.inside import inside, is_address


# Published: RFC 3986, section 1.1.2, its examples of URIs; section 4.2 for a reference that begins with two slashes.
@pytest.mark.parametrize(
    "written",
    [
        "ftp://ftp.is.co.za/rfc/rfc1808.txt",
        "http://www.ietf.org/rfc/rfc2396.txt",
        "ldap://[2001:db8::7]/c=GB?objectClass?one",
        "mailto:John.Doe@example.com",
        "news:comp.infosystems.www.servers.unix",
        "tel:+1-816-555-1212",
        "telnet://192.0.2.16:80/",
        "urn:oasis:names:specification:docbook:dtd:xml:4.1.2",
        "//example.com/collar.svg",
        "FILE:///etc/passwd",
    ],
)
def test_the_addresses_of_rfc_3986_are_addresses(written: str) -> None:
    assert is_address(written)
    assert is_address(f"  {written}")


@pytest.mark.parametrize("written", ["art/collar.svg", "front 1: old.svg", "C:\\art\\collar.svg", "1:2.svg", ":x", ""])
def test_the_name_of_a_file_is_no_address(written: str) -> None:
    assert not is_address(written)


def test_a_place_is_inside_or_it_is_none(tmp_path: Path) -> None:
    folder = tmp_path / "skirt"
    (folder / "art").mkdir(parents=True)
    (tmp_path / "skirts").mkdir()
    (folder / "out").symlink_to(tmp_path / "skirts")
    (folder / "in").symlink_to(folder / "art")
    (folder / "ring").symlink_to("ring")
    home = folder.resolve()
    assert inside(str(folder), "art/collar.svg") == str(home / "art" / "collar.svg")
    assert inside(str(folder), "in/collar.svg") == str(home / "art" / "collar.svg")
    assert inside(str(folder), "art/../art/x") == str(home / "art" / "x")
    for outside in ("../skirts/x", "../skirt.svg", "/etc/passwd", "out/x", "a\0b", "art/../../x"):
        assert inside(str(folder), outside) is None
    assert inside("/", "etc/passwd") == str(Path("/etc/passwd").resolve())
