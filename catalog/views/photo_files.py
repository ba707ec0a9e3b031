"""Sending the files of photos to those who may see them, and to nobody else."""

from django.contrib.auth.decorators import login_not_required
from django.core.files.storage import default_storage
from django.http import FileResponse, Http404, HttpRequest, HttpResponseBase
from django.shortcuts import get_object_or_404
from django.utils.cache import get_conditional_response, patch_vary_headers
from django.views.decorators.http import require_safe

from catalog.http import MemberRequest
from catalog.models import Photo, Role
from catalog.models.photos import SUFFIXES, WIDTHS, derived_name
from catalog.queries.photos import seen_by
from catalog.views.fetch import fetch

MEDIA_TYPES = {suffix: media_type for media_type, suffix in SUFFIXES.items()}
# Only the larger copies are made as JPEG too; whoever cannot show WebP gets the next of those.
LEAST_JPEG = 960
A_YEAR = 365 * 24 * 3600


@login_not_required
@require_safe
def photo_file(request: HttpRequest, pk: int, width: int, suffix: str = "") -> HttpResponseBase:
    """Send a copy of a photo, as WebP where the browser shows it."""
    if width not in WIDTHS or suffix not in {"", *MEDIA_TYPES}:
        raise Http404(f"Photos are sent {WIDTHS} pixels wide, as {' or '.join(MEDIA_TYPES)}.")
    photo = get_object_or_404(seen_by(request.user), pk=pk)
    chosen = suffix or ("webp" if request.accepts("image/webp") else "jpg")
    bound = max(width, LEAST_JPEG) if chosen == "jpg" else width
    etag = f'"{photo.sha256}-{bound}-{chosen}"'
    answer = get_conditional_response(request, etag=etag) or _file(
        derived_name(photo.sha256, bound, chosen), MEDIA_TYPES[chosen]
    )
    answer.headers["ETag"] = etag
    if not suffix:
        patch_vary_headers(answer, ["Accept"])
    # The bytes behind an address never change, only who may see them; so never in shared caches.
    answer.headers["Cache-Control"] = f"private, max-age={A_YEAR}, immutable"
    return answer


@require_safe
def photo_original(request: MemberRequest, pk: int) -> HttpResponseBase:
    """Send the original as it came, to be saved; it may tell where it was taken."""
    photo = fetch(Photo.objects.all(), request, Role.VOLUNTEER, pk=pk)
    suffix = photo.original.name.rpartition(".")[2]
    called = photo.original_name or f"photo-{photo.pk}.{suffix}"
    answer = _file(photo.original.name, photo.media_type, save_as=called)
    answer.headers["Cache-Control"] = "private, no-cache"
    return answer


def _file(name: str, media_type: str, *, save_as: str = "") -> HttpResponseBase:
    try:
        file = default_storage.open(name)
    except FileNotFoundError as problem:
        raise Http404("The file of this photo is not in the store.") from problem
    answer = FileResponse(
        file, content_type=media_type, as_attachment=bool(save_as), filename=save_as
    )
    answer.headers["Content-Security-Policy"] = "default-src 'none'; sandbox"
    return answer
