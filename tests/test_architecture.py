"""Check that the house is built as DEVELOPERS.md draws it: layers, sizes, and what may lie where."""

import ast
import re

import pytest

from tests.project_files import IGNORED, ROOT, files, length, name

RANKS = {
    "reckoning": 0,
    "models": 1,
    "queries": 2,
    "operations": 3,
    "forms": 4,
    "filters": 4,
    "templatetags": 5,
    "printing": 5,
    "exchange": 5,
    "views": 6,
    "management": 6,
    "urls": 7,
}
TOP_LEVEL = {
    ".ci",
    ".gitignore",
    "DEVELOPERS.md",
    "LICENSE",
    "Makefile",
    "README.md",
    "catalog",
    "docs",
    "fixtures",
    "manage.py",
    "pyproject.toml",
    "requirements-dev.txt",
    "requirements.txt",
    "restoration",
    "static",
    "templates",
    "tests",
}
LIMITS = [
    ("*.py", "catalog", 300),
    ("*.py", "restoration", 300),
    ("*.py", "tests", 300),
    ("*.html", "templates", 120),
    ("*.css", "static", 200),
    ("*.js", "static", 79),
]
# Spelled with brackets, so that the patterns do not find themselves.
UNFINISHED = re.compile(r"\bTO[D]O\b|\bFIX[M]E\b|\bpytest\.(mark\.)?(ski[p]|xfai[l])")
INDEX_ADDRESS = re.compile(r"https?://\S*(py[p]i|pythonhos[t]ed|npm[j]s|/simpl[e]\b)")
INLINE_CODE = re.compile(r"<[^>]*\s(style|on[a-z]+)=|<script>|<style>")


def sources(under="catalog"):
    return [path for path in files("*.py", under=under) if "migrations" not in path.parts]


def imports(path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield from (f"{'.' * node.level}{node.module}.{alias.name}" for alias in node.names)


def rank(dotted_name):
    """Return the height of a module; what is in no layer is for the forms and all above them."""
    return RANKS.get(dotted_name.split(".")[1], RANKS["forms"])


def upward_imports(path):
    own = rank(name(path).removesuffix(".py").replace("/", "."))
    for imported in imports(path):
        if imported.startswith("catalog.") and rank(imported) > own:
            yield f"{name(path)} imports {imported}"


def test_layers_import_only_from_those_below_them():
    layered = [path for path in sources() if path.parent.name != "catalog"]

    assert [problem for path in layered for problem in upward_imports(path)] == []


def test_reckoning_knows_no_django():
    foreign = [
        f"{name(path)} imports {imported}"
        for path in sources("catalog/reckoning")
        for imported in imports(path)
        if imported.split(".")[0] in {"django", "restoration"}
    ]

    assert foreign == []


def test_imports_are_absolute():
    relative = [
        f"{name(path)} imports {imported}"
        for top in ("catalog", "restoration", "tests")
        for path in files("*.py", under=top)
        for imported in imports(path)
        if imported.startswith(".")
    ]

    assert relative == []


@pytest.mark.parametrize(("pattern", "under", "limit"), LIMITS)
def test_files_stay_short(pattern, under, limit):
    found = [path for path in files(pattern, under=under) if "migrations" not in path.parts]

    assert {name(path): length(path) for path in found if length(path) > limit} == {}


def test_tests_stay_short():
    long = {
        f"{name(path)}::{node.name}": node.end_lineno - node.lineno + 1
        for path in files("test_*.py", under="tests")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_")
        if node.end_lineno - node.lineno >= 25
    }

    assert long == {}


def test_every_module_says_what_it_is_for():
    silent = [
        name(path)
        for top in ("catalog", "restoration", "tests")
        for path in sources(top)
        if path.stat().st_size
        and not ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
    ]

    assert silent == []


@pytest.mark.parametrize("pattern", [UNFINISHED, INDEX_ADDRESS])
def test_no_file_holds_what_is_unfinished_or_ties_it_to_one_package_index(pattern):
    found = [
        f"{name(path)}: {match.group()}"
        for path in files()
        for match in pattern.finditer(path.read_text(encoding="utf-8", errors="ignore"))
    ]

    assert found == []


def test_templates_carry_no_inline_style_or_script():
    found = [
        f"{name(path)}: {match.group()}"
        for path in files("*.html", under="templates")
        for match in INLINE_CODE.finditer(path.read_text(encoding="utf-8"))
    ]

    assert found == []


def test_top_level_holds_only_what_belongs_there():
    assert {path.name for path in ROOT.iterdir()} - IGNORED <= TOP_LEVEL
