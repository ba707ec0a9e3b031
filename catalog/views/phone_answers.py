"""How the catalog speaks with a phone's queue: JSON for every answer, refusals in words too."""

import json
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from functools import wraps
from hashlib import sha256
from tempfile import TemporaryFile
from typing import Any, BinaryIO, cast

from django.contrib.auth.decorators import login_not_required
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse, JsonResponse, UnreadablePostError
from django.views.csrf import csrf_failure
from django.views.decorators.cache import never_cache

from catalog.forms.photos import MOST_MEGABYTES
from catalog.http import MemberRequest

MOST_WORDS = 64 * 1024
BLOCK = 64 * 1024
View = Callable[..., HttpResponse]


class RefusalError(Exception):
    """What was sent is not taken: why, in words by field, and whether sending it again helps."""

    def __init__(
        self, status: int, problems: Mapping[str, list[str]] | str, *, again: bool = False
    ) -> None:
        super().__init__(status)
        self.status = status
        self.problems = {"": [problems]} if isinstance(problems, str) else problems
        self.again = again

    def answer(self) -> JsonResponse:
        told = {"problems": self.problems, "again": self.again}
        return JsonResponse(told, status=self.status)


def for_the_phone(view: View) -> View:
    """Answer whoever is not signed in with 401 instead of a page that a script cannot read."""

    @wraps(view)
    def guarded(request: MemberRequest, **which: Any) -> HttpResponse:
        try:
            _require_volunteer(request)
            return view(request, **which)
        except RefusalError as refusal:
            return refusal.answer()
        except ValidationError as refusal:
            return RefusalError(422, in_words(refusal)).answer()

    return cast(View, login_not_required(never_cache(guarded)))


def _require_volunteer(request: MemberRequest) -> None:
    if not request.user.is_authenticated:
        raise RefusalError(401, "Sign in, so that what is kept on this phone can be sent.")
    if not request.user.is_volunteer:
        raise RefusalError(403, "This is for volunteers of the group.")


def in_words(refusal: ValidationError) -> dict[str, list[str]]:
    """Return what an operation refuses, by field; under no name what concerns the whole."""
    by_field = getattr(refusal, "error_dict", {"": [refusal]})
    return {
        "" if name == "__all__" else name: [words for each in told for words in each.messages]
        for name, told in by_field.items()
    }


def stale_token(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Tell a script that its token is no longer good; people get the usual page."""
    if request.path.startswith("/sync/"):
        return RefusalError(403, "The sign-in was renewed meanwhile.", again=True).answer()
    return csrf_failure(request, reason)


def told_in(request: HttpRequest) -> dict[str, Any]:
    """Return the fields that were sent, refusing what is no such thing or far too long."""
    if _announced_length(request) > MOST_WORDS:
        raise RefusalError(413, "These words are too long to be kept.")
    try:
        told = json.loads(request.body)
        # A broken character would only be noticed by the database, as a fault of ours.
        json.dumps(told, ensure_ascii=False).encode()
    except ValueError as problem:
        raise RefusalError(422, "What arrived cannot be read.", again=True) from problem
    if not isinstance(told, dict):
        raise RefusalError(422, "What arrived cannot be read.")
    return told


def refuse_another_members(request: MemberRequest, told: Mapping[str, Any]) -> None:
    """Refuse what somebody else wrote down on this phone, if the sign-in changed under way."""
    if str(told.get("user")) != str(request.user.pk):
        raise RefusalError(409, f"This was written down by somebody else than {request.user}.")


@contextmanager
def received_file(request: HttpRequest) -> Iterator[tuple[BinaryIO, str]]:
    """Hold the body as a file with its digest, read in blocks and compared with what was sent."""
    announced = request.headers.get("X-Content-SHA256", "").lower()
    if _announced_length(request) > MOST_MEGABYTES * 1_000_000:
        raise RefusalError(413, f"The photo is larger than {MOST_MEGABYTES} MB.")
    # Without a name, it is gone by itself when the server is killed in the middle.
    with TemporaryFile() as unnamed:
        file = cast(BinaryIO, unnamed)
        if _copied(request, file) != announced:
            raise RefusalError(422, "The photo was damaged on the way.", again=True)
        file.seek(0)
        yield file, announced


def _copied(request: HttpRequest, file: BinaryIO) -> str:
    digest = sha256()
    try:
        while block := request.read(BLOCK):
            digest.update(block)
            file.write(block)
    except UnreadablePostError as problem:
        raise RefusalError(422, "The photo broke off on the way.", again=True) from problem
    return digest.hexdigest()


def _announced_length(request: HttpRequest) -> int:
    length = request.headers.get("Content-Length", "")
    if not length.isdecimal():
        raise RefusalError(411, "The length of what is sent is not told.")
    return int(length)
