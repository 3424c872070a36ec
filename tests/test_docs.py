"""The pages in docs/ are those that the program writes, and what they say can be used."""

from __future__ import annotations

import importlib.util
import random
import re
import sys
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from cleatwright.base.errors import DesignError
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.design.catalogue import kinds_held
from cleatwright.holders.registry import FAMILIES
from cleatwright.tools.registry import KINDS, ordinary_outline, tool_body
from cleatwright.workshop.document.store import checked

ROOT = Path(__file__).resolve().parent.parent
DOCS = ROOT / "docs"
PAGES = (
    ROOT / "README.md",
    ROOT / "CONTRIBUTING.md",
    *sorted(DOCS.glob("*.md")),
    *sorted(DOCS.glob("catalogue/*.md")),
)
GENERATED = (
    "holders.md",
    "kinds.md",
    "pictures/bicycle-room.svg",
    "report.schema.json",
    "workshop.md",
    "catalogue/index.md",
    *(f"catalogue/{name}.md" for name in FAMILIES),
    *(
        f"catalogue/pictures/{f.name}{side}.png"
        for f in FAMILIES.values()
        if kinds_held(f)
        for side in ("", "-behind", "-cut")
    ),
    *(f"catalogue/cards/{name}.svg" for name in KINDS),
    *(
        f"pictures/grooves-{mount}{side}.png"
        for mount in ("wall-screws", "perforated-board", "t-slot")
        for side in ("", "-cut")
    ),
)
FENCED = re.compile(r"^```[a-z]*\n.*?^```$", re.MULTILINE | re.DOTALL)
TOML = re.compile(r"^```toml\n(.*?)^```$", re.MULTILINE | re.DOTALL)
DRAWN = re.compile(r"-?\d+\.\d+")
LINK = re.compile(r"(?:\]\(|href=\"|src=\")([^)\s\"]+)[)\"]")
# pixels of a picture that another processor may round to the other side of an edge
STRAY_SHARE = 0.005


