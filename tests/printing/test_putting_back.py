"""The sheet to put a vehicle together by, read back."""

from io import BytesIO

import pytest
from pypdf import PdfReader

from catalog.models import Hazard
from catalog.operations.photos import add_photo
from catalog.printing.papers import Paper
from catalog.printing.putting_back import putting_back_sheet
from catalog.queries.dismantling import dismantling_of
from tests.factories import LONG_AGO, PartFactory, RemovalFactory, VehicleFactory
from tests.printing.reading import figures_of, in_order, text_of
from tests.samples import picture

pytestmark = pytest.mark.django_db
ADDRESS = "https://shed.example/vehicles/kestrel/dismantling/"


def sheet_of(vehicle, paper=Paper.A4):
    pdf = putting_back_sheet(vehicle, dismantling_of(vehicle), address=ADDRESS, paper=paper)
    return PdfReader(BytesIO(pdf))


@pytest.fixture
def engine():
    vehicle = VehicleFactory(label="Kestrel")
    first = PartFactory(number="2011.1.47")
    first.hazards.set([Hazard.objects.get(slug="stored-energy")])
    RemovalFactory(vehicle=vehicle, part=first, sequence=1, fastenings="two collars")
    last = PartFactory(number="2011.1.50")
    RemovalFactory(vehicle=vehicle, part=last, sequence=2, orientation="long arm down")
    RemovalFactory(
        vehicle=vehicle, part=PartFactory(number="2011.1.9"), sequence=3, put_back_at=LONG_AGO
    )
    return vehicle


def test_what_came_off_last_stands_first_with_how_it_sat(engine):
    text = text_of(sheet_of(engine))

    said = ["Kestrel", "2011.1.50", "long arm down", "2011.1.47", "two collars"]
    assert in_order(text, *said) == said
    assert "2011.1.9" not in text.split("Last off")[1]


def test_hazards_stand_beside_the_piece_that_has_them(engine):
    hazard = Hazard.objects.get(slug="stored-energy")

    text = text_of(sheet_of(engine, Paper.LETTER))

    said = ["2011.1.47", hazard.caution.split(".")[0]]
    assert in_order(text, *said) == said


def test_photos_of_how_it_sat_are_on_the_sheet(engine, curator):
    removal = engine.removals.get(sequence=2)
    add_photo(picture(), by=curator, removal=removal)

    assert f"How {removal.position.component} sat" in " ".join(figures_of(sheet_of(engine)))


def test_a_vehicle_that_is_whole_says_so():
    assert "Nothing has been taken off yet" in text_of(sheet_of(VehicleFactory()))
