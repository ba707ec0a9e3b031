"""Check that the documents speak of what is there: files, commands, examples and dependencies."""

import doctest
import re
import tomllib

from django.core.management import get_commands

from tests.project_files import ROOT, files, name

DOCUMENTS = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *files("*.md", under="docs")]
LINK = re.compile(r"\[[^\]]*\]\(([^)\s#]+)[^)]*\)")
CODE = re.compile(r"^```.*?^```|`[^`\n]+`", re.MULTILINE | re.DOTALL)
PYTHON = re.compile(r"^```python\n(.*?)^```", re.MULTILINE | re.DOTALL)


def python_blocks():
    for path in DOCUMENTS:
        text = path.read_text(encoding="utf-8")
        for block in PYTHON.finditer(text):
            yield f"{name(path)}:{text[: block.start()].count(chr(10)) + 2}", block.group(1)


def named_in_code(pattern):
    return {
        match.group(1)
        for path in DOCUMENTS
        for code in CODE.findall(path.read_text(encoding="utf-8"))
        for match in re.finditer(pattern, code)
    }


def test_links_and_pictures_lead_to_files():
    broken = [
        f"{name(path)}: {target}"
        for path in DOCUMENTS
        for target in LINK.findall(path.read_text(encoding="utf-8"))
        if "://" not in target and not target.startswith("mailto:")
        if not (path.parent / target).exists()
    ]

    assert broken == []


def test_pictures_say_what_they_show():
    silent = [name(path) for path in DOCUMENTS if "![](" in path.read_text(encoding="utf-8")]

    assert silent == []


def test_make_targets_in_the_documents_exist():
    targets = set(re.findall(r"^([a-z-]+):", (ROOT / "Makefile").read_text(), re.MULTILINE))

    assert named_in_code(r"\bmake ([a-z][a-z-]+)") - targets == set()


def test_management_commands_in_the_documents_exist():
    assert named_in_code(r"manage\.py ([a-z_]+)") - set(get_commands()) == set()


def test_python_examples_are_true():
    runner = doctest.DocTestRunner(verbose=False)
    examples = [
        doctest.DocTestParser().get_doctest(block, {}, place, place, 0)
        for place, block in python_blocks()
        if ">>>" in block
    ]

    assert [example.name for example in examples if runner.run(example).failed] == []


def test_python_recipes_can_be_read_by_python():
    recipes = {place: block for place, block in python_blocks() if ">>>" not in block}

    assert all(compile(block, place, "exec") for place, block in recipes.items())


def test_every_dependency_is_accounted_for():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    declared = [*project["dependencies"], *project["optional-dependencies"]["dev"]]
    text = (ROOT / "docs/development/dependencies.md").read_text(encoding="utf-8")

    accounted_for = re.findall(r"^\*\*([a-z-]+)\*\*", text, re.MULTILINE)

    assert sorted(accounted_for) == sorted(re.match(r"[a-z-]+", each).group() for each in declared)
