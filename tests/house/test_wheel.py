"""The built wheel, installed into a new environment, runs the main job from another folder."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.mark.slow
def test_the_wheel_runs_the_main_job_elsewhere(tmp_path: Path) -> None:
    source = tmp_path / "source"
    source.mkdir()
    for name in ("rules", "interview"):
        shutil.copytree(ROOT / name, source / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md"):
        shutil.copy(ROOT / name, source / name)
    sample = sorted((ROOT / "sample_sessions").glob("*.toml"))[0]
    shutil.copy(sample, tmp_path / sample.name)
    pip = [sys.executable, "-m", "pip", "-q", "--disable-pip-version-check"]
    subprocess.run([*pip, "wheel", "--no-deps", "-w", str(tmp_path), str(source)], check=True, timeout=300)
    wheel = next(tmp_path.glob("turfpair-*.whl"))
    new = tmp_path / "new"
    venv.create(new, with_pip=False)
    python = new / "bin" / "python"
    # What the wheel needs is borrowed from here, so that the test asks no index; the wheel itself is not.
    site = next((new / "lib").glob("python*")) / "site-packages"
    subprocess.run([*pip, "install", "--no-deps", "--target", str(site), str(wheel)], check=True, timeout=300)
    borrowed = [p for p in sys.path if p.endswith("site-packages")]
    (site / "borrowed.pth").write_text("\n".join(borrowed) + "\n", encoding="utf-8")
    code = "from interview.commands.main import main; import sys; sys.exit(main(sys.argv[1:]))"
    done = subprocess.run(
        [str(python), "-c", code, "recommend", sample.name, "--json"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["schema"] == 1
    where = subprocess.run(
        [str(python), "-c", "import rules; print(rules.__file__)"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
    )
    assert str(site) in where.stdout
