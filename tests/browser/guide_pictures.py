"""The pictures of the guide: which page each shows, to whom, how large, and from where on."""

from collections.abc import Callable
from dataclasses import dataclass

from django.urls import reverse
from playwright.sync_api import FilePayload, Page

from catalog.models import Accession, Location, Part, Patent, Plan, Source, Vehicle, Want
from catalog.queries.survivors import survivors
from tests.browser import phone_scenes

# A list as a group may have it, with a header of its own and one row that cannot be read.
PALLET = """No,Item,Qty,Where,Bolt centers,Remarks
1,axlebox,2,Wagon shop / Rack B / Shelf 1,8 in,lettered MFT
2,hinge strap,1,Wagon shop / Rack B / Shelf 1,,two of three holes
3,drawhook,half,,,broken at the shank
4,brass,4 off,Wagon shop / Rack B / Shelf 2,,
"""


def untouched(page: Page) -> None:
    """Leave the page as it came."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture's name, its page and who sees it, its height, and what is at its top."""

    name: str
    address: Callable[[], str]
    role: str = "curator"
    height: int = 760
    top: str = ""
    before: Callable[[Page], None] = untouched
    theme: str = "light"

    @property
    def is_phone(self) -> bool:
        return self.name.endswith("-phone")


def page(name: str, **which: object) -> Callable[[], str]:
    return lambda: reverse(name, kwargs=which or None)


def of_part(name: str, number: str) -> Callable[[], str]:
    """Return where a page of the part with this number is, which is known once it is recorded."""
    year, accession, item = number.split(".")
    rows = Part.objects.filter(accession__year=year, accession__serial=accession, item=item)
    return lambda: reverse(name, kwargs={"pk": rows.get().pk})


def accession() -> str:
    return Accession.objects.get(year=2026, serial=1).get_absolute_url()


def history() -> str:
    part = Part.objects.get(accession__year=2026, accession__serial=1, item=15)
    return reverse("record-history", kwargs={"kind": "part", "pk": part.pk})


def provenance() -> str:
    vehicle = Vehicle.objects.get(slug="wagon-14")
    return reverse("provenance", kwargs={"kind": "vehicle", "pk": vehicle.pk})


def figure() -> str:
    pk = Patent.objects.get(country="XZ").figures.order_by("pk").first().pk
    return reverse("patent-figure", kwargs={"pk": pk})


def drawhead_wanted() -> Want:
    return Want.objects.get(vehicle__slug="wagon-22")


def want() -> str:
    return reverse("wanted-detail", kwargs={"slug": drawhead_wanted().slug})


def visited() -> Source:
    return survivors()[0].source


def record_sheet(kind: str, pk: int) -> str:
    return reverse("print-sheet", kwargs={"kind": kind, "pk": pk})


def stock_take() -> str:
    shelf = Location.objects.get(name="Shelf 2", parent__name="Rack B")
    return reverse("stock-take", kwargs={"pk": shelf.pk})


def plan_with_castings() -> str:
    return Plan.objects.filter(state="ready").order_by("pk")[1].get_absolute_url()


def survivor() -> str:
    return reverse("survivor-detail", kwargs={"pk": visited().pk})


def read_off(page: Page) -> None:
    page.get_by_label("Measured at").select_option(index=1)
    page.get_by_label("With").select_option(label="Vernier caliper, 0.02 mm")
    page.get_by_label("Reading").press_sequentially("2 1/2 in")
    page.get_by_text("2½ in = 63.500 ± 0.029 mm").wait_for()


def open_index(page: Page) -> None:
    page.locator("details.menu summary").click()


def read_list_in(page: Page) -> None:
    file: FilePayload = {"name": "pallet.csv", "mimeType": "text/csv", "buffer": PALLET.encode()}
    page.locator("input[type=file]").set_input_files(file)
    page.get_by_role("button", name="See what is in it").click()
    page.get_by_role("heading", name="What the columns mean").wait_for()


def read_list_on(page: Page) -> None:
    read_list_in(page)
    page.locator("main form button.primary").click()
    page.wait_for_load_state()


