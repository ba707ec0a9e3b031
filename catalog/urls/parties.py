"""Addresses of people and organizations."""

from django.urls import path

from catalog.views import parties

urlpatterns = [
    path("parties/", parties.party_list, name="party-list"),
    path("parties/add/", parties.party_add, name="party-add"),
    path("parties/<int:pk>/", parties.party_detail, name="party-detail"),
    path("parties/<int:pk>/change/", parties.party_change, name="party-change"),
]
