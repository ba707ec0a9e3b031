"""Check that the building blocks show what they are given, and nothing as markup by mistake."""

import datetime as dt
from dataclasses import dataclass
from fractions import Fraction

import pytest
from django.core.paginator import Paginator
from django.test import RequestFactory

from catalog.icons import ICONS
from catalog.reckoning.section_lining import LININGS
from tests.templatetags.rendering import rendered, words


@dataclass(frozen=True)
class Picture:
    width: int = 4000
    height: int = 3000
    caption: str = ""
    role: str = "measuring"
    is_withdrawn: bool = False
    get_absolute_url: str = "/photos/1/"
    url_320: str = "/small.webp"
    url_960: str = "/large.webp"


@dataclass(frozen=True)
class Hazard:
    label: str
    caution: str


def test_card_frames_its_content_under_a_heading():
    html = rendered('{% card "Marks" level=3 %}<p>M F T</p>{% endcard %}')

    assert " ".join(html.split()) == (
        '<section class="card"> <h3 class="card-title">Marks</h3> <p>M F T</p> </section>'
    )


def test_card_escapes_its_title():
    assert "<b>" not in rendered("{% card title %}{% endcard %}", title="<b>Marks</b>")


def test_icon_is_hidden_from_screen_readers():
    html = rendered('{% icon "tag" %}')

    assert html.startswith('<svg class="icon" viewBox="0 0 24 24" aria-hidden="true"><path')


@pytest.mark.parametrize("name", sorted(ICONS))
def test_icon_stays_inside_its_field_and_knows_no_color(name):
    assert "#" not in ICONS[name]
    assert "stroke=" not in ICONS[name]


def test_icon_refuses_an_unknown_name():
    with pytest.raises(KeyError, match="wheelbarrow"):
        rendered('{% icon "wheelbarrow" %}')


def test_title_block_shows_number_name_and_cells():
    cells = [("Gauge", "2 ft"), ("Recorded", dt.date(2026, 4, 17)), ("Works number", "")]

    shown = words('{% title_block number="7" name="Tub" kind="Vehicle" cells=cells %}', cells=cells)

    assert shown == "Vehicle 7 Tub Gauge 2 ft Recorded 17 April 2026 Works number —"


def test_title_block_marks_the_sheet_in_hand():
    sheets = [
        {"label": "Record", "url": "/r", "current": True},
        {"label": "Fits", "url": "/f", "current": False},
    ]

    html = rendered('{% title_block number="7" name="Tub" sheets=sheets %}', sheets=sheets)

    assert '<a class="nav-link" href="/r" aria-current="page">Record</a>' in html
    assert '<a class="nav-link" href="/f">Fits</a>' in html


def test_field_list_says_when_nothing_is_recorded():
    rows = [("Material", "brass"), ("Mass", None)]

    assert words("{% field_list rows %}", rows=rows) == "Material brass Mass not recorded"


def test_state_legend_names_all_seven_states_in_order():
    assert words("{% state_legend %}") == (
        "fitted on trial reserved a part in hand fits in hand, needs repair pattern in hand "
        "nothing in hand"
    )


def test_states_are_told_apart_by_shape():
    assert len({lining.shapes for lining in LININGS.values()}) == 7


def test_state_swatch_keeps_its_words_for_screen_readers():
    html = rendered('{% state_swatch "trial" words=False %}')

    assert '<span class="visually-hidden">on trial</span>' in html


def test_dimension_shows_what_was_typed_over_millimeters():
    shown = words('{% dimension mm "3 3/4 in" uncertainty=u %}', mm=Fraction("95.25"), u=0.1)

    assert shown == "3 3/4 in 95.3 ± 0.1 mm"


def test_dimension_without_typed_text_shows_inches():
    assert words("{% dimension mm %}", mm=Fraction("95.25")) == "3¾ in 95.3 mm"


def test_chip_with_an_address_is_a_link_that_tells_whether_it_is_on():
    html = rendered('{% chip "disputed" url="?status=disputed" count=0 on=True %}')

    assert html.strip() == (
        '<a href="?status=disputed" class="chip" aria-current="true">disputed '
        '<span class="chip-count">0</span></a>'
    )


