"""Characteristics, mating rules and known marks on the screen."""

import re
from decimal import Decimal

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from catalog.models import Characteristic, KnownMark, MatingRule, Photo
from catalog.reckoning.marks import NOTHING_LEGIBLE
from tests.factories import (
    CharacteristicFactory,
    CitationFactory,
    ComponentFactory,
    MatingRuleFactory,
    PhotoFactory,
    SourceFactory,
    SpecificationFactory,
)
from tests.samples import picture

pytestmark = pytest.mark.django_db


@pytest.fixture
def bore():
    return CharacteristicFactory(name="bore", component__name="bearing brass")


@pytest.fixture
def journal():
    return CharacteristicFactory(name="diameter", component__name="wheelset")


def test_volunteer_adds_a_characteristic(signed_in):
    component = ComponentFactory()
    typed = {"name": "bolt centers", "where_to_measure": "across the flange"}

    signed_in.post(reverse("characteristic-add", args=[component.pk]), typed)

    row = Characteristic.objects.get()
    assert (row.component, row.name, row.sequence) == (component, "bolt centers", 1)


def test_characteristic_of_the_same_name_is_refused_in_words(signed_in, bore):
    address = reverse("characteristic-add", args=[bore.component.pk])

    page = signed_in.post(address, {"name": "Bore"}).content.decode()

    assert "The component already has a characteristic of this name." in page


def test_characteristic_change_says_where_to_measure(signed_in, bore):
    address = reverse("characteristic-change", args=[bore.pk])

    signed_in.post(address, {"name": "bore", "where_to_measure": "mid length", "sequence": 2})

    bore.refresh_from_db()
    assert (bore.where_to_measure, bore.sequence) == ("mid length", 2)


def test_new_picture_of_where_to_measure_comes_with_the_characteristic(signed_in):
    component = ComponentFactory(name="brake hanger")
    typed = {"name": "length", "file": picture()}

    answer = signed_in.post(reverse("characteristic-add", args=[component.pk]), typed)

    row = Characteristic.objects.get()
    assert answer.headers["Location"].endswith(f"#characteristic-{row.pk}")
    assert (row.picture.component, row.picture.role) == (component, "measuring")
    assert str(row.picture) == "Where the length of the brake hanger is measured"


def test_same_picture_serves_another_characteristic_and_is_kept_once(signed_in, bore):
    addresses = [
        reverse("characteristic-change", args=[bore.pk]),
        reverse("characteristic-add", args=[bore.component.pk]),
    ]

    for name, address in zip(("bore", "length"), addresses, strict=True):
        signed_in.post(address, {"name": name, "sequence": 1, "file": picture()})

    shown = {row.name: row.picture for row in Characteristic.objects.all()}
    assert shown == dict.fromkeys(("bore", "length"), Photo.objects.get())


def test_picture_stays_where_it_is_not_chosen_anew(signed_in, bore):
    bore.picture = PhotoFactory(component=bore.component, part=None, caption="the works' drawing")
    bore.save()
    address = reverse("characteristic-change", args=[bore.pk])

    page = signed_in.get(address).content.decode()
    signed_in.post(address, {"name": "bore", "sequence": 3, "picture": bore.picture.pk})

    assert bore.picture.url_320 in page
    assert Characteristic.objects.get().picture == bore.picture


def test_file_that_is_no_picture_is_refused_beside_its_field(signed_in, bore):
    address = reverse("characteristic-change", args=[bore.pk])
    sent = SimpleUploadedFile("list.jpg", b"no picture")

    page = signed_in.post(
        address, {"name": "bore", "where_to_measure": "mid length", "sequence": 1, "file": sent}
    ).content.decode()

    (field,) = re.findall(r'<input type="file"[^>]*>', page)
    assert 'aria-invalid="true"' in field
    assert "mid length</textarea>" in page
    assert not Photo.objects.exists()


def test_characteristic_with_limits_stays_and_says_why(as_curator, bore):
    SpecificationFactory(characteristic=bore)

    answer = as_curator.post(reverse("characteristic-remove", args=[bore.pk]))

    assert Characteristic.objects.filter(pk=bore.pk).exists()
    told = as_curator.get(answer.headers["Location"]).content.decode()
    assert "“bore” cannot be removed: specifications rest on it." in told


def test_curator_removes_a_characteristic(as_curator, bore):
    as_curator.post(reverse("characteristic-remove", args=[bore.pk]))

    assert not Characteristic.objects.exists()


def test_mating_rule_add_reads_lengths_as_people_write_them(as_curator, bore, journal):
    typed = {"outer": bore.pk, "inner": journal.pk, "least_mm": "1/64 in", "greatest_mm": "1.6 mm"}
    cited = {"source": SourceFactory(title="Shop book").pk, "locator": "p. 9"}

    as_curator.post(
        reverse("mating-rule-add", args=[bore.component.pk]),
        {**typed, **cited, "is_required": "on"},
    )

    rule = MatingRule.objects.get()
    assert (rule.least_mm, rule.greatest_mm) == (Decimal("0.396875"), Decimal("1.6"))
    assert rule.is_required
    assert str(rule.citations.get()) == "Shop book, p. 9"


