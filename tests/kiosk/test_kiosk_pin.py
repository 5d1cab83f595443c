"""The staff's PIN: never kept as it is, tried seldom and slowly, and no restart forgives a try."""

from __future__ import annotations

import json
import stat
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from interview.kiosk.clock import Clock
from interview.kiosk.gate import Gate, wait_after
from interview.kiosk.pin import HashedPin, PinFile, PinProblem, fault_of

PIN = "918273"
BAD = ("", "12345", "1234567890123", "12345a", "１２３４５６", "111111", "121212", "123456", "987654")


def test_a_pin_is_kept_as_a_salted_hash_that_its_owner_alone_reads(tmp_path: Path) -> None:
    one, other = PinFile(tmp_path / "a"), PinFile(tmp_path / "b")
    one.set(PIN)
    other.set(PIN)
    held = one.path.read_text()
    assert PIN not in held
    assert json.loads(held)["hash"] != json.loads(other.path.read_text())["hash"], "each has its own salt"
    assert stat.S_IMODE(one.path.stat().st_mode) == 0o600
    assert [p.name for p in one.path.parent.iterdir()] == ["pin.json"]


def test_only_the_pin_itself_fits() -> None:
    hashed = HashedPin.of(PIN)
    assert hashed.fits(PIN)
    assert not any(hashed.fits(other) for other in ("", "918274", "0918273", "91827", "9182730"))


@pytest.mark.parametrize(
    "pin", ["", "12345", "1234567890123", "12345a", "１２３４５６", "111111", "121212", "123456", "987654"]
)
def test_a_pin_that_is_no_protection_is_refused(pin: str) -> None:
    assert fault_of(pin)
    with pytest.raises(PinProblem):
        HashedPin.of(pin)


def test_a_damaged_file_is_told_in_one_sentence(pin_file: PinFile) -> None:
    endless = pin_file.path.read_text().replace('"tries": 0', '"tries": Infinity')
    assert "Infinity" in endless
    for text in (
        "", "{}", "[]", "nonsense", '{"salt": "AAAA", "hash": "AAAA", "tries": 0, "until": 0}', endless,
        "[" * 100_000,
    ):  # fmt: skip
        pin_file.path.write_text(text)
        with pytest.raises(PinProblem, match="set-pin"):
            pin_file.read()


def test_every_wrong_try_makes_the_next_wait_longer(pin_file: PinFile, clock: Clock, hands: Any) -> None:
    gate = Gate(pin_file, clock)
    assert [wait_after(tries) for tries in range(8)] == [0, 0, 0, 4, 8, 16, 900, 900]
    assert [gate.tried("000000").kind for _ in range(3)] == ["wrong"] * 3
    assert gate.tried(PIN) == ("wait", 4), "too soon: not even the right one is looked at"


def test_waiting_it_out_lets_the_right_one_in(
    pin_file: PinFile, clock: Clock, pass_time: Callable[[float], None]
) -> None:
    gate = Gate(pin_file, clock)
    for _ in range(3):
        gate.tried("000000")
    pass_time(3.9)
    assert gate.tried(PIN).kind == "wait"
    pass_time(0.2)
    assert gate.tried(PIN).kind == "open"
    assert gate.tried("000000").seconds == 0, "the count begins anew"


def test_a_restart_forgives_nothing(pin_file: PinFile, clock: Clock) -> None:
    for _ in range(3):
        Gate(pin_file, clock).tried("000000")
    assert Gate(pin_file, clock).tried(PIN).kind == "wait"


def test_a_guesser_gets_few_tries_in_an_hour(
    pin_file: PinFile, clock: Clock, pass_time: Callable[[float], None]
) -> None:
    gate, looked_at = Gate(pin_file, clock), 0
    for _ in range(3600):
        looked_at += gate.tried("000000").kind == "wrong"
        pass_time(1.0)
    assert looked_at <= 10, "of a million PINs"


def test_a_clock_set_back_locks_nobody_out_for_longer_than_the_longest_wait(
    pin_file: PinFile, clock: Clock, pass_time: Callable[[float], None]
) -> None:
    gate = Gate(pin_file, clock)
    for _ in range(3):
        gate.tried("000000")
    pass_time(-30 * 86400.0)
    assert gate.waiting <= 900


def test_a_full_disk_neither_opens_the_gate_nor_breaks_it(
    pin_file: PinFile, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(self: PinFile, tries: int, until: float) -> None:
        raise OSError(28, "No space left on device")

    gate = Gate(pin_file, clock)
    monkeypatch.setattr(PinFile, "note", full)
    assert [gate.tried("000000").kind for _ in range(4)] == ["wrong", "wrong", "wrong", "wait"]


def test_kiosks_that_share_a_pin_share_its_tries(pin_file: PinFile, clock: Clock) -> None:
    gates = [Gate(pin_file, clock) for _ in range(6)]
    assert [gate.tried("000000").kind for gate in gates] == ["wrong"] * 3 + ["wait"] * 3
    assert gates[0].tried(PIN).kind == "wait", "whoever was opened before the tries waits too"


def test_tries_at_once_are_taken_one_after_another(
    pin_file: PinFile, clock: Clock, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("interview.kiosk.pin._LOCKED_FOR", 0.05)
    with pin_file.alone():
        assert Gate(pin_file, clock).tried(PIN) == ("wait", 1)
    assert Gate(pin_file, clock).tried(PIN).kind == "open"