def test_chip_without_an_address_is_plain_words():
    assert rendered('{% chip "probable" %}').strip() == '<span class="chip">probable</span>'


def test_tag_code_is_announced_as_a_tag():
    assert words('{% tag_code "K7Q-2M9X" %}') == "tag K7Q-2M9X"


def test_photo_keeps_its_place_while_it_loads():
    html = rendered("{% photo picture %}", picture=Picture(caption="The crown"))

    assert 'width="320" height="240" loading="lazy"' in html
    assert 'alt="The crown"' in html


def test_large_photo_offers_both_sizes():
    html = rendered("{% photo picture 960 lazy=False %}", picture=Picture())

    assert 'src="/large.webp" srcset="/small.webp 320w, /large.webp 960w"' in html
    assert "loading" not in html


def test_photo_that_is_missing_is_said_in_words():
    assert words("{% photo None %}") == "no photograph yet"


@pytest.mark.parametrize(
    ("role", "shown"),
    [
        ("measuring", 'alt="Photograph of where to measure: bore"'),
        ("drawing", 'alt="Drawing of where to measure: bore"'),
    ],
)
def test_measuring_picture_says_what_it_shows(role, shown):
    html = rendered('{% measuring_picture picture "bore" %}', picture=Picture(role=role))

    assert shown in html
    assert ('class="line-art"' in html) == (role == "drawing")
    assert 'src="/large.webp" width="4000" height="3000"' in html


@pytest.mark.parametrize("picture", [None, Picture(is_withdrawn=True)])
def test_measuring_picture_shows_nothing_where_there_is_none(picture):
    assert rendered('{% measuring_picture picture "bore" %}', picture=picture).strip() == ""


def test_caution_defers_to_local_codes():
    shown = words("{% caution hazards %}", hazards=[Hazard("Asbestos", "Do not cut it.")])

    assert shown == (
        "Caution Asbestos Do not cut it. This note is a warning, not a method. Follow your local "
        "codes, and leave the work to qualified people."
    )


def test_caution_is_silent_without_hazards():
    assert words("{% caution hazards %}", hazards=[]) == ""


def test_empty_state_holds_the_way_on():
    shown = words('{% empty_state "No wants yet." %}<a href="/new">Ask</a>{% endempty_state %}')

    assert shown == "No wants yet. Ask"


def test_timeline_item_says_when_what_by_whom_and_how_sure():
    shown = words(
        '{% timeline_item when="about 1902" title="Built" by="E. Tarn" certainty="supposed" %}'
        "<p>Drawing 14.</p>{% endtimeline_item %}"
    )

    assert shown == "about 1902 Built supposed; recorded by E. Tarn Drawing 14."


@pytest.mark.parametrize(
    ("done", "total", "shown"),
    [(31, 40, "31 of 40 essential positions"), (0, 0, "no essential positions recorded")],
)
def test_meter_says_in_words_what_it_draws(done, total, shown):
    source = '{% meter done total "essential positions" %}'

    assert words(source, done=done, total=total) == shown


@pytest.mark.parametrize(("total", "marks"), [(4, 3), (60, 59), (61, 9), (1, 0)])
def test_meter_never_draws_more_than_sixty_divisions(total, marks):
    assert rendered('{% meter 0 total "positions" %}', total=total).count("0v1") == marks


def test_pagination_keeps_the_other_choices_of_the_list():
    request = RequestFactory().get("/parts/?status=disputed&page=2")
    page = Paginator(range(9), 3).page(2)

    html = rendered("{% pagination page %}", request=request, page=page)

    assert 'href="?status=disputed&amp;page=1"' in html
    assert 'href="?status=disputed&amp;page=3"' in html


def test_pagination_of_one_page_is_left_out():
    page = Paginator(range(3), 3).page(1)
    request = RequestFactory().get("/parts/")

    assert words("{% pagination page %}", request=request, page=page) == ""
