"""The routes to each open position, the best first."""

from decimal import Decimal

import pytest

from catalog.models import (
    Component,
    Drawing,
    Hazard,
    Likeness,
    Part,
    PatentFigure,
    Position,
    PositionSpot,
    Vehicle,
)
from catalog.queries.position_sheets import position_sheet
from catalog.queries.routes import Kind, needs_and_routes
from tests.factories import (
    CitationFactory,
    FittingFactory,
    PatentFactory,
    PhotoFactory,
    SourceFactory,
    WantFactory,
)
from tests.tramway import lay_out_class, lay_out_shop

pytestmark = pytest.mark.django_db


def routes_at(shop, vehicle, component, code):
    _, routes = needs_and_routes(Vehicle.objects.get(label=vehicle))
    return routes.of(shop.position(component, code)).routes


def kinds(routes):
    return [route.kind.value for route in routes]


def test_part_in_hand_comes_first_and_asking_last():
    shop = lay_out_shop()

    routes = routes_at(shop, "Wagon 14", "drawhead", "B")

    assert kinds(routes) == ["fit", "pattern", "ask"]
    assert routes[0].words == "Fit 2026.4.1. Nothing is recorded to check it against."
    assert routes[1].words == "Make one from 2026.4.3 as pattern."
    assert routes[2].words == "Ask others for a drawhead."


def test_broken_piece_is_a_route_to_one_position_only():
    shop = lay_out_shop()
    Part.objects.filter(component=shop.components["hinge"]).delete()
    shop.part("hinge", number="2026.4.9", usability="repair")

    left = routes_at(shop, "Wagon 14", "hinge", "HL")
    right = routes_at(shop, "Wagon 14", "hinge", "HR")

    assert (kinds(left), kinds(right)) == (["repair", "ask"], ["ask"])


def test_half_a_casting_as_pattern_tells_of_contraction_and_of_what_is_missing():
    shop = lay_out_shop()

    pattern = routes_at(shop, "Wagon 14", "drawhead", "B")[1]

    assert pattern.note == (
        "A casting taken from it comes out smaller by about 1/8 in a foot for gray iron: build it "
        "up first, or check that the smaller size will do. What is missing of it must be added "
        "to the pattern."
    )


def test_pattern_with_a_limit_is_a_route_for_so_many_positions():
    shop = lay_out_shop()
    Part.objects.exclude(usability="pattern").update(usability="unusable")
    pattern = Part.objects.filter(number="2026.4.3")
    pattern.update(castings_left=1)

    first = routes_at(shop, "Wagon 31", "drawhead", "A")
    assert next(one.note for one in first if one.kind == Kind.PATTERN).startswith(
        "1 casting may still be made from it. A casting"
    )
    assert Kind.PATTERN not in kinds(routes_at(shop, "Wagon 31", "drawhead", "B"))

    pattern.update(castings_left=None)
    assert Kind.PATTERN in kinds(routes_at(shop, "Wagon 31", "drawhead", "B"))


def test_nothing_at_all_leaves_asking_only():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1)

    routes = routes_at(shop, "Wagon 14", "hinge", "HL")

    assert kinds(routes) == ["ask"]
    assert routes[0].url.startswith("/wants/add/?vehicle=wagon-14&position=")


def test_want_that_is_written_is_led_to():
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14", 1)
    want = WantFactory(component=shop.components["hinge"], vehicle=wagon, is_published=True)

    (route,) = routes_at(shop, "Wagon 14", "hinge", "HL")

    assert (route.words, route.url) == (f"Asked for in public: {want}.", f"/wants/{want.slug}/")


def test_want_asks_for_so_many_and_first_for_its_own_position():
    shop = lay_out_class()
    wagon = shop.vehicle("Wagon 14", 1)
    left, right = shop.position("hinge", "HL"), shop.position("hinge", "HR")
    want = WantFactory(component=left.component, vehicle=wagon, position=right)

    (asked,) = routes_at(shop, "Wagon 14", "hinge", "HR")
    (other,) = routes_at(shop, "Wagon 14", "hinge", "HL")

    assert (asked.want, other.want) == (want, None)
    assert other.url == f"/wants/add/?vehicle=wagon-14&position={left.pk}"


def test_want_for_another_vehicle_hides_no_way_to_ask():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1)
    WantFactory(component=shop.components["hinge"], vehicle=shop.vehicle("Wagon 22", 2))

    (route,) = routes_at(shop, "Wagon 14", "hinge", "HL")

    assert route.words == "Ask others for a hinge. Asked for, for Wagon 22."
    assert route.url.count("position=") == 2


@pytest.mark.parametrize(
    ("order", "found"), [(2, ["free", "ask"]), (0, ["ask"]), (None, ["free", "ask"])]
)
def test_part_reserved_for_a_later_vehicle_can_be_freed(order, found):
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1)
    other = shop.vehicle("Wagon 22", order)
    part = shop.part("hinge", number="2026.4.9")
    FittingFactory(
        vehicle=other, position=shop.position("hinge", "HL"), part=part, state="reserved"
    )

    routes = routes_at(shop, "Wagon 14", "hinge", "HL")

    assert kinds(routes) == found
    if "free" in found:
        assert routes[0].words.startswith(
            "Free 2026.4.9, reserved for HL of Wagon 22, which comes later."
        )


