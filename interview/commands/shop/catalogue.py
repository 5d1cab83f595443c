"""A shop's own catalogue, begun from the demo shop and looked over."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path

from interview.text import counted, one_line
from rules.shelf import Shelf, ShelfFaults, catalogue_folder, load_shelf
from rules.shelf.audit import Finding, audit


def init(args: Namespace) -> int:
    """Begin a shop's own catalogue."""
    from rules.shelf.start import start_shop

    folder: Path = args.folder
    for file in start_shop(folder):
        print(one_line(f"wrote {file}", 300))
    print("Put your own stock in these files, then look them over:")
    print(one_line(f"  turfpair shop check {folder}", 300))
    print("Use them with --catalogue, or set TURFPAIR_CATALOGUE to the folder.")
    return 0


def check(args: Namespace) -> int:
    """Read and audit a catalogue; every fault and finding gets a line."""
    try:
        shelf = load_shelf(catalogue_folder(args.folder or args.catalogue))
    except ShelfFaults as faults:
        _say("wrong", [str(fault) for fault in faults.faults])
        print(f"{_things(len(faults.faults))} wrong; nothing can be built from this catalogue until mended.")
        return 1
    findings = audit(shelf)
    print(_summary(shelf))
    if shelf.shop.calibration.learned_from:
        print(one_line(f"Its sums are calibrated by: {shelf.shop.calibration.learned_from}", 400))
    for level in ("wrong", "note"):
        _say(level, [str(finding) for finding in findings if finding.level == level])
    return _verdict(findings)


def _verdict(findings: Sequence[Finding]) -> int:
    """Say whether the catalogue can be used."""
    wrong = sum(finding.level == "wrong" for finding in findings)
    if wrong:
        print(f"{_things(wrong)} wrong.")
        return 1
    print("The catalogue is in order.")
    return 0


def _things(number: int) -> str:
    """Count things, with the verb."""
    return "1 thing is" if number == 1 else f"{number} things are"


def _say(level: str, lines: Sequence[str]) -> None:
    """Print findings, a line each."""
    for line in lines:
        print(f"{level + ':':<7}{one_line(line, 400)}")


def _summary(shelf: Shelf) -> str:
    """Say what is on the shelf, in one line."""
    right = sum(head.hand == "right" for head in shelf.heads)
    heads, shafts, grips = (len(parts) for parts in (shelf.heads, shelf.shafts, shelf.grips))
    masses = "1 mass" if len(shelf.pieces) == 1 else f"{len(shelf.pieces)} masses"
    return one_line(
        f"{shelf.shop.name}, {shelf.folder}: {counted(heads, 'head')} ({right} right-hand,"
        f" {heads - right} left-hand), {counted(shafts, 'shaft')}, {counted(grips, 'grip')},"
        f" {masses} of piece",
        400,
    )
