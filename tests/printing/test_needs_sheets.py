"""The needs sheet, read back from the paper: one page a vehicle, a box for each open position."""

from io import BytesIO

import pytest
from pypdf import PdfReader

from catalog.models import Position
from catalog.printing.needs_sheets import needs_pages, needs_sheets
from catalog.printing.papers import Paper
from catalog.queries.needs_papers import needs_papers
from tests.factories import (
    CharacteristicFactory,
    ComponentFactory,
    FittingFactory,
    LocationFactory,
    PartFactory,
    PositionFactory,
    SpecificationFactory,
    VehicleClassFactory,
    VehicleFactory,
)
from tests.printing.reading import figures_of, in_order, read, text_of
from tests.tramway import lay_out_shop

pytestmark = pytest.mark.django_db
ASSEMBLIES = ("running gear", "underframe", "couplings", "body", "brake")


def shed(path):
    return f"https://shed.example{path}"


def printed(vehicle, paper=Paper.A4):
    (sheet,) = needs_papers([vehicle])
    return needs_pages(sheet, address=shed, paper=paper)


def lay_out_wagon(count):
    """Make a wagon of so many positions, two of each component, with every route among them."""
    kind = VehicleClassFactory(designation="Class E")
    shelf = LocationFactory(name="Shelf 2", path="Wagon shop › Rack B › Shelf 2")
    for number in range(count // 2):
        component = ComponentFactory(name=f"side bracket {number}")
        limits = CharacteristicFactory(component=component, name="length over the flanges")
        for side in "LR":
            PositionFactory(
                vehicle_class=kind,
                component=component,
                code=f"{side}{number}",
                assembly=ASSEMBLIES[number * len(ASSEMBLIES) * 2 // count],
                sequence=number,
            )
        if number % 4 == 3:
            continue
        SpecificationFactory(vehicle_class=kind, characteristic=limits)
        PartFactory(
            component=component,
            location=shelf,
            vehicle_class=kind,
            identification_status=("proposed", "agreed")[number % 2],
            usability=("ready", "repair", "pattern")[number % 4],
            defect="cracked through the upper lug",
        )
    wagon = VehicleFactory(label="Wagon 40", running_number="40", vehicle_class=kind)
    for position in Position.objects.filter(sequence=0):
        FittingFactory(vehicle=wagon, position=position, state="fitted")
    return wagon


@pytest.mark.parametrize("paper", Paper)
def test_vehicle_of_forty_positions_takes_one_page(paper):
    wagon = lay_out_wagon(40)

    pages = read(printed(wagon, paper)).pages

    words = pages[0].extract_text()
    assert len(pages) == 1
    assert [code for n in range(1, 20) for code in (f"L{n}", f"R{n}") if code not in words] == []


@pytest.mark.parametrize("paper", Paper)
def test_type_stays_large_enough_to_read_at_a_table(paper):
    wagon = lay_out_wagon(40)
    sizes = set()

    def note(text, _, matrix, __, size):
        if text.strip():
            sizes.add(round(abs(size * matrix[3]) * 0.75, 1))

    read(printed(wagon, paper)).pages[0].extract_text(visitor_text=note)
    assert sizes
    assert min(sizes) >= 7.5


def test_vehicle_that_lacks_more_runs_over_with_its_name_and_pages_above():
    reader = read(printed(lay_out_wagon(80)))

    pages = [" ".join(page.extract_text().split()) for page in reader.pages]
    assert len(pages) == 2
    assert "What is needed: Wagon 40" in pages[1]
    assert "What is needed: Wagon 40" not in pages[0]
    assert pages[1].count("page 2 of 2") == 2
    codes = [code for n in range(1, 40) for code in (f"L{n} ", f"R{n} ")]
    assert [code for code in codes if code not in f"{pages[0]} {pages[1]} "] == []


def test_sheet_tells_what_to_do_at_each_open_position_and_what_is_fitted():
    shop = lay_out_shop()

    text = text_of(read(printed(shop.vehicles["Wagon 14"])))

    told = ("2 of 6 essential", "Running gear", "R1 2026.4.4", "Draw gear", "B 2026.4.1", "Body")
    assert in_order(text, *reversed(told)) == list(told)
    fitted = text[text.index("Fitted") :]
    assert "Running gear: journal box L1." in fitted
    assert "Draw gear: drawhead A." in fitted


def test_hatch_of_each_line_is_told_in_words():
    shop = lay_out_shop()

    reader = read(printed(shop.vehicles["Wagon 31"]))

    states = [
        "a part in hand fits",
        "nothing in hand",
        "a part in hand fits",
        "a part in hand fits",
    ]
    assert figures_of(reader)[-4:] == states


def test_sheets_of_several_vehicles_count_their_pages_each():
    shop = lay_out_shop()

    pdf = needs_sheets(needs_papers(shop.vehicles.values()), address=shed)

    pages = [page.extract_text() for page in PdfReader(BytesIO(pdf)).pages]
    assert ["page 1 of 1" in words for words in pages] == [True, True, True]
