"""Who is let in: our own page by its right name, and nothing else, whatever is asked for."""

from __future__ import annotations

import re
from typing import Any

import pytest

from interview.views.kiosk.words import page_phrases
from interview.web.doors import Doors, Place, place
from interview.web.problems import WebProblem

AT = Place("127.0.0.1", 8460)
FOREIGN = (
    "evil.example", "evil.example:8460", "127.0.0.1", "127.0.0.1:80", "127.0.0.1:8460.evil.example",
    "localhost:8460@evil.example", "127.0.0.2:8460", "[::1]:8460", "", " 127.0.0.1:8460", "0.0.0.0:8460",
    "127.1:8460", "2130706433:8460",
)  # fmt: skip
"""Names under which a page of another site could come to lead here."""
PATHS = (
    "/index.html", "/page", "/page/", "/../page.js", "/..%2f..%2fpyproject.toml", "//page.js", "/page.js/..",
    "/page.js?x", "/static/", "/favicon.ico", "/doors.py", "/state/turfpair/kiosk/pin.json", "/talk/",
    "/TALK", "/%00", "*", "http://evil.example/",
)  # fmt: skip


@pytest.fixture(scope="module")
def doors() -> Doors:
    return Doors(AT, page_phrases())


@pytest.mark.parametrize("host", FOREIGN)
def test_a_foreign_name_is_turned_away(doors: Doors, host: str) -> None:
    for path in ("/", "/talk", "/page.js"):
        answer = doors.answer(path, [host])
        assert answer is not None
        assert answer.status == 421
        assert b"<" not in answer.body


def test_no_name_or_two_are_turned_away(doors: Doors) -> None:
    for hosts in ([], ["127.0.0.1:8460", "evil.example"]):
        answer = doors.answer("/", hosts)
        assert answer is not None
        assert answer.status == 421


@pytest.mark.parametrize("path", PATHS)
def test_nothing_but_the_page_can_be_fetched(doors: Doors, path: str) -> None:
    answer = doors.answer(path, ["localhost:8460"])
    assert answer is not None
    assert answer.status == 404


def test_the_page_names_nothing_outside_and_is_told_to_load_nothing_from_there(doors: Doors) -> None:
    for path in ("/", "/page.css", "/page.js"):
        answer = doors.answer(path, ["LOCALHOST:8460"])
        assert answer is not None
        assert answer.status == 200
        said = answer.body.decode()
        assert not re.search(r"https?://|@import|url\(|//\w+\.", said), path
        assert not re.search(
            r"localStorage|sessionStorage|cookie|indexedDB|window\.open|eval\(|innerHTML", said
        )
        policy = answer.headers["Content-Security-Policy"]
        assert policy.startswith("default-src 'none'")
        assert "frame-ancestors 'none'" in policy
        assert "unsafe" not in policy
        assert set(re.findall(r"\w+://[^; ]+", policy)) == {"ws://127.0.0.1:8460", "ws://localhost:8460"}
        assert answer.headers["Cache-Control"] == "no-store"


def test_what_the_page_says_comes_from_the_wording(doors: Doors) -> None:
    answer = doors.answer("/", ["127.0.0.1:8460"])
    assert answer is not None
    said = answer.body.decode()
    assert page_phrases()["closed"] in said
    assert not re.findall(r"\{\w+\}", said)


def test_a_phrase_is_text_never_markup() -> None:
    said = Doors(AT, {"closed": "<script>x</script>"}).answer("/", ["127.0.0.1:8460"])
    assert said is not None
    assert b"<script>x" not in said.body


@pytest.mark.parametrize(
    ("host", "named"), [("localhost", "127.0.0.1"), ("::1", "::1"), ("127.0.0.1", "127.0.0.1")]
)
def test_this_machine_alone_may_be_named_freely(host: str, named: str) -> None:
    at = place(host, 8460)
    assert at.host == named
    assert "localhost:8460" in at.authorities
    assert at.address.startswith(f"http://{named}:" if ":" not in named else f"http://[{named}]:")


def test_an_address_that_others_reach_wants_to_be_meant() -> None:
    with pytest.raises(WebProblem, match="--network"):
        place("192.168.1.20", 8460)
    at = place("192.168.1.20", 8460, network=True)
    assert at.authorities == {"192.168.1.20:8460"}
    assert at.origins == {"http://192.168.1.20:8460"}


@pytest.mark.parametrize(
    "host", ["0.0.0.0", "::", "kiosk.example", "", "224.0.0.1", "127.0.0.1:80", "\x1b[2J"]
)
def test_what_is_not_one_address_is_refused_even_if_meant(host: str) -> None:
    with pytest.raises(WebProblem, match="one address"):
        place(host, 8460, network=True)


def test_the_colours_are_those_of_the_terminal(doors: Doors) -> None:
    from interview.screens.kit.themes import SUN

    answer: Any = doors.answer("/page.css", ["127.0.0.1:8460"])
    css = answer.body.decode()
    wanted = {
        "paper": SUN.background, "ink": SUN.foreground, "green": SUN.primary, "dim": SUN.variables["ink-dim"],
        "line": SUN.variables["ink-line"], "key": SUN.variables["ink-key"], "mark": SUN.variables["ink-mark"],
        "alert": SUN.variables["ink-alert"], "against": SUN.variables["ink-against"],
    }  # fmt: skip
    for name, colour in wanted.items():
        assert f"--{name}: {colour};" in css, name
