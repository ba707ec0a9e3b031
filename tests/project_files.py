"""Find the project's own files, for the tests that read them instead of running them."""

from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
IGNORED = {".git", *((ROOT / ".gitignore").read_text().replace("/", "").split())}


def files(pattern="*", *, under="."):
    """Return the project's files below ``under``, without what git ignores."""
    tops = [top for top in (ROOT / under).iterdir() if top.name not in IGNORED]
    found = [path for top in tops for path in (top, *top.rglob("*")) if path.match(pattern)]
    return sorted(
        path
        for path in found
        if path.is_file() and IGNORED.isdisjoint(path.relative_to(ROOT).parts)
    )


def name(path):
    """Return the path as people write it, from the top of the project."""
    return path.relative_to(ROOT).as_posix()


def length(path):
    """Return the number of lines of a text file."""
    return len(path.read_text(encoding="utf-8").splitlines())
