"""What a full build costs, as a ratio to the floor on the same content in one run.

The floor is the bare libraries doing what no site of this kind can do without:
PyYAML's C loader on every file, Markdown on every entry, one place of the sun for each
day, Jinja rendering as many pages of the same size, the same bytes written. Run from the repository:

    .venv/bin/python bench/build.py
"""

from __future__ import annotations

import json
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parent.parent
ROUNDS = 3


def full(garden: Path, site: Path) -> None:
    """Build the site as the command does."""
    from tallybed.tasks.build import build

    built = build(garden, site)
    if not built.good:
        raise SystemExit(f"{garden} does not build: see tallybed check")


def floor(garden: Path, site: Path) -> None:
    """Do the unavoidable with the bare libraries; ``site`` is a built site to equal in pages and bytes."""
    import ephem
    import jinja2
    import markdown
    import yaml

    for season in (garden / "content").glob("[12][0-9][0-9][0-9]"):
        for day in range(366):
            ephem.Sun(ephem.Date(f"{season.name}/1/1") + day).g_dec  # noqa: B018 - the library's bare call

    loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    for path in sorted((garden / "content").rglob("*.yaml")):
        yaml.load(path.read_text(encoding="utf-8"), Loader=loader)  # noqa: S506 - a safe loader
    for path in sorted((garden / "content").rglob("*.md")):
        _empty, header, prose = path.read_text(encoding="utf-8").split("---\n", 2)
        yaml.load(header, Loader=loader)  # noqa: S506 - a safe loader
        markdown.markdown(prose, extensions=["tables", "sane_lists"])
    template = jinja2.Environment(autoescape=True).from_string(
        "{% for line in lines %}{{ line|safe }}{% endfor %}"
    )
    with tempfile.TemporaryDirectory() as folder:
        for path in sorted(site.rglob("*")):
            if not path.is_file():
                continue
            target = Path(folder) / path.relative_to(site)
            target.parent.mkdir(parents=True, exist_ok=True)
            if path.suffix == ".html":
                lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
                target.write_text(template.render(lines=lines), encoding="utf-8", newline="")
            else:
                target.write_bytes(path.read_bytes())


def child(work: str, garden: str, site: str) -> None:
    """Do one kind of work in this fresh process and print seconds and peak memory."""
    jobs = {"full": full, "floor": floor}
    started = time.perf_counter()
    jobs[work](Path(garden), Path(site))
    seconds = time.perf_counter() - started
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(json.dumps({"seconds": seconds, "peak_mb": peak}))


def measured(work: str, garden: Path, site: Path) -> tuple[float, float]:
    """Return the best seconds and the largest peak memory in MB over some rounds."""
    results = []
    for _round in range(ROUNDS):
        done = subprocess.run(
            [sys.executable, __file__, work, str(garden), str(site)],
            capture_output=True,
            text=True,
            check=True,
        )
        results.append(json.loads(done.stdout.splitlines()[-1]))
    return min(one["seconds"] for one in results), max(one["peak_mb"] for one in results)


def main() -> None:
    """Print a row for the demonstration garden and one for a garden ten times its size."""
    sys.path.insert(0, str(Path(__file__).parent))
    from tenfold import tenfold

    heads = ("pages", "MB", "full s", "floor s", "ratio", "peak MB", "floor MB")
    print("garden      " + "".join(f"{head:>10}" for head in heads))
    with tempfile.TemporaryDirectory() as folder:
        large = Path(folder) / "large"
        tenfold(ROOT, large)
        for name, garden in (("demo", ROOT), ("ten times", large)):
            site = Path(folder) / f"site-{name.replace(' ', '-')}"
            full_seconds, full_peak = measured("full", garden, site)
            floor_seconds, floor_peak = measured("floor", garden, site)
            pages = sum(1 for _page in site.rglob("*.html"))
            size = sum(path.stat().st_size for path in site.rglob("*") if path.is_file()) / 1e6
            print(
                f"{name:<12}{pages:>10}{size:>10.1f}{full_seconds:>10.2f}{floor_seconds:>10.2f}"
                f"{full_seconds / floor_seconds:>10.1f}{full_peak:>10.0f}{floor_peak:>10.0f}"
            )


if __name__ == "__main__":
    if len(sys.argv) > 1:
        child(*sys.argv[1:])
    else:
        main()
