"""Factories of members, parties and what they say."""

import factory
from factory.django import DjangoModelFactory

from catalog import models
from catalog.models.members import Role


class MemberFactory(DjangoModelFactory):
    class Meta:
        model = models.Member
        skip_postgeneration_save = True

    username = factory.Sequence(lambda n: f"member{n}")
    password = "!"
    role = Role.VOLUNTEER


class PartyFactory(DjangoModelFactory):
    class Meta:
        model = models.Party

    name = factory.Sequence(lambda n: f"Party {n}")
    sort_name = factory.SelfAttribute("name")


class SourceFactory(DjangoModelFactory):
    class Meta:
        model = models.Source

    title = factory.Sequence(lambda n: f"Source {n}")
