"""Signing in and out."""

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.views import LoginView, LogoutView

sign_in = login_not_required(
    LoginView.as_view(
        template_name="catalog/session/sign_in.html",
        redirect_authenticated_user=True,
        # Django would name the site by its address.
        extra_context={"site_name": settings.SITE_NAME},
    )
)
sign_out = login_not_required(LogoutView.as_view())
