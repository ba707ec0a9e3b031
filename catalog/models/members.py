"""Who signs in, and what each of them may do."""

from django.contrib.auth.models import AbstractUser
from django.db import models
from simple_history.models import HistoricalRecords


class Role(models.TextChoices):
    VISITOR = "visitor", "visitor"
    VOLUNTEER = "volunteer", "volunteer"
    CURATOR = "curator", "curator"
    STEWARD = "steward", "steward"


RANKS = {role: rank for rank, role in enumerate(Role)}


class Member(AbstractUser):
    """A person with a login; each role may do all that the roles before it may."""

    role = models.CharField(max_length=10, choices=Role.choices, default=Role.VOLUNTEER)
    party = models.OneToOneField(
        "catalog.Party",
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name="member",
        help_text="The same person as donor, speaker or keeper in the record.",
    )
    # When somebody signs in is nobody's business, and would write history at every sign-in.
    last_login = None
    history = HistoricalRecords(excluded_fields=["password"])

    class Meta:
        ordering = ["first_name", "username"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(role__in=Role.values), name="member_role_known"
            )
        ]

    def __str__(self) -> str:
        return self.get_full_name() or self.username

    def may(self, role: Role | str) -> bool:
        return self.is_active and RANKS[Role(self.role)] >= RANKS[Role(role)]

    @property
    def is_volunteer(self) -> bool:
        return self.may(Role.VOLUNTEER)

    @property
    def is_curator(self) -> bool:
        return self.may(Role.CURATOR)

    @property
    def is_steward(self) -> bool:
        return self.may(Role.STEWARD)
