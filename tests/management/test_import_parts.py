"""Reading a list in from the command line."""

import io

import pytest
from django.core.management import CommandError, call_command

from catalog.models import ImportBatch, Part
from tests.factories import AccessionFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def pallet(tmp_path):
    file = tmp_path / "pallet.csv"
    file.write_text("Item,Qty\nring,2\nhinge,0\n")
    return file


def run(*options):
    out = io.StringIO()
    call_command("import_parts", *options, stdout=out)
    return out.getvalue().splitlines()


def test_import_parts_records_the_good_rows_and_tells_the_others(pallet, member):
    AccessionFactory(year=2026, serial=4)

    said = run(str(pallet), "--accession", "2026.4", "--by", "walt")

    assert said == [
        "Line 3: A part is at least one piece.",
        "1 good, 1 with problems.",
        "Recorded 1.",
    ]
    assert Part.objects.get().number == "2026.4.1"


def test_import_parts_again_records_nothing(pallet, member):
    run(str(pallet), "--by", "walt")

    said = run(str(pallet), "--by", "walt")

    assert said[1:] == ["1 with problems, 1 already here.", "Recorded 0."]


def test_import_parts_dry_run_leaves_nothing(pallet, member, tmp_path):
    problems = tmp_path / "problems.csv"

    said = run(str(pallet), "--by", "walt", "--dry-run", "--problems", str(problems))

    assert said[-1] == "Nothing is recorded: this was a dry run."
    assert problems.read_text("utf-8-sig").splitlines()[1].startswith("A part is at least")
    assert not ImportBatch.objects.exists()


@pytest.mark.parametrize(
    ("options", "sentence"),
    [
        (["--by", "nobody"], "No member “nobody” may record parts."),
        (
            ["--by", "walt", "--accession", "2026.9"],
            "There is no donation 2026.9. Record it first.",
        ),
        (["--by", "walt", "--accession", "pallet"], "is not an accession number"),
    ],
)
def test_import_parts_says_what_is_missing(pallet, member, options, sentence):
    with pytest.raises(CommandError, match=sentence):
        run(str(pallet), *options)


def test_import_parts_refuses_what_is_no_list(tmp_path, member):
    file = tmp_path / "photo.csv"
    file.write_bytes(b"\x89PNG\r\n")

    with pytest.raises(CommandError, match="is a picture, not a spreadsheet"):
        run(str(file), "--by", "walt")
