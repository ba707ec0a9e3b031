"""Check that the style sheet is served as one file, whatever it is built from."""

import re
from pathlib import Path

import pytest
from django.contrib.staticfiles import finders
from django.contrib.staticfiles.storage import staticfiles_storage
from django.core.management import call_command

from catalog import staticfiles

BUDGET = 9 * 1024


def found():
    return {
        name: (storage, name)
        for finder in finders.get_finders()
        for name, storage in finder.list([])
    }


def test_joined_sheet_holds_every_imported_file():
    joined = staticfiles.joined_sheet(found())

    assert "@import" not in joined
    assert "/*" not in joined
    assert joined.startswith("@layer reset, tokens, base, layout, components, pages")
    assert "@layer components {\n.title-block {" in joined


def test_joined_sheet_is_balanced():
    joined = staticfiles.joined_sheet(found())

    assert joined.count("{") == joined.count("}")


def test_every_style_sheet_is_imported_once():
    sheet = Path(finders.find(staticfiles.SHEET)).read_text()

    imported = [f"css/{path}" for path, _ in staticfiles.IMPORT.findall(sheet)]

    present = {name for name in found() if name.startswith("css/")} - {staticfiles.SHEET}
    # Sheets of paper are laid out by the server and never sent to a browser.
    shown = {name for name in present if not name.startswith("css/paper/")}
    assert sorted(imported) == sorted(shown)


@pytest.fixture
def collected(settings, tmp_path):
    settings.STATIC_ROOT = tmp_path
    settings.STORAGES = {
        **settings.STORAGES,
        "staticfiles": {"BACKEND": "catalog.staticfiles.OneSheetStorage"},
    }
    call_command("collectstatic", interactive=False, verbosity=0)
    return tmp_path


def test_collectstatic_serves_one_sheet_within_its_budget(collected):
    served = collected / staticfiles_storage.stored_name(staticfiles.SHEET)

    assert served.read_text() == staticfiles.joined_sheet(found())
    assert served.with_suffix(".css.gz").stat().st_size <= BUDGET


def test_collectstatic_names_imported_scripts_by_their_digest(collected):
    script = (collected / staticfiles_storage.stored_name("js/site.js")).read_text()

    imported = re.findall(r'import\("\./(.+?)"\)', script)

    folder = collected / "js"
    stored = {f"{path.relative_to(folder)}" for path in folder.rglob("*.????????????.js")}
    assert imported
    assert set(imported) <= stored
