"""The hazards that old pieces carry, each with the caution shown wherever such a piece is.

The cautions are the usual ones of the trade (common practice, no source). They replace neither
local codes nor people qualified for the work, and each says so.
"""

from dataclasses import dataclass

DEFER = "Follow local codes, and leave it to qualified people where these ask for them."


@dataclass(frozen=True, slots=True)
class HazardWords:
    """A hazard by its slug, its name in two or three words, and what to mind."""

    slug: str
    label: str
    caution: str


HAZARDS = (
    HazardWords(
        "asbestos",
        "asbestos possible",
        "Lagging, gaskets and packing of this age may hold asbestos. Do not cut, brush, blow or "
        f"sweep it; keep it damp and closed in, and have it sampled. {DEFER}",
    ),
    HazardWords(
        "lead-paint",
        "lead paint possible",
        "Old paint may hold lead. No dry sanding, burning or blasting without dust control; wear "
        f"a fitting respirator, wash before eating. {DEFER}",
    ),
    HazardWords(
        "stored-energy",
        "stored spring energy",
        "A loaded spring can throw its parts. Hold it in a fixture made for it before anything is "
        f"undone, and stand out of its line. {DEFER}",
    ),
    HazardWords(
        "heavy",
        "heavy, needs lifting gear",
        "Too heavy to lift by hand. Use inspected lifting gear, sling it about its center of "
        f"mass, and keep everybody from under it. {DEFER}",
    ),
    HazardWords(
        "pressure",
        "holds pressure",
        "A boiler, reservoir or pressure fitting. Its strength cannot be judged by looking; "
        f"only inspection under the boiler code can. {DEFER}",
    ),
    HazardWords(
        "sharp",
        "sharp or jagged",
        f"Broken castings and torn sheet cut. Wear gloves, and pack the edges for storage. {DEFER}",
    ),
    HazardWords(
        "oil-residue",
        "old oil or grease",
        "Old oil may be contaminated, and oily waste can take fire by itself. Wear gloves; keep "
        f"oily rags in a closed metal bin. {DEFER}",
    ),
)
