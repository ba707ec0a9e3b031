"""Sheets of parts, patents and classes, read back."""

from decimal import Decimal
from html import unescape

import pytest
from django.utils.html import strip_tags

from catalog.models import Part
from catalog.operations.drawings import add_drawing_from_file
from catalog.operations.patents import add_character, add_figure, add_likeness
from catalog.operations.photos import add_photo
from catalog.printing.editions import Edition
from catalog.printing.papers import Paper
from catalog.printing.records import ROWS, record_sheet
from tests.factories import (
    AccessionFactory,
    CharacteristicFactory,
    ComponentFactory,
    IdentificationFactory,
    LocationFactory,
    MeasurementFactory,
    PartFactory,
    PartMarkFactory,
    PartyFactory,
    PatentFactory,
    PositionFactory,
    SpecificationFactory,
    VehicleClassFactory,
)
from tests.printing.reading import figures_of, fonts_of, in_order, read, text_of
from tests.samples import picture

pytestmark = pytest.mark.django_db


def sheet(kind, record, **chosen):
    edition = Edition("https://shed.example/record/", **chosen)
    return read(record_sheet(ROWS[kind].get(pk=record.pk), edition))


@pytest.fixture
def part(curator):
    component = ComponentFactory(name="door latch", definition="What holds the door.")
    accession = AccessionFactory(year=2026, serial=4, party=PartyFactory(name="Edith Harrow"))
    shelf = LocationFactory(name="Rack B")
    made = {"component": component, "identification_status": "proposed", "number": "2026.4.1"}
    part = PartFactory(accession=accession, location=shelf, remarks="do not tell", **made)
    IdentificationFactory(part=part, component=component, made_by=curator, reasons="the cam")
    PartMarkFactory(part=part, text="PAT'D ?UG 1? 190?", manner="cast")
    MeasurementFactory(
        part=part, name="plate length", text="9 1/16 in", value_mm=Decimal("230.1875")
    )
    return part


def test_part_sheet_gives_measurements_in_inches_and_millimeters(part):
    text = text_of(sheet("part", part))

    assert "9 1/16 in 9 1⁄16 in 230.19 ± 0.25 mm" in text


def test_part_sheet_says_what_speaks_for_the_age(part):
    text = text_of(sheet("part", part))

    assert "Made 10 August 1900 or later (patent marking “PAT'D ?UG 1? 190?”)." in text


def test_public_part_sheet_tells_no_donor_place_member_or_remark(part):
    members, public = sheet("part", part), sheet("part", part, for_visitor=True)

    private = ("2026.4 ", "Rack B", "cora", "the cam")
    assert [word for word in private if word not in text_of(members)] == []
    assert [word for word in (*private, "Edith", "do not tell") if word in text_of(public)] == []


def test_patent_sheet_lists_the_characters_of_its_figure(curator, part):
    patent = PatentFactory(country="XZ", number="4117", title="End door")
    figure = add_figure(patent, picture(), label="Fig. 1", title="the latch", by=curator)
    add_character(
        figure, character="14", at=(0.2, 0.3), words="hook", component=part.component, by=curator
    )
    add_likeness(figure, degree="differs", part=part, differences="Shuts by a cam.", by=curator)

    reader = sheet("patent", patent)

    text = text_of(reader)
    assert in_order(text, "14 hook door latch", "Differs: part 2026.4.1", "Shuts by a cam.") == [
        "14 hook door latch",
        "Differs: part 2026.4.1",
        "Shuts by a cam.",
    ]
    assert "Fig. 1 the latch; what is marked on it is listed below" in figures_of(reader)


def test_class_sheet_has_drawing_positions_and_limits_in_both_systems(curator):
    box = ComponentFactory(name="journal box")
    kind = VehicleClassFactory(designation="Class E")
    PositionFactory(vehicle_class=kind, component=box, code="L1", assembly="running gear")
    bore = CharacteristicFactory(component=box, name="bore")
    SpecificationFactory(
        vehicle_class=kind, characteristic=bore, lower_mm=Decimal("63.5"), upper_mm=None
    )
    add_drawing_from_file(kind, picture(), title="Side elevation", by=curator)

    reader = sheet("vehicle-class", kind, paper=Paper.LETTER)

    text = text_of(reader)
    assert in_order(
        text, "Side elevation", "Running gear", "L1 journal box yes", "2½ in 63.5 mm"
    ) == [
        "Side elevation",
        "Running gear",
        "L1 journal box yes",
        "2½ in 63.5 mm",
    ]
    assert all(fonts_of(reader).values())


@pytest.mark.parametrize("rows", [30, 36, 38])
def test_no_row_of_a_class_sheet_and_no_closing_note_has_a_page_for_itself(rows):
    kind, box = VehicleClassFactory(), ComponentFactory(name="journal box")
    for number in range(1, rows + 1):
        PositionFactory(vehicle_class=kind, component=box, code=f"L{number}")

    pages = [page.extract_text() for page in sheet("vehicle-class", kind).pages]

    codes = [page.count("journal box") for page in pages]
    assert (sum(codes), min(codes) > 1) == (rows, True)
    assert "judge by your local codes" in pages[-1]


@pytest.fixture
def figured_patent(curator):
    patent = PatentFactory()
    for number, color in enumerate(("teal", "brown", "olive"), 1):
        figure = add_figure(patent, picture(color), label=f"Fig. {number}", by=curator)
        for sign in range(1, 11):
            told = {"character": f"{sign}", "words": "hook", "at": (0.1, 0.09 * sign)}
            add_character(figure, **told, by=curator)
    return patent


@pytest.mark.parametrize("paper", Paper)
def test_each_figure_of_a_patent_stands_on_one_page_with_its_signs(figured_patent, paper):
    pages = [page.extract_text() for page in sheet("patent", figured_patent, paper=paper).pages]

    assert [page.count("hook") for page in pages] == [10, 10, 10]


@pytest.mark.parametrize("published", [True, False])
def test_public_class_sheet_shows_published_drawings_only(curator, published):
    kind = VehicleClassFactory(designation="Class E")
    drawing = add_drawing_from_file(kind, picture(), title="Side elevation", by=curator)
    type(drawing.picture).objects.update(is_published=published)

    text = text_of(sheet("vehicle-class", kind, for_visitor=True))

    assert ("Side elevation" in text) == published


def test_photo_of_which_the_file_is_lost_leaves_its_words(part, member):
    photo = add_photo(picture(), by=member, part=part, caption="front of the latch")
    type(photo).objects.update(sha256="f" * 64)

    assert "door latch: front of the latch" in text_of(sheet("part", part)).lower()


def test_visitors_read_the_same_of_a_part_on_the_page_and_on_paper(client, part):
    Part.objects.filter(pk=part.pk).update(is_published=True, usability="ready")

    paper = text_of(sheet("part", part, for_visitor=True))
    page = unescape(strip_tags(client.get(part.get_absolute_url()).content.decode()))

    said = ("proposed", "ready", "plate length", "9 1/16 in", "PAT'D ?UG 1? 190?")
    assert [words for words in said if words.lower() not in page.lower()] == []
    assert [words for words in said if words.lower() not in paper.lower()] == []
    assert [words for words in ("Edith Harrow", "Rack B", "the cam") if words in page + paper] == []
