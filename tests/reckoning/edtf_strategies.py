"""Draw Extended Date/Time Format texts of every level for property tests."""

from hypothesis import strategies as st

from catalog.reckoning.edtf_grammar import read_atom

YEARS = st.integers(1, 9998).map("{:04}".format)
MARKS = st.sampled_from(["", "", "", "?", "~", "%"])
MASKS = [
    "{0}X",
    "{0}X-07",
    "{0}X-12-25",
    "19XX",
    "1XX4",
    "{0}4-XX",
    "{0}4-06-XX",
    "{0}4-1X",
    "XXXX-06",
]


@st.composite
def plain_days(draw):
    return draw(st.dates()).isoformat()[: draw(st.sampled_from([4, 7, 10]))]


@st.composite
def marked_days(draw):
    parts = draw(plain_days()).split("-")
    return "-".join(draw(MARKS) + part + draw(MARKS) for part in parts)


@st.composite
def masked_days(draw):
    return draw(st.sampled_from(MASKS)).format(draw(st.integers(100, 999))) + draw(MARKS)


@st.composite
def seasons(draw):
    return f"{draw(YEARS)}-{draw(st.integers(21, 41))}{draw(MARKS)}"


@st.composite
def long_years(draw):
    year = draw(st.integers(10_000, 10**9)) * draw(st.sampled_from([1, -1]))
    return f"Y{year}{draw(st.sampled_from(['', 'S2', 'S4']))}"


@st.composite
def ancient_years(draw):
    return f"-{draw(st.integers(1, 9999)):04}{draw(st.sampled_from(['', 'S1', '-02', '-02-03']))}"


@st.composite
def timed_days(draw):
    zone = draw(st.sampled_from(["", "Z", "-04", "+04:30"]))
    return f"{draw(st.dates()).isoformat()}T{draw(st.times()).isoformat('seconds')[:8]}{zone}"


ATOMS = plain_days() | marked_days() | masked_days() | seasons() | long_years() | ancient_years()


@st.composite
def pairs(draw):
    """Draw two dates, the one that begins first in front."""
    both = [draw(ATOMS), draw(ATOMS)]
    return sorted(both, key=lambda text: read_atom(text).first or (0, 1, 1))


@st.composite
def intervals(draw):
    start, end = draw(pairs())
    shape = draw(st.sampled_from(["{0}/{1}", "{0}/..", "../{1}", "{0}/", "/{1}"]))
    return shape.format(start, end)


@st.composite
def sets(draw):
    start, end = draw(pairs())
    shape = draw(
        st.sampled_from(
            ["{0}..{1}", "{0},{1}", "..{0},{1}", "{0},{1}..", "{0},{0}..{1}", "{0}", "..{0}"]
        )
    )
    opening, closing = draw(st.sampled_from(["[]", "{}"]))
    return opening + shape.format(start, end) + closing


VALUES = ATOMS | timed_days() | intervals() | sets()
