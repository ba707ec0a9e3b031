"""The words for what database triggers refuse, where a constraint cannot say it.

The triggers themselves are in the migration ``0002_guards``; each raises its name.
"""

GUARDS = {
    "fitting_within_lot": "No piece of this lot is left: all are reserved, on trial or fitted.",
    "lot_covers_fittings": "More pieces of this lot are reserved, on trial or fitted than that.",
    "location_tree_without_loop": "A location cannot be inside itself or inside what it contains.",
    "part_nest_without_loop": "A part cannot be inside itself or inside what it contains.",
}