PICTURES = [
    Picture("sign-in-phone", page("login"), role="", height=700),
    Picture("shop-today-desk", page("home"), height=860),
    Picture("shop-today-phone", page("home"), role="volunteer"),
    Picture("index-phone", page("home"), role="volunteer", before=open_index),
    Picture("find-phone", lambda: reverse("search") + "?words=axlebox", role="volunteer"),
    Picture("parts-desk", lambda: reverse("part-list") + "?standing=unidentified"),
    Picture(
        "take-in-phone",
        page("take-in"),
        role="volunteer",
        height=900,
        before=phone_scenes.take_one_in,
    ),
    Picture("part-desk", of_part("part-detail", "2026.1.15"), height=860),
    Picture("part-phone", of_part("part-detail", "2026.1.10"), role="volunteer"),
    Picture("what-it-may-be-desk", of_part("part-identity", "2026.1.20"), height=820),
    Picture(
        "what-it-fits-phone",
        of_part("part-fits", "2026.1.1"),
        role="volunteer",
        top="h2:has-text('Open positions')",
    ),
    Picture("identify-phone", of_part("part-identify", "2026.1.20"), role="volunteer"),
    Picture("bench-desk", page("bench")),
    Picture("needs-all-desk", page("needs"), height=1000),
    Picture("vehicle-desk", page("vehicle-detail", slug="kestrel"), height=1180),
    Picture("vehicle-needs-desk", page("vehicle-needs", slug="wagon-31"), height=1150),
    Picture("vehicle-needs-phone", page("vehicle-needs", slug="wagon-31"), role="volunteer"),
    Picture(
        "class-desk",
        page("vehicle-class-detail", slug="class-e"),
        height=860,
        top="h2:has-text('Drawings')",
    ),
    Picture("accession-desk", accession, height=900),
    Picture("provenance-desk", provenance, height=1080),
    Picture("patent-desk", figure, height=860),
    Picture("import-columns-desk", page("part-import"), before=read_list_in),
    Picture("import-preview-desk", page("part-import"), height=1000, before=read_list_on),
    Picture("dismantling-desk", page("vehicle-dismantling", slug="kestrel")),
    Picture("tags-desk", page("tag-sheets")),
    Picture("members-desk", page("member-list"), role="steward", height=520),
    Picture("wanted-desk", page("wanted"), role="", height=640),
    Picture("wanted-phone", want, role=""),
    Picture("history-desk", history),
    Picture("blueprint-desk", page("vehicle-needs", slug="wagon-14"), height=1150, theme="dark"),
    Picture(
        "measure-phone",
        of_part("part-measure", "2026.1.7"),
        role="volunteer",
        height=1040,
        top="main img",
        before=read_off,
    ),
    Picture(
        "compare-desk",
        of_part("part-compare", "2026.1.20"),
        height=860,
        top="h2:has-text('Other parts identified')",
    ),
    Picture("sizes-desk", page("component-sizes", slug="bearing-brass"), height=720),
    Picture("plan-desk", plan_with_castings, height=1000),
    Picture("instruments-desk", page("instrument-list"), height=860),
    Picture("survivor-desk", survivor, height=860),
    Picture("map-desk", page("shed-map"), height=760),
    Picture(
        "news-phone", page("home"), role="volunteer", top="h2:has-text('Since your last visit')"
    ),
    Picture("bench-part-desk", of_part("bench-part", "2026.1.17"), height=860),
    Picture(
        "take-in-more-phone",
        page("take-in"),
        role="volunteer",
        top="summary:has-text('What it is')",
        before=phone_scenes.open_the_rest,
    ),
    Picture("move-phone", page("move"), role="volunteer", before=phone_scenes.note_a_move),
    Picture(
        "sign-in-to-send-phone",
        page("take-in"),
        role="volunteer",
        height=520,
        before=phone_scenes.ask_to_sign_in,
    ),
    Picture("kept-five-phone", page("take-in"), role="volunteer", before=phone_scenes.keep_five),
    # From here on the scenes leave something in the record.
    Picture(
        "sent-five-phone",
        page("take-in"),
        role="volunteer",
        height=420,
        before=phone_scenes.send_five,
    ),
    Picture(
        "kept-on-this-phone",
        page("take-in"),
        role="volunteer",
        height=640,
        top="[data-kept]",
        before=phone_scenes.refuse_one,
    ),
    Picture("stock-take-desk", stock_take, height=820, before=phone_scenes.compare_shelf),
    Picture(
        "photo-batch-desk", page("photo-batch"), height=1100, before=phone_scenes.settle_photos
    ),
]

# Printed sheets, of which the first page is shown: name and address of the file.
PAPERS: list[tuple[str, Callable[[], str]]] = [
    ("needs-paper", page("needs-print", slug="wagon-31")),
    ("provenance-paper", lambda: record_sheet("vehicle", Vehicle.objects.get(slug="kestrel").pk)),
    ("wanted-paper", lambda: reverse("want-print", kwargs={"slug": drawhead_wanted().slug})),
    ("measure-there-paper", lambda: reverse("survivor-print", kwargs={"pk": visited().pk})),
]
