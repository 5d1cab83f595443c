"""Why the kiosk cannot be served is one sentence that says what to do, whatever the system calls it."""

from __future__ import annotations

import errno

import pytest

from interview.web.problems import WebProblem


@pytest.mark.parametrize(
    ("number", "says"),
    [
        (errno.EADDRINUSE, "another program already uses port 80; choose another with --port"),
        (errno.EACCES, "this account may not use port 80; choose one above 1023"),
        (errno.EPERM, "this account may not use port 80; choose one above 1023"),
        (errno.EADDRNOTAVAIL, "this machine has no address 10.0.0.9; name one that it has with --host"),
        (errno.ENOBUFS, "port 80 of 10.0.0.9 cannot be used: no room left"),
    ],
)
def test_what_the_system_refuses_is_told_in_words(number: int, says: str) -> None:
    said = str(WebProblem.cannot_listen("10.0.0.9", 80, OSError(number, "No room left")))
    assert says in said
    assert "\n" not in said


def test_an_address_is_told_back_on_one_line() -> None:
    said = str(WebProblem.not_an_address("here\nand there"))
    assert "--host wants one address of this machine" in said
    assert "\n" not in said