@pytest.fixture(scope="module")
def generator() -> Iterator[object]:
    """Return docs/generate.py as a module."""
    sys.path.insert(0, str(DOCS))
    spec = importlib.util.spec_from_file_location("docs_generate", DOCS / "generate.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    yield module
    del sys.modules[spec.name]
    sys.path.remove(str(DOCS))


def called(module: object, name: str) -> Callable[..., object]:
    """Return a function of the generator."""
    return getattr(module, name)


def toml_blocks(page: Path) -> list[str]:
    """Return the fenced TOML of a page, in order."""
    return TOML.findall(page.read_text(encoding="utf-8"))


def anchors(page: Path) -> set[str]:
    """Return the anchors of a page's headings.

    Common practice of Markdown hosts, no source: lower case, spaces to hyphens, other signs out.
    """
    text = FENCED.sub("", page.read_text(encoding="utf-8"))
    titles = re.findall(r"^#+ (.+)$", text, re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", title.lower()).replace(" ", "-") for title in titles}


def test_pages_are_what_the_program_writes(generator: object, tmp_path: Path, known: Store) -> None:
    """Every generated file in docs/ is byte for byte what "make docs" writes now.

    A picture that says that it was drawn from the same meshes by the same code is drawn anew only
    when it is among the few that are drawn each time, others each time.
    """
    pictures = [name for name in GENERATED if name.endswith(".png")]
    anew = random.sample(pictures, 3)
    stamp = called(sys.modules["stamped_pictures"], "stamp")

    def drawn(path: str, picture: Any) -> bytes:
        there = DOCS / path
        known = there.is_file() and stamp(there) == picture.drawn_from
        return there.read_bytes() if known and path not in anew else picture.png()

    called(generator, "write")(tmp_path, Run(known), draw=drawn)
    made = {path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*") if path.is_file()}
    assert made == set(GENERATED)
    in_docs = {p.relative_to(DOCS).as_posix() for p in DOCS.glob("catalogue/**/*") if p.is_file()}
    assert in_docs <= made
    stale = [n for n in GENERATED if not same_page((DOCS / n), (tmp_path / n))]
    assert not stale, f'stale: {", ".join(stale)}; run "make docs"'


def same_page(one: Path, other: Path) -> bool:
    """Tell whether two pages are equal; drawn numbers may differ by a twentieth of a millimetre.

    Another processor may round the last digit of a drawing otherwise, but not of a text.
    """
    if one.suffix == ".png":
        return same_picture(one, other)
    texts = [path.read_text(encoding="utf-8") for path in (one, other)]
    if one.suffix != ".svg":
        return texts[0] == texts[1]
    words = [DRAWN.sub("#", text) for text in texts]
    numbers = [[float(number) for number in DRAWN.findall(text)] for text in texts]
    return words[0] == words[1] and numbers[0] == pytest.approx(numbers[1], abs=0.05)


def same_picture(one: Path, other: Path) -> bool:
    """Tell whether two pictures are equal but for a few pixels."""
    pixels = [np.asarray(Image.open(path).convert("RGB"), dtype=np.int16) for path in (one, other)]
    if pixels[0].shape != pixels[1].shape:
        return False
    strays = np.abs(pixels[0] - pixels[1]).max(axis=2) > 8
    return float(strays.mean()) <= STRAY_SHARE


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_links_lead_to_files_and_headings_that_exist(page: Path) -> None:
    """Each relative link of a page names a file that is there, and a heading that it has."""
    dead: list[str] = []
    for link in LINK.findall(FENCED.sub("", page.read_text(encoding="utf-8"))):
        if link.startswith(("https://", "mailto:")):
            continue
        name, _, heading = link.partition("#")
        target = page.parent / name if name else page
        if not target.exists() or (heading and heading not in anchors(target)):
            dead.append(link)
    assert not dead


def test_smallest_document_loads() -> None:
    """The first example of workshop.md is a whole document with one tool."""
    workshop = checked(toml_blocks(DOCS / "workshop.md")[0])
    assert [item.name for item in workshop.items()] == ["Screwdriver"]


def test_examples_of_the_tables_make_one_document() -> None:
    """The examples below the first, one after the other, load and hold what they show."""
    blocks = toml_blocks(DOCS / "workshop.md")[1:]
    workshop = checked("\n".join(blocks))
    # every table of the document has an example, that of tools two
    assert len(blocks) == 1 + len(
        re.findall(r"<!-- keys of", (DOCS / "workshop.md").read_text("utf-8"))
    )
    assert len(workshop.items()) == 1 + 3 + 3 + 3
    assert [len(workshop.items_of(holder)) for holder in workshop.holders] == [1, 3, 3]


def test_all_toml_parses() -> None:
    """Each fenced TOML of a page is sound TOML, also when it is only a part of a document."""
    blocks = [block for page in PAGES for block in toml_blocks(page)]
    assert len(blocks) > len(KINDS)
    for block in blocks:
        assert tomllib.loads(block)


def test_each_kind_has_an_example_that_makes_a_tool() -> None:
    """The example of each kind on kinds.md is taken by the document and by the kind."""
    head = toml_blocks(DOCS / "workshop.md")[0].partition("[[tool]]")[0]
    examples = checked(head + "\n".join(toml_blocks(DOCS / "kinds.md")))
    assert [item.kind for item in examples.items()] == list(KINDS)
    for item in examples.items():
        outline = ordinary_outline(item.kind)
        assert (item.outline is None) == (outline is None)
        made = tool_body(item.kind, item.measures.as_dict(), outline=outline)
        assert made.kind == item.kind


def test_spelled_lengths_of_the_introduction_are_read() -> None:
    """The ways of writing that workshop.md names give the values of the 1959 yard and pound.

    Source: international yard and pound agreement of 1959 (1 in = 25.4 mm, 1 lb = 0.45359237 kg).
    """
    text = (DOCS / "workshop.md").read_text(encoding="utf-8")
    spelled = {'"27,5 mm"': 27.5, '"3/4 in"': 19.05, "'1-3/8\"'": 34.925, '"2 ft 3 in"': 685.8}
    head = toml_blocks(DOCS / "workshop.md")[0]
    for written, mm in spelled.items():
        assert f"`{written}`" in text
        tool = checked(head.replace("shank_length = 100", f"shank_length = {written}")).tools[0]
        assert tool.measures.as_dict()["shank_length"] == pytest.approx(mm, rel=1e-12)
    assert '`"1 lb 4 oz"`' in text
    assert checked(head + 'mass = "1 lb 4 oz"\n').tools[0].mass_kg == pytest.approx(
        1.25 * 0.45359237, rel=1e-12
    )


def test_a_key_without_words_stops_the_generator(generator: object) -> None:
    """What is told and what is there must be the same, both ways."""
    called(generator, "require_equal")(("a", "b"), ("b", "a"), where="page")
    for told, there in ((("a",), ("a", "b")), (("a", "b"), ("a",))):
        with pytest.raises(DesignError, match="b"):
            called(generator, "require_equal")(told, there, where="page")


@pytest.mark.parametrize(
    ("moves", "told"),
    [
        (((0.0, 0.0, 4.0), (0.0, 36.5, 0.0)), "up 4 mm, then towards you 36.5 mm"),
        (((0.0, 17.32, 10.0),), "towards you 17.3 mm and up 10 mm"),
        (((-5.0, 0.0, -0.01),), "to the right 5 mm"),
    ],
)
def test_a_way_out_is_told_as_a_person_makes_it(
    generator: object, moves: tuple[tuple[float, ...], ...], told: str
) -> None:
    """The x of a holder runs to the left of a person who faces the wall, y to that person."""
    assert generator is not None
    assert called(sys.modules["family_pages"], "way_in_words")(moves) == told
