"""Signing in and out."""

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.views import LoginView, LogoutView
from django.http import HttpRequest, HttpResponseBase
from django.views.decorators.http import require_POST

from catalog.models import Member
from catalog.operations.visits import end_visit

sign_in = login_not_required(
    LoginView.as_view(
        template_name="catalog/session/sign_in.html",
        redirect_authenticated_user=True,
        # Django would name the site by its address.
        extra_context={"site_name": settings.SITE_NAME},
    )
)
_sign_out = LogoutView.as_view()


@login_not_required
@require_POST
def sign_out(request: HttpRequest) -> HttpResponseBase:
    """Sign out, with which the visit is over: what others do from now on is news."""
    if isinstance(request.user, Member):
        end_visit(request.user)
    return _sign_out(request)
