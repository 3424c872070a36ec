"""Files of measuring cards: for kinds, for the tools of a workshop, for a list without measures."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from cleatwright.base.errors import ImportTableError, InputError, MeasureError
from cleatwright.base.gathering import in_file
from cleatwright.base.lengths import LengthUnit
from cleatwright.base.place import InFile
from cleatwright.base.stages.run import Run
from cleatwright.jobs.measuring import measuring_card, tool_fields
from cleatwright.papers.cards.card import MEASURING_CARD
from cleatwright.papers.cards.sheet import CARD_SHEETS
from cleatwright.papers.cards.view import CardTool, CardView
from cleatwright.papers.kit.svg_pdf import PDF
from cleatwright.project.places import output_folder
from cleatwright.project.publishing import Change, publish
from cleatwright.tools.registry import KINDS
from cleatwright.tools.registry import kind as kind_of
from cleatwright.workshop.document.entries import Tool, ToolItem
from cleatwright.workshop.document.store import document_path, load
from cleatwright.workshop.tables.importing import import_tools

SHEET = "cards.pdf"


@dataclass(frozen=True)
class CardsMade:
    """What was written: the folder, the kinds, how many tools have fields, and each file."""

    folder: Path
    kinds: tuple[str, ...]
    tools: int
    pages: int
    changes: tuple[Change, ...]

    def as_dict(self) -> dict[str, object]:
        """Return the answer for programs."""
        return {
            "folder": str(self.folder),
            "kinds": list(self.kinds),
            "tools": self.tools,
            "pages": self.pages,
            "files": [{"path": one.path, "what": one.what} for one in self.changes],
        }


@dataclass(frozen=True)
class ListedTool:
    """A tool of a list, with what is known of its measures in mm."""

    name: str
    kind: str
    measures: Mapping[str, float]


def make_cards(
    views: Sequence[CardView], out: Path, *, title: str, paper: str, run: Run | None = None
) -> CardsMade:
    """Write a card for each view and all of them on pages, and return what changed.

    Args:
        views: What is on the cards.
        out: The folder.
        title: What stands on each page.
        paper: The name of the paper.
        run: The run that keeps what was drawn before; one of its own when None.

    Raises:
        UnknownNameError: There is no such paper.
        MeasureError: There are no cards.
        OutputError: The folder cannot be written.
    """
    output_folder(out)
    run = run or Run()
    pages = run.need(CARD_SHEETS, (tuple(views), title, paper))
    files = {
        f"cards/{view.kind}.svg": run.need(MEASURING_CARD, replace(view, tools=()))
        for view in views
    }
    files |= {f"pages/page-{number:03}.svg": page for number, page in enumerate(pages, 1)}
    files[SHEET] = run.need(PDF, (pages, title))
    changes = publish(out, files, kind="cards")
    kinds = tuple(view.kind for view in views)
    return CardsMade(out, kinds, sum(len(v.tools) for v in views), len(pages), changes)


def cards_pdf(views: Sequence[CardView], *, title: str, paper: str, run: Run) -> bytes:
    """Return a card for each view on pages, as one PDF file.

    Raises:
        UnknownNameError: There is no such paper.
        MeasureError: There are no cards.
    """
    pages = run.need(CARD_SHEETS, (tuple(views), title, paper))
    return run.need(PDF, (pages, title))


def kind_cards(kinds: str = "", *, unit: LengthUnit = "mm") -> tuple[CardView, ...]:
    """Return the cards of kinds, named with commas between them; of all kinds for "".

    Args:
        kinds: Their names.
        unit: The unit in which the owner measures.

    Raises:
        UnknownNameError: There is no such kind.
    """
    names = [name.strip() for name in kinds.split(",") if name.strip()]
    return tuple(measuring_card(name, unit=unit) for name in dict.fromkeys(names or KINDS))


def workshop_cards(place: Path) -> tuple[str, tuple[CardView, ...]]:
    """Return the name of a workshop and the cards of its kinds with fields for its tools.

    A measure that stands in the document is printed; a nominal size is a guess, and is left
    to be measured.

    Raises:
        DocumentError: The workshop cannot be read.
        UnknownNameError: A tool is of a kind that is not there.
        MeasureError: A tool has a measure that its kind does not have, or there are no tools.
    """
    workshop = load(place)
    tools = [one for tool in workshop.tools for one in _listed(tool)]
    with in_file(str(document_path(place))):
        return workshop.name, _cards(tools, unit=workshop.units)


def unit_of(workshop: Path | None) -> LengthUnit:
    """Return the unit in which the owner of a workshop measures; mm where there is none.

    Raises:
        DocumentError: The workshop cannot be read.
    """
    return "mm" if workshop is None else load(workshop).units


def table_cards(table: Path, *, unit: LengthUnit = "mm") -> tuple[CardView, ...]:
    """Return the cards for a CSV or XLSX list with a name and a kind for each tool.

    Measures that the list has are printed; a list may have none.

    Args:
        table: The list.
        unit: The unit in which the owner measures, and in which bare lengths of the list count.

    Raises:
        ImportTableError: The list cannot be read, or a row of it.
    """
    report = import_tools(table, check=_known, units=unit)
    if report.refused:
        faults = "; ".join(f"row {row.number}: {row.reason}" for row in report.refused)
        raise ImportTableError(faults, place=InFile(str(table)), todo="Mend these rows")
    tools = [one for row in report.rows if row.tool is not None for one in _listed(row.tool)]
    with in_file(str(table)):
        return _cards(tools, unit=unit)


def _known(kind: str, measures: Mapping[str, float]) -> None:
    """Refuse a kind, or the name of a measure, that is not there; values are not judged."""
    names = [row.name for row in kind_of(kind).card]
    if strange := sorted(set(measures) - set(names)):
        raise MeasureError(f'a {kind} has no measure "{strange[0]}"', allowed=f"{', '.join(names)}")


def _listed(tool: Tool) -> Iterable[ListedTool]:
    items: list[ToolItem] = list(tool.items())
    if tool.sizes or tool.nominal_sizes:
        return [ListedTool(item.name, item.kind, item.measures.as_dict()) for item in items]
    equal = f" ({len(items)} equal ones)" if len(items) > 1 else ""
    return [ListedTool(f"{tool.name}{equal}", tool.kind, tool.measures.as_dict())]


def _cards(tools: Sequence[ListedTool], *, unit: LengthUnit = "mm") -> tuple[CardView, ...]:
    if not tools:
        raise MeasureError("there are no tools to measure", todo="List a tool")
    for one in tools:
        try:
            _known(one.kind, one.measures)
        except InputError as error:
            raise error.located(f'tool "{one.name}"') from None
    by_kind: dict[str, list[CardTool]] = {}
    for one in tools:
        fields = CardTool(one.name, tool_fields(one.kind, one.measures, unit=unit))
        by_kind.setdefault(one.kind, []).append(fields)
    return tuple(measuring_card(kind, tools=fields, unit=unit) for kind, fields in by_kind.items())
