"""What is needed on the screen and on paper."""

from io import BytesIO

import pytest
from django.urls import reverse
from pypdf import PdfReader

from tests.factories import FittingFactory, PositionFactory, TrialFactory, VehicleFactory
from tests.tramway import lay_out_class, lay_out_shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def shop(db):
    return lay_out_shop()


def page(client, name, *args, **query):
    answer = client.get(reverse(name, args=args), query)
    assert answer.status_code == 200
    return answer.content.decode()


def test_needs_of_all_vehicles_with_plan_supply_and_components(signed_in, shop):
    words = page(signed_in, "needs")

    assert (
        "2 of 6 essential positions; what is in hand could fill the rest, were it alone in the shop"
        in words
    )
    assert "Waits for 1 drawhead." in words
    assert "enough for <b>1</b> complete, and <b>1¾</b> in parts, of 3 vehicles" in words
    assert "There is least of drawhead." in words


def test_needs_nearest_first(signed_in, shop):
    shop.vehicle("Wagon 40", 9, journal_box=("L1", "R1"), drawhead=("A", "B"), hinge=("HL",))

    in_order = page(signed_in, "needs")
    nearest = page(signed_in, "needs", order="nearest")

    assert in_order.index("Wagon 14</a>") < in_order.index("Wagon 40</a>")
    assert nearest.index("Wagon 40</a>") < nearest.index("Wagon 14</a>")


def test_needs_without_vehicles_says_what_to_do_next(signed_in):
    assert "No vehicle is recorded yet." in page(signed_in, "needs")
    assert "No vehicle is recorded yet." in page(signed_in, "best-use")


def test_open_positions_of_all_vehicles_are_listed_once_somebody_chooses(signed_in, shop):
    address = reverse("needs-open")
    plain = page(signed_in, "needs-open")
    chosen = page(signed_in, "needs-open", assembly="body", vehicle="wagon-31")

    assert f'action="{address}"' in page(signed_in, "needs")
    assert "Choose a vehicle, an assembly or a route." in plain
    assert "2 open positions, each with its best route" in chosen
    assert "<b>Fit what is in hand.</b>" in chosen
    assert "<b>Or make from a pattern.</b>" in page(signed_in, "needs-open", route="pattern")
    assert "No open position is like that." in page(signed_in, "needs-open", route="repair")
    assert "Select a valid choice" in page(signed_in, "needs-open", route="nonsense")


def test_best_use_has_a_page_of_its_own(signed_in, shop):
    words = page(signed_in, "best-use")

    assert "what would fit goes to Wagon 14; else pattern in hand" in words
    assert "no other use of what is in hand does better" in words


def test_vehicle_needs_lists_positions_with_the_part_that_fits(signed_in, shop):
    words = page(signed_in, "vehicle-needs", "wagon-14")

    assert "A part in hand fits" in words
    assert "Nothing in hand" in page(signed_in, "vehicle-needs", "wagon-31")
    assert "2026.4.4" in words
    assert "Reserve" not in words


def test_vehicle_needs_can_be_narrowed_to_a_state_and_an_assembly(signed_in, shop):
    fitted = page(signed_in, "vehicle-needs", "wagon-14", state="fitted")
    body = page(signed_in, "vehicle-needs", "wagon-14", assembly="body")

    assert "2026.4.4" not in fitted
    assert ("2026.4.5" in body, "2026.4.4" in body) == (True, False)
    nothing = page(signed_in, "vehicle-needs", "wagon-14", state="trial")
    assert "No position of this vehicle is like that." in nothing


def test_routes_are_weighed_when_asked_for_and_can_be_chosen(signed_in, shop):
    plain = page(signed_in, "vehicle-needs", "wagon-31")
    routed = page(signed_in, "vehicle-needs", "wagon-31", route="all")
    asked = page(signed_in, "vehicle-needs", "wagon-31", route="pattern")

    assert "What would finish it, and by which route" in plain
    assert 'href="?route=pattern#positions"' in routed
    assert 'id="positions"' in routed
    assert "The best route for each essential position" in routed
    assert ("make from a pattern" in routed, "make from a pattern" in plain) == (True, False)
    assert ("What to ask others for" in routed, "What to ask others for" in plain) == (True, False)
    assert ("L1</span>" in routed, "L1</span>" in asked) == (True, False)


def test_vehicle_that_only_has_to_be_put_together_says_so(signed_in, db):
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14", journal_box=("L1", "R1"), drawhead=("A", "B"), hinge=("HL",))
    place, part = shop.position("hinge", "HR"), shop.part("hinge")
    FittingFactory(vehicle=wagon, position=place, part=part, state="reserved")

    words = page(signed_in, "vehicle-needs", "wagon-14", route="all")

    assert "Completed by what is reserved: fit 1 part." in words
    assert "Every essential position has its part: what is reserved is still to be fitted." in words
    assert "The best route for each essential position" not in words
    assert "Shortest list that finishes it" not in words


