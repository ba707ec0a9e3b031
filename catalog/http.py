"""What every request carries: the signed-in member, the site's words, and the content policy."""

from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse

from catalog.models import Member

CONTENT_POLICY = "; ".join(
    [
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob: data:",
        "connect-src 'self'",
        "font-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
        "manifest-src 'self'",
        "worker-src 'self'",
    ]
)


class MemberRequest(HttpRequest):
    """A request behind the login: its user is one of the group's members."""

    user: Member


# How browsers say that they fetch a page ahead, which nobody may ever look at.
AHEAD = ("Sec-Purpose", "Purpose", "X-Purpose", "X-Moz")


def is_looked_at(request: HttpRequest) -> bool:
    """Tell whether a person asked for the page, and not a browser that only expects them to."""
    told = " ".join(request.headers.get(name, "") for name in AHEAD).lower()
    return request.method == "GET" and "prefetch" not in told and "preview" not in told


class ContentPolicyMiddleware:
    """Let pages load from this site only, and the camera be used by this site only."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        response.headers.setdefault("Content-Security-Policy", CONTENT_POLICY)
        response.headers.setdefault("Permissions-Policy", "camera=(self), geolocation=()")
        return response


def site_context(request: HttpRequest) -> dict[str, object]:
    """Give every template the group's name."""
    return {"site_name": settings.SITE_NAME}
