"""Sending what a phone kept: no answer but the right one makes it forget a piece."""

import datetime as dt

import pytest
from django.contrib.sessions.models import Session
from django.utils import timezone

from catalog.models import Part, Photo
from tests.browser.phones import PHOTO, parts_by_words, stored_digests
from tests.factories import MemberFactory, PartFactory

pytestmark = pytest.mark.django_db(transaction=True)
TAG = "K7Q-2M9V"
OTHER_TAG = "K7Q-2M28"
PIECES = "**/sync/parts/**"
PHOTOS = "**/sync/parts/*/photos/**"


@pytest.fixture
def phone(new_phone, member):
    """Lend a phone on which one piece with a photo was saved without a signal."""
    phone = new_phone(member).open()
    phone.signal(False)
    phone.save("bent strap", photo=PHOTO)
    phone.await_strip(1, 0)
    return phone


def spoil(phone, pattern, times, how):
    """Spoil the first requests that match, and let all others through."""
    spoiled: list[str] = []

    def handle(route):
        if len(spoiled) < times:
            spoiled.append(route.request.url)
            how(route)
        else:
            route.continue_()

    phone.context.route(pattern, handle)
    return spoiled


def await_count(phone, things, count):
    """Wait for a count, since what the strip says may be true already from before."""
    for _ in range(400):
        if len(things) >= count:
            return
        phone.page.wait_for_timeout(50)
    raise AssertionError(f"{len(things)} came of {count}")


def assert_arrived(kept):
    assert parts_by_words() == ["bent strap"]
    assert stored_digests() == kept


@pytest.mark.parametrize(("pattern", "times"), [(PIECES, 2), (PHOTOS, 1)])
def test_answers_lost_after_the_server_has_written_leave_one_record(phone, pattern, times):
    kept = phone.kept_photos()

    lost: list[int] = []

    def lose(route):
        route.fetch()
        route.abort()
        lost.append(Part.objects.count())

    spoil(phone, pattern, times, lose)
    phone.signal(True)
    for time in range(1, times + 1):
        await_count(phone, lost, time)
        phone.press("Send now")
    phone.await_strip(0, 1)

    assert lost == [1] * times
    assert_arrived(kept)


def test_captive_portal_is_never_taken_for_the_catalog(phone):
    kept = phone.kept_photos()
    page = "<html>Welcome to the guest network</html>"
    answered = spoil(
        phone, "**/sync/**", 99, lambda route: route.fulfill(body=page, content_type="text/html")
    )

    phone.signal(True)
    await_count(phone, answered, 1)
    phone.await_words("No way to the catalog now")
    phone.await_strip(1, 0)
    phone.context.unroute("**/sync/**")
    phone.press("Send now")
    phone.await_strip(0, 1)

    assert_arrived(kept)


def test_portal_that_answers_only_the_sending_is_not_believed(phone):
    kept = phone.kept_photos()
    spoil(phone, PIECES, 1, lambda route: route.fulfill(json={"id": "something else"}))

    phone.signal(True)
    phone.await_strip(0, 1)

    assert_arrived(kept)


def test_photo_damaged_on_the_way_is_sent_again_whole(phone):
    kept = phone.kept_photos()

    def damage(route):
        data = route.request.post_data_buffer
        route.continue_(post_data=data[:100] + bytes([data[100] ^ 1]) + data[101:])

    damaged = spoil(phone, PHOTOS, 1, damage)
    phone.signal(True)
    phone.await_strip(0, 1)

    assert len(damaged) == 1
    assert_arrived(kept)


@pytest.mark.parametrize("pattern", [PIECES, PHOTOS])
def test_stale_token_is_renewed_without_asking_anybody(phone, pattern):
    kept = phone.kept_photos()

    def age(route):
        route.continue_(headers={**route.request.headers, "x-csrftoken": 32 * "x"})

    aged = spoil(phone, pattern, 1, age)
    phone.signal(True)
    phone.await_strip(0, 1)

    assert len(aged) == 1
    assert_arrived(kept)


def test_expired_session_keeps_the_queue_and_asks_to_sign_in(phone, member, sign_in):
    kept = phone.kept_photos()
    Session.objects.all().delete()

    phone.signal(True)
    phone.await_words("Sign in again to send; nothing is lost.")
    assert phone.page.get_by_role("link", name="Sign in to send").is_visible()
    phone.await_strip(1, 0)
    sign_in(phone.context, member)
    phone.reopen()
    phone.await_strip(0, 1)

    assert_arrived(kept)
    assert Part.objects.get().recorded_by == member


