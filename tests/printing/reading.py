"""Reading a printed sheet back with a reader that had no part in making it."""

from io import BytesIO

from pypdf import PdfReader

from catalog.printing.sheets import bound


def read(*documents):
    return PdfReader(BytesIO(bound(documents)))


def text_of(reader):
    """Return the words of all pages, each run of white space as one space."""
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


def in_order(text, *words):
    """Return the words in the order in which the text has them first."""
    return sorted((word for word in words if word in text), key=text.index)


def fonts_of(reader):
    """Return every font of the pages by its name, and whether its outlines are in the file."""
    found = {}
    for page in reader.pages:
        for font in page["/Resources"].get("/Font", {}).values():
            for inner in font.get("/DescendantFonts", [font]):
                descriptor = inner.get_object()["/FontDescriptor"]
                has_file = any(key.startswith("/FontFile") for key in descriptor)
                found[str(font["/BaseFont"])] = has_file
    return found


def tags_of(reader):
    """Return the kinds of structure in the tree that a screen reader follows."""
    return set(_kinds(reader.trailer["/Root"]["/StructTreeRoot"]))


def figures_of(reader):
    """Return what is said of each picture for whoever does not see it."""
    return [
        str(element.get("/Alt", ""))
        for element in _elements(reader.trailer["/Root"]["/StructTreeRoot"])
        if element.get("/S") == "/Figure"
    ]


def elements_of(reader, *kinds):
    """Return the elements of these kinds in the order in which they are read aloud."""
    return [
        element
        for element in _elements(reader.trailer["/Root"]["/StructTreeRoot"])
        if element.get("/S") in kinds
    ]


def _kinds(root):
    return [str(element["/S"]) for element in _elements(root) if "/S" in element]


def _elements(element):
    yield element
    children = element.get("/K", [])
    for child in children if isinstance(children, list) else [children]:
        inner = child.get_object()
        if isinstance(inner, dict):
            yield from _elements(inner)