def test_part_kept_for_a_later_vehicle_can_be_freed_for_one_position_only():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1)
    shop.part("hinge", number="2026.4.9", keep_with=shop.vehicle("Wagon 22", 2))

    _, routes = needs_and_routes(shop.vehicles["Wagon 14"])

    hinges = [one for one in routes.positions if one.position.component.name == "hinge"]
    assert [kinds(one.routes) for one in hinges] == [["free", "ask"], ["ask"]]


def test_fitted_part_of_a_later_vehicle_is_left_there():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1)
    shop.vehicle("Wagon 22", 2, hinge=("HL",))

    assert kinds(routes_at(shop, "Wagon 14", "hinge", "HL")) == ["ask"]


def test_repair_says_what_is_wrong_and_how_long_it_takes():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1)
    Component.objects.filter(name="hinge").update(repair_hours=5, repair_cost=20)
    shop.part("hinge", number="2026.4.9", usability="repair", defect="eye torn open")

    route = routes_at(shop, "Wagon 14", "hinge", "HL")[0]

    assert (route.kind, route.words) == (Kind.REPAIR, "Repair 2026.4.9: eye torn open.")
    assert (route.hours, route.cost) == (Decimal(5), Decimal(20))


def test_hazards_of_the_component_and_of_the_part_stand_beside_work():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1)
    paint, heavy = Hazard.objects.get(slug="lead-paint"), Hazard.objects.get(slug="heavy")
    shop.components["hinge"].hazards.set([heavy])
    shop.part("hinge", usability="repair").hazards.set([paint, heavy])

    _, routes = needs_and_routes(shop.vehicles["Wagon 14"])

    assert {hazard.slug for hazard in routes.of(shop.position("hinge", "HL")).best.hazards} == {
        "lead-paint",
        "heavy",
    }
    assert {hazard.slug for hazard in routes.hazards} == {"lead-paint", "heavy"}


def test_drawing_and_stated_dimensions_are_named():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1)
    shop.limits("hinge", "length", lower_mm="300", upper_mm="302")
    specification = shop.components["hinge"].characteristics.get().specifications.get()
    CitationFactory(
        event=None, specification=specification, source=SourceFactory(title="Drawing E-12")
    )
    picture = PhotoFactory(part=None, vehicle_class=shop.vehicle_class)
    drawing = Drawing.objects.create(
        vehicle_class=shop.vehicle_class, title="Side", picture=picture
    )
    PositionSpot.objects.create(
        position=shop.position("hinge", "HL"), drawing=drawing, x=0.5, y=0.5
    )

    route = routes_at(shop, "Wagon 14", "hinge", "HL")[0]

    assert route.words == (
        "Make one after the drawing “Side” and 1 recorded dimension from Drawing E-12."
    )


def test_patent_figure_helps_where_no_dimension_is_known():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1)
    patent = PatentFactory(number="99")
    picture = PhotoFactory(part=None, patent=patent)
    figure = PatentFigure.objects.create(patent=patent, label="Fig. 2", picture=picture)
    Likeness.objects.create(figure=figure, component=shop.components["hinge"], degree="same")

    route = routes_at(shop, "Wagon 14", "hinge", "HL")[0]

    assert route.words == (
        "Make one after patent XZ 99 Fig. 2 (same). Its dimensions are not recorded yet."
    )


def test_totals_take_the_best_route_of_essential_positions():
    shop = lay_out_shop()
    Position.objects.filter(code="HR").update(is_essential=False)

    _, routes = needs_and_routes(shop.vehicles["Wagon 31"])

    assert [(kind.value, count) for kind, _, count in routes.counts] == [
        ("fit", 4),
        ("ask", 1),
    ]
    assert (routes.hours, routes.cost, routes.unknown) == (0, 0, 0)


def test_hours_nobody_has_given_are_counted_apart():
    shop = lay_out_class()
    shop.vehicle("Wagon 14", 1, journal_box=("L1", "R1"), hinge=("HL", "HR"))
    shop.part("drawhead", usability="pattern")
    unknown = needs_and_routes(shop.vehicles["Wagon 14"])[1]
    shop.components["drawhead"].making_hours = Decimal("12.5")
    shop.components["drawhead"].save()

    known = needs_and_routes(shop.vehicles["Wagon 14"])[1]

    assert (unknown.hours, unknown.unknown) == (0, 2)
    assert (known.hours, known.unknown) == (25, 0)


def test_position_page_has_the_same_routes():
    shop = lay_out_shop()
    place = shop.position("drawhead", "B")

    sheet = position_sheet(shop.vehicles["Wagon 14"], place)

    assert kinds(sheet.routes.routes) == ["fit", "pattern", "ask"]
    filled = position_sheet(shop.vehicles["Wagon 14"], shop.position("drawhead", "A"))
    assert (filled.routes, filled.cautions) == (None, ())
