"""Refuse limits that are crossed when worn, and let limits of wear stand alone."""

from django.db import migrations, models
from django.db.models import F, Q


def in_order(lower, upper):
    return (
        Q(**{f"{lower}__isnull": True})
        | Q(**{f"{upper}__isnull": True})
        | Q(**{f"{upper}__gte": F(lower)})
    )


def uncross(apps, schema_editor):
    """Take limits of wear off that cross another limit, and keep them in the note."""
    Specification = apps.get_model("catalog", "Specification")
    crossed = Specification.objects.exclude(
        in_order("worn_lower_mm", "worn_upper_mm")
        & in_order("lower_mm", "worn_upper_mm")
        & in_order("worn_lower_mm", "upper_mm")
    )
    for row in crossed:
        ends = [
            f"{end.normalize():f}"
            for end in (row.worn_lower_mm, row.worn_upper_mm)
            if end is not None
        ]
        told = f"limits when worn crossed those as new: {' to '.join(ends)} mm"
        row.note = f"{told}. {row.note}"[:240]
        row.worn_lower_mm = row.worn_upper_mm = None
        row.save(update_fields=["note", "worn_lower_mm", "worn_upper_mm"])
    MatingRule = apps.get_model("catalog", "MatingRule")
    for row in MatingRule.objects.exclude(in_order("least_mm", "worn_greatest_mm")):
        row.note = f"crossed when worn: at most {row.worn_greatest_mm} mm. {row.note}"[:240]
        row.worn_greatest_mm = None
        row.save(update_fields=["note", "worn_greatest_mm"])


class Migration(migrations.Migration):
    dependencies = [("catalog", "0004_visits")]

    operations = [
        migrations.RunPython(uncross, migrations.RunPython.noop),
        migrations.RemoveConstraint("specification", "specification_says_something"),
        migrations.RemoveConstraint("matingrule", "mating_rule_says_something"),
        migrations.RemoveConstraint("matingrule", "mating_rule_worn_beyond_new"),
        migrations.AddConstraint(
            "specification",
            models.CheckConstraint(
                condition=Q(lower_mm__isnull=False)
                | Q(upper_mm__isnull=False)
                | Q(worn_lower_mm__isnull=False)
                | Q(worn_upper_mm__isnull=False),
                name="specification_says_something",
                violation_error_message="Give a lower or an upper limit, as new or when worn.",
            ),
        ),
        migrations.AddConstraint(
            "specification",
            models.CheckConstraint(
                condition=in_order("worn_lower_mm", "worn_upper_mm")
                & in_order("lower_mm", "worn_upper_mm")
                & in_order("worn_lower_mm", "upper_mm"),
                name="specification_worn_in_order",
                violation_error_message="An upper limit is below a lower limit.",
            ),
        ),
        migrations.AddConstraint(
            "matingrule",
            models.CheckConstraint(
                condition=Q(least_mm__isnull=False)
                | Q(greatest_mm__isnull=False)
                | Q(worn_greatest_mm__isnull=False),
                name="mating_rule_says_something",
                violation_error_message="Give the least or the greatest clearance.",
            ),
        ),
        migrations.AddConstraint(
            "matingrule",
            models.CheckConstraint(
                condition=in_order("greatest_mm", "worn_greatest_mm"),
                name="mating_rule_worn_beyond_new",
                violation_error_message="The limit when worn is tighter than the limit as new.",
            ),
        ),
        migrations.AddConstraint(
            "matingrule",
            models.CheckConstraint(
                condition=in_order("least_mm", "worn_greatest_mm"),
                name="mating_rule_worn_in_order",
                violation_error_message="The greatest clearance when worn is below the least.",
            ),
        ),
    ]