def test_another_member_does_not_send_under_the_wrong_name(phone, sign_in):
    wat = MemberFactory(username="wat", first_name="Wat")
    kept = phone.kept_photos()

    sign_in(phone.context, wat)
    phone.signal(True)
    phone.await_words("1 piece by walt: ask walt, or send as yours below.")
    assert not Part.objects.exists()
    phone.press("Send as mine (Wat)")
    phone.await_strip(0, 1)

    assert_arrived(kept)
    assert Part.objects.get().recorded_by == wat


def test_member_who_comes_back_sends_under_the_right_name(phone, member, sign_in):
    sign_in(phone.context, MemberFactory(username="wat"))
    phone.signal(True)
    phone.await_words("1 piece by walt")

    sign_in(phone.context, member)
    phone.reopen()
    phone.await_strip(0, 1)

    assert Part.objects.get().recorded_by == member


def test_two_phones_with_one_tag_keep_the_second_piece_until_it_is_mended(new_phone, member):
    first, second = new_phone(member).open(), new_phone(member).open()
    second.signal(False)
    second.save("long bolt", tag=TAG.lower(), photo=PHOTO)
    kept = second.kept_photos()
    first.save("bent strap", tag=TAG)
    first.await_strip(0, 1)

    second.signal(True)
    second.await_words("1 piece must be mended below.")
    second.await_words(f"Tag {TAG} is tied to")
    assert parts_by_words() == ["bent strap"]
    second.press("Mend")
    second.page.wait_for_selector("[name=tag][aria-invalid]")
    second.page.locator("[name=tag]").fill(OTHER_TAG)
    second.press_save()
    second.await_strip(0, 1)

    tags = dict(Part.objects.values_list("description", "tag"))
    assert tags == {"bent strap": TAG, "long bolt": OTHER_TAG}
    assert stored_digests() == kept


def test_piece_that_is_refused_does_not_hold_up_the_others(new_phone, member):
    PartFactory(description="in the way", tag=TAG)
    phone = new_phone(member).open()
    phone.signal(False)
    phone.save("long bolt", tag=TAG)
    phone.save("bent strap")

    phone.signal(True)
    phone.await_strip(1, 1)
    assert parts_by_words() == ["bent strap", "in the way"]
    phone.press("Leave out for good")
    phone.await_strip(1, 1)
    phone.press("Press again: it is gone then")

    phone.await_strip(0, 1)


def test_file_that_is_no_photo_is_held_and_the_piece_goes_without_it(new_phone, member, tmp_path):
    broken = tmp_path / "broken.jpg"
    broken.write_bytes(b"\xff\xd8\xff\xe0 and then nothing")
    phone = new_phone(member).open()

    phone.save("bent strap", photo=broken)
    phone.await_words("1 piece must be mended below.")
    phone.press("Send without this photo")
    phone.await_strip(0, 1)

    assert parts_by_words() == ["bent strap"]
    assert not Photo.objects.exists()


@pytest.mark.parametrize("days", [-1, 1])
def test_clock_wrong_by_a_day_records_the_right_time(new_phone, member, days):
    phone = new_phone(member)
    shift = f"const now = Date.now; Date.now = () => now() + {days * 86_400_000};"
    phone.context.add_init_script(shift)
    phone.open()
    phone.signal(False)

    phone.save("bent strap", photo=PHOTO)
    kept = phone.kept_photos()
    phone.reopen()
    phone.signal(True)
    phone.await_strip(0, 1)

    assert_arrived(kept)
    assert abs(Part.objects.get().recorded_at - timezone.now()) < dt.timedelta(minutes=1)


@pytest.mark.parametrize("days", [-1, 1])
def test_clock_set_right_before_the_sending_records_nothing_from_tomorrow(new_phone, member, days):
    phone = new_phone(member).open()
    phone.signal(False)
    phone.page.evaluate(f"Date.now = (now => () => now() + {days * 86_400_000})(Date.now)")
    phone.save("bent strap", photo=PHOTO)
    kept = phone.kept_photos()

    phone.reopen()
    phone.signal(True)
    phone.await_strip(0, 1)

    assert_arrived(kept)
    assert Part.objects.get().recorded_at <= timezone.now()