def test_mating_rule_refuses_crossed_limits_and_keeps_what_was_typed(as_curator, bore, journal):
    typed = {"outer": bore.pk, "inner": journal.pk, "least_mm": "2 mm", "greatest_mm": "1/64 in"}

    page = as_curator.post(reverse("mating-rule-add", args=[bore.component.pk]), typed)

    refused = "The greatest clearance is below the least: 0.396875 mm against 2 mm."
    assert refused in page.content.decode()
    assert 'value="1/64 in"' in page.content.decode()
    assert not MatingRule.objects.exists()


def test_mating_rule_is_changed_and_removed(as_curator, bore, journal):
    rule = MatingRuleFactory(outer=bore, inner=journal)
    typed = {"outer": bore.pk, "inner": journal.pk, "least_mm": "0.5 mm"}

    as_curator.post(reverse("mating-rule-change", args=[rule.pk]), typed)
    rule.refresh_from_db()
    assert (rule.least_mm, rule.is_required) == (Decimal("0.5"), False)

    as_curator.post(reverse("mating-rule-remove", args=[rule.pk]))
    assert not MatingRule.objects.exists()


def test_rules_say_that_they_are_recorded_and_saved(as_curator, bore, journal):
    typed = {"outer": bore.pk, "inner": journal.pk, "least_mm": "0.5 mm"}
    words = "The rule for bearing brass bore over wheelset diameter is"

    address = reverse("mating-rule-add", args=[bore.component.pk])
    page = as_curator.post(address, typed, follow=True).content.decode()
    assert f"{words} recorded." in page

    address = reverse("mating-rule-change", args=[MatingRule.objects.get().pk])
    page = as_curator.post(address, typed, follow=True).content.decode()
    assert f"{words} saved. The former version is in the history." in page


def test_component_page_names_both_components_of_a_rule_to_those_who_listen(as_curator):
    heights = [
        CharacteristicFactory(name="height", component__name=name)
        for name in ("journal box", "bearing brass")
    ]
    MatingRuleFactory(outer=heights[0], inner=heights[1])

    page = as_curator.get(heights[0].component.get_absolute_url()).content.decode()

    named = "journal box height over bearing brass height</span>"
    assert f'Change<span class="visually-hidden"> the rule for {named}' in page
    assert f'no source yet<span class="visually-hidden">: cite one for {named}' in page


def test_source_behind_a_rule_is_taken_off_and_another_is_cited(client, curator, member, bore):
    citation = CitationFactory(event=None, mating_rule=MatingRuleFactory(outer=bore))
    another = reverse("citation-add", args=["mating-rule", citation.mating_rule.pk])
    off = reverse("citation-remove", args=[citation.pk])
    address = bore.component.get_absolute_url()

    client.force_login(member)
    page = client.get(address).content.decode()
    assert (citation.source.title in page, another in page, off in page) == (True, True, False)

    client.force_login(curator)
    assert off in client.get(address).content.decode()
    assert client.post(off).headers["Location"] == address


def test_change_of_a_rule_says_which_sources_stand_behind_it(as_curator, bore, journal):
    rule = MatingRuleFactory(outer=bore, inner=journal)
    CitationFactory(event=None, mating_rule=rule, source__title="Shop book", locator="p. 9")
    address = reverse("mating-rule-change", args=[rule.pk])
    other = SourceFactory(title="Letter")

    page = as_curator.get(address).content.decode()
    typed = {"outer": bore.pk, "inner": journal.pk, "least_mm": "0.5 mm", "source": other.pk}
    as_curator.post(address, typed)

    assert "Behind it already: Shop book, p. 9. A source chosen here is added to it." in page
    assert [str(row) for row in rule.citations.all()] == ["Shop book, p. 9", "Letter"]


def test_known_mark_is_added_changed_and_removed_with_a_word_each(as_curator):
    component = ComponentFactory(name="journal box")
    add = reverse("known-mark-add", args=[component.pk])
    page = as_curator.post(add, {"text": "T.I. 227"}, follow=True).content.decode()
    mark = KnownMark.objects.get()
    change = reverse("known-mark-change", args=[mark.pk])
    assert "A journal box is known by “T.I. 227” now." in page
    assert change in page

    typed = {"text": "T.I. 228", "note": "on the lid"}
    page = as_curator.post(change, typed, follow=True).content.decode()
    assert "Mark “T.I. 228” saved. The former version is in the history." in page

    as_curator.post(reverse("known-mark-remove", args=[mark.pk]))
    assert not KnownMark.objects.exists()


def test_known_mark_that_says_nothing_is_refused_beside_the_field(signed_in):
    page = signed_in.post(reverse("known-mark-add", args=[ComponentFactory().pk]), {"text": "???"})

    assert page.context["form"].errors == {"text": [NOTHING_LEGIBLE]}
    assert not KnownMark.objects.exists()


@pytest.mark.parametrize(
    "name", ["mating-rule-add", "characteristic-remove", "known-mark-remove", "mating-rule-remove"]
)
def test_volunteer_may_not_make_rules_nor_remove(signed_in, name):
    assert signed_in.post(reverse(name, args=[1])).status_code == 403