def test_vehicle_without_positions_leads_to_its_class(signed_in):
    vehicle = VehicleFactory()

    words = page(signed_in, "vehicle-needs", vehicle.slug)

    assert vehicle.vehicle_class.get_absolute_url() in words


def test_position_shows_candidates_limits_and_what_is_ruled_out(signed_in, shop):
    shop.limits("journal box", "bore", lower_mm="63.5", upper_mm="64.5")
    foreign = shop.part("journal box", number="2026.4.8")
    shop.measure(foreign, "bore", "76.2")
    shop.part("journal box", number="2026.4.9", usability="unusable")
    kept = shop.part("journal box", keep_with=shop.vehicles["Wagon 31"], number="2026.4.10")
    place = shop.position("journal box", "R1")
    TrialFactory(vehicle=shop.vehicles["Wagon 14"], position=place, outcome="work")

    words = page(signed_in, "position-detail", "wagon-14", place.pk)

    assert "Not measured yet: measure the bore." in words
    assert "Does not fit: bore is 76.20 ± 0.05 mm; allowed is 63.5 to 64.5 mm." in words
    assert "Kept for Wagon 31." in words
    assert "Not usable." in words
    assert "Went with work" in words
    assert kept.label in words


def test_filled_position_shows_what_is_there(as_curator, shop):
    words = page(as_curator, "position-detail", "wagon-14", shop.position("drawhead", "A").pk)

    assert "Took it off" in words
    assert "Parts that would do" not in words


def test_position_of_another_class_is_not_found(signed_in, shop):
    other = PositionFactory()

    answer = signed_in.get(reverse("position-detail", args=["wagon-14", other.pk]))

    assert answer.status_code == 404


def test_needs_sheet_is_a_tagged_pdf_on_the_paper_asked_for(signed_in, shop):
    a4 = signed_in.get(reverse("needs-print", args=["wagon-14"]))
    letter = signed_in.get(reverse("needs-print", args=["wagon-14"]), {"paper": "letter"})

    sheet, wide = (PdfReader(BytesIO(answer.content)) for answer in (a4, letter))
    assert a4.headers["Content-Type"] == "application/pdf"
    assert [round(page.mediabox.width) for page in sheet.pages] == [595] * len(sheet.pages)
    assert [round(page.mediabox.width) for page in wide.pages] == [612] * len(wide.pages)
    words = sheet.pages[0].extract_text()
    assert "2026.4.4" in words
    assert f"page 1 of {len(sheet.pages)}" in words
    assert sheet.metadata.title.startswith("What Wagon 14 needs")
    assert sheet.trailer["/Root"]["/MarkInfo"]["/Marked"]


def test_needs_sheets_of_all_begin_each_on_a_page_of_its_own(signed_in, shop):
    answer = signed_in.get(reverse("needs-print-all"), {"order": "nearest"})

    pages = [page.extract_text() for page in PdfReader(BytesIO(answer.content)).pages]
    first = [words for words in pages if "page 1 of" in words]
    found = [name for words in first for name in shop.vehicles if name in words]
    assert found == ["Wagon 14", "Wagon 22", "Wagon 31"]


def test_needs_sheets_without_vehicles_are_not_found(signed_in):
    assert signed_in.get(reverse("needs-print-all")).status_code == 404


@pytest.mark.parametrize("name", ["needs", "best-use", "needs-open", "needs-print-all"])
def test_visitor_is_refused(as_visitor, name):
    assert as_visitor.get(reverse(name)).status_code == 403


def test_visitor_sees_no_needs_of_a_vehicle(as_visitor, shop):
    place = shop.position("hinge", "HL").pk

    for address in (
        reverse("vehicle-needs", args=["wagon-14"]),
        reverse("needs-print", args=["wagon-14"]),
        reverse("position-detail", args=["wagon-14", place]),
    ):
        assert as_visitor.get(address).status_code == 403


def test_pages_take_the_same_queries_for_one_part_and_three(signed_in, count_queries, db):
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1)
    place = shop.position("hinge", "HL").pk
    addresses = [
        reverse("needs"),
        reverse("vehicle-needs", args=["wagon-14"]),
        reverse("position-detail", args=["wagon-14", place]),
    ]

    def add():
        shop.part("hinge")
        shop.part("hinge", usability="unusable")
        shop.vehicle(f"Wagon {len(shop.vehicles)}", hinge=("HR",))

    add()
    one = [count_queries(signed_in, address) for address in addresses]
    add()
    add()

    assert [count_queries(signed_in, address) for address in addresses] == one
