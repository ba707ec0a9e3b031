"""Addresses of wants, their public pages, and the answers to them."""

from django.urls import path

from catalog.views import answers, wanted, wants

urlpatterns = [
    path("wants/", wants.want_list, name="want-list"),
    path("wants/add/", wants.want_add, name="want-add"),
    path("wants/<slug:slug>/", wants.want_detail, name="want-detail"),
    path("wants/<slug:slug>/change/", wants.want_change, name="want-change"),
    path("wants/<slug:slug>/publish/", wants.want_publish, name="want-publish"),
    path("wants/<slug:slug>/hide/", wants.want_hide, name="want-hide"),
    path("wants/<slug:slug>/close/", wants.want_close, name="want-close"),
    path("wants/<slug:slug>/reopen/", wants.want_reopen, name="want-reopen"),
    path("wants/<slug:slug>/print/", wants.want_print, name="want-print"),
    path("answers/", answers.answer_list, name="answer-list"),
    path("answers/<int:pk>/", answers.answer_detail, name="answer-detail"),
    path("answers/<int:pk>/acknowledge/", answers.answer_acknowledge, name="answer-acknowledge"),
    path("answers/<int:pk>/source/", answers.answer_source, name="answer-source"),
    path("answers/<int:pk>/accession/", answers.answer_accession, name="answer-accession"),
    path("answers/<int:pk>/party/", answers.answer_party, name="answer-party"),
    path("answers/<int:pk>/remove/", answers.answer_remove, name="answer-remove"),
    path("wanted/", wanted.wanted_list, name="wanted"),
    path("wanted/feed/", wanted.feed, name="wanted-feed"),
    path("wanted/<slug:slug>/", wanted.wanted_detail, name="wanted-detail"),
    path("wanted/<slug:slug>/thanks/", wanted.wanted_thanks, name="wanted-thanks"),
    path("wanted/<slug:slug>/sheet/", wanted.wanted_print, name="wanted-print"),
]
