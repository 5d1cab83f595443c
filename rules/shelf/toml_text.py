from __future__ import annotations
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from rules.problems import Problem

Path_ = tuple[str | int, ...]


class FileProblem(Problem):
    pass


@dataclass
class Document:
    data: dict[str, Any]
    text: str

    def position(self, path: Path_) -> tuple[int, int]:
        lines = self.text.splitlines()
        at = 0
        seen = -1
        for step, nxt in zip(path, path[1:] + ("",)):
            if isinstance(step, int):
                continue
            if isinstance(nxt, int):
                for n in range(at, len(lines)):
                    if lines[n].strip() == f"[[{step}]]":
                        seen += 1
                        if seen == nxt:
                            at = n
                            break
            else:
                for n in range(at, len(lines)):
                    if lines[n].strip() == f"[{step}]" or lines[n].split("=")[0].strip() == step:
                        at = n
                        break
        return at + 1, 1


def read_toml(path: Path) -> Document:
    try:
        text = path.read_text()
        return Document(tomllib.loads(text), text)
    except (OSError, ValueError) as p:
        raise FileProblem(f"{path}: {p}") from None
