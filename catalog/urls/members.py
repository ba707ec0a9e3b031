"""Addresses of members and of one's own password."""

from django.urls import path

from catalog.views import members

urlpatterns = [
    path("members/", members.member_list, name="member-list"),
    path("members/add/", members.member_add, name="member-add"),
    path("members/<int:pk>/", members.member_change, name="member-change"),
    path("members/<int:pk>/password/", members.member_password, name="member-password"),
    path("password/", members.own_password, name="own-password"),
]
