"""Nothing stands in the house that nobody asks for: no function, no field, no sentence."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.house.house_members import idle_members, unread_sentences
from tests.house.house_reach import Module, idle, modules

FOR_READERS = "interview.views.contract"
"""The schema of what `recommend --json` prints, for other programs to read."""
BY_ITS_MARK = ("rules", "DISTRIBUTION")
"""The mark by which the command knows the package for its own, asked of whatever is installed as `rules`."""


@pytest.fixture(scope="module")
def product() -> dict[str, Module]:
    return modules()


def test_every_function_and_constant_is_reached_from_a_command(product: dict[str, Module]) -> None:
    left = [node for node in idle(product) if node[0] != FOR_READERS and node != BY_ITS_MARK]
    assert left == [], "nothing in the product calls these: use them, or take them out with their tests"


def test_every_member_of_a_class_is_asked_for(product: dict[str, Module]) -> None:
    left = [one for one in idle_members(product) if not one.startswith(FOR_READERS)]
    assert left == [], "nothing in the product reads these: use them, or take them out with their tests"


def test_every_sentence_of_the_wording_is_said(product: dict[str, Module]) -> None:
    assert unread_sentences(product) == []


def test_what_nobody_calls_is_found(product: dict[str, Module], tmp_path: Path) -> None:
    stray = tmp_path / "stray.py"
    stray.write_text(
        "from rules.units import parse as read\n"
        "class Kept:\n    def used(self): ...\n    def never_asked_for(self): ...\n"
        "def idle_one():\n    return idle_two(read)\n"
        "def idle_two(of):\n    return Kept().used()\n",
        encoding="utf-8",
    )
    with_it = {**product, "rules.stray": Module("rules.stray", stray)}
    assert {name for module, name in idle(with_it) if module == "rules.stray"} == {
        "Kept", "idle_one", "idle_two"
    }  # fmt: skip
    caller = with_it["rules.units"]
    caller.imports["idle_one"] = ("rules.stray", "idle_one")
    caller.made["parse"] += ast.parse("idle_one()").body
    assert not [name for module, name in idle(with_it) if module == "rules.stray"]
