"""Files within their size that hold one thing without end: read or refused in time, and told short."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.proof.fuzz_kit import LONG, place_of_its_own, polite, ran

LARGE = 900_000
"""Characters of one text."""
MANY = LARGE if LONG else 250_000
"""Characters of many small things, which take longer to read."""
BEGIN = 'schema = 1\nid = "large"\n'
ITEMS = '"thin",' * (MANY // 8)
CLUB = '[[trial_clubs]]\nname = "demo"\nkind = "fairway"\nloft = "18 deg"\nlength = "42 in"\n'
SESSIONS = {
    "note": f'{BEGIN}note = "{"x " * (LARGE // 2)}"\n',
    "id": f'schema = 1\nid = "{"x" * LARGE}"\n',
    "schema": f"schema = 0x{'f' * LARGE}\n",
    "key": f'{BEGIN}"{"x" * LARGE}" = 1\n',
    "question": f'{BEGIN}[answers]\n"{"x" * LARGE}" = 1\n',
    "answer": f'{BEGIN}[answers]\ndriver_speed = "{"9" * LARGE} mph"\n',
    "blanks": f'{BEGIN}[answers]\ndriver_speed = "85{" " * LARGE}mph"\n',
    "digits": f"{BEGIN}[answers]\nhandicap = {'9' * 4200}\n",
    "hexadecimal": f"{BEGIN}[answers]\nhandicap = 0x{'f' * LARGE}\n",
    "voice": f"{BEGIN}voice = 0x{'f' * LARGE}\n",
    "list": f"{BEGIN}[answers]\ncontact = [{ITEMS}]\n",
    "skipped": f"{BEGIN}[record]\nskipped = [{ITEMS}]\n",
    "keys": BEGIN + "".join(f"a{n} = 1\n" for n in range(MANY // 11)),
    "questions": BEGIN + "[answers]\n" + "".join(f"a{n} = 1\n" for n in range(MANY // 11)),
    "shares": BEGIN + "[answers.lies]\n" + "".join(f"a{n} = 1\n" for n in range(MANY // 11)),
    "clubs": BEGIN + "".join(f'[[owned]]\nname = "a{n}"\nkind = "fairway"\n' for n in range(MANY // 43)),
    "balls": BEGIN + CLUB + '[[shots]]\nclub = "demo"\ntoe_mm = 1.0\n' * (MANY // 38),
    "overrides": BEGIN + "".join(f'[overrides."a{n}"]\nvalue = "1"\n' for n in range(MANY // 33)),
    "brackets": f"{BEGIN}x = {'[' * LARGE}",
    "tables": f"{BEGIN}x = {'{a=' * (LARGE // 3)}",
    "marks": f'{BEGIN}note = "{"e" + chr(0x301) * (LARGE // 2)}"\n',
    "escapes": f'{BEGIN}note = "{(chr(92) + "u001b") * (LARGE // 6)}"\n',
    "quotes": f'{BEGIN}note = """{chr(92) + chr(34)}{(chr(92) + chr(34)) * (LARGE // 2)}"""\n',
    "lines": BEGIN + "\n" * LARGE,
    "comment": f"{BEGIN}# {'x' * LARGE}\n",
    "digest": f'{BEGIN}[record]\nrules_digest = "{"x" * LARGE}"\n',
}
"""What a session may hold too much of."""
RULES = {
    "name": f'schema = 1\nscopes = ["one"]\ntopics = ["one"]\nname = "{"x" * LARGE}"\n',
    "scope": f'[[rule]]\nid = "x"\nscope = "{"x" * LARGE}"\n',
    "number": f"largest_cliff = 0x{'f' * LARGE}\n",
    "digits": f'[[rule]]\nid = "x"\neffect = {{ points = {"9" * 4200} }}\n',
    "keys": '[[rule]]\nid = "x"\n' + "".join(f"a{n} = 1\n" for n in range(MANY // 11)),
    "rules": "".join(f'[[rule]]\nid = "x{n}"\n' for n in range(MANY // 20)),
    "off": f"off = [{ITEMS}]\n",
    "nested": '[[rule]]\nid = "x"\n' + "when = " + "{ all = [" * 300 + "]}" * 300 + "\n",
}
"""What a rule file may hold too much of."""


@pytest.fixture
def own(tmp_path: Path) -> Iterator[Path]:
    with place_of_its_own(tmp_path) as folder:
        yield folder


@pytest.mark.parametrize("what", SESSIONS)
def test_a_session(own: Path, what: str) -> None:
    (own / "large.toml").write_text(SESSIONS[what])
    polite(ran(["recommend", "large.toml"]))
    listed = polite(ran(["sessions", "list", "--sessions", "."]), most=300)
    assert b"large" in listed.out


@pytest.mark.parametrize("what", RULES)
def test_a_rule_base(own: Path, what: str) -> None:
    (own / "laid").mkdir()
    (own / "laid" / "base.toml").write_text(RULES[what])
    assert polite(ran(["rules", "check", "laid"])).status == 2


@pytest.mark.parametrize("value", [f"0x{'f' * LARGE}", "9" * 4200, '"' + "x" * LARGE + '"', f"[{ITEMS}]"])
@pytest.mark.parametrize("key", ["count", "fits"])
def test_a_shop(own: Path, key: str, value: str) -> None:
    assert ran(["shop", "init", "shop"]).status == 0
    (own / "shop" / "pieces.toml").write_text(
        f'[[piece]]\nmass = "2 g"\n{key} = {value}\n'.replace('mass = "2 g"\nmass', "mass")
    )
    polite(ran(["shop", "check", "shop"]))
    (own / "clubs.toml").write_text(f"[[club]]\nhead = {value}\n")
    assert polite(ran(["calc", "calibrate", "clubs.toml"])).status == 2


@pytest.mark.parametrize("text", ["x", "=", "9", "[/b]", " ", "ñ", "=,", "\x1b[2J"])
def test_words_of_the_command_line(own: Path, text: str) -> None:
    long = text * (100_000 // len(text))
    for line in (
        ["recommend", long], ["whatif", long, long], [long], ["calc", "flight", "--spin", long],
        ["calc", "ports", "--need", "13 g", "--port", long], ["rules", "show", long],
        ["rules", "check", long], ["sessions", "find", long], ["sessions", "forget", long],
        ["sessions", "purge", "--older-than", long],
        ["ask", "--new", long], ["bay", f"--{long}"], ["shop", "check", long], ["kiosk", "--port", long],
    ):  # fmt: skip
        polite(ran(line), most=2500)
