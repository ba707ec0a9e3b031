"""Addresses for signing in and out."""

from django.urls import path

from catalog.views import session

urlpatterns = [
    path("sign-in/", session.sign_in, name="login"),
    path("sign-out/", session.sign_out, name="logout"),
]
