"""What is open in this program, and the work that goes on behind it."""

from __future__ import annotations

from pathlib import Path
from threading import Event, Lock, Thread

from cleatwright.base.errors import Cancelled, CleatwrightError, InputError
from cleatwright.base.stages.run import Run
from cleatwright.base.stages.store import Store
from cleatwright.jobs.recent import RecentFolders
from cleatwright.project.opened.document import READ, ReadDocument, ReadTools, read_tools
from cleatwright.project.opened.opened import Opened, OpenWorkshop
from cleatwright.project.opened.planned import PlannedDocument, planned_document
from cleatwright.web.chosen import ChosenPlan
from cleatwright.web.live import Hub
from cleatwright.web.work import Works
from cleatwright.workshop.document.store import FILE_NAME

LOOK_SECONDS = 0.7


class Session:
    """The workshop that is open, if one is; any thread may ask.

    Args:
        folder: The workshop to open, or None to let the person choose. Where no workshop stands
            in it, or where it is not there, one can be started in it; nothing is made before.
        store: What keeps what was computed.
        recent: The folders that were opened before.

    Raises:
        CleatwrightError: The workshop cannot be opened.
    """

    def __init__(
        self, folder: Path | None, *, store: Store, recent: RecentFolders | None = None
    ) -> None:
        self.store = store
        self.hub = Hub()
        self.works = Works(store, self.hub)
        self.recent = recent or RecentFolders()
        self.place = None if folder is None else folder.expanduser().absolute()
        self._lock = Lock()
        self._opened: OpenWorkshop | None = None
        self._chosen: ChosenPlan | None = None
        self._closing = Event()
        if folder is not None and not _empty(folder):
            self.open(folder)
        self._watch = Thread(target=self._watching, name="watching", daemon=True)
        self._watch.start()

    def open(self, folder: Path) -> None:
        """Open a workshop in place of the one that is open.

        Raises:
            CleatwrightError: It cannot be opened; the other one stays open.
        """
        opened = OpenWorkshop(folder)
        with self._lock:
            self._opened = opened
        self.recent.remember(opened.path.parent)
        self.tell_revision()

    @property
    def chosen(self) -> ChosenPlan | None:
        """Return the plan that was chosen last; it counts for one revision."""
        with self._lock:
            return self._chosen

    def choose(self, chosen: ChosenPlan | None) -> None:
        """Choose a plan, or leave the one that was chosen; all pages are told."""
        with self._lock:
            self._chosen = chosen
        self.hub.tell({"event": "plan"})

    @property
    def opened(self) -> OpenWorkshop | None:
        """Return the open workshop, or None."""
        with self._lock:
            return self._opened

    @property
    def workshop(self) -> OpenWorkshop:
        """Return the open workshop.

        Raises:
            InputError: None is open.
        """
        opened = self.opened
        if opened is None:
            raise InputError("No workshop is open", todo="Open one, or start one")
        return opened

    def run(self) -> Run:
        """Return a new run over the store."""
        return Run(self.store)

    def document(self, now: Opened | None = None, run: Run | None = None) -> ReadDocument:
        """Return the document of a revision as far as it can be read; of the last one if None."""
        opened = self.workshop
        text = (now or opened.now).text
        return (run or self.run()).need(READ, (text, opened.path))

    def tools(self, document: ReadDocument, run: Run | None = None) -> ReadTools:
        """Return the tools of a document, and what is wrong with it so far."""
        return read_tools(document, run or self.run())

    def planned(self, now: Opened, run: Run) -> PlannedDocument:
        """Return the holders of a revision, and all that stands in their way.

        Raises:
            LedgerError: The ledger cannot be read.
        """
        return planned_document(self.document(now, run), run)

    def tell_revision(self) -> None:
        """Tell all pages which revision the document is at."""
        opened = self.opened
        if opened is not None:
            now = opened.now
            self.hub.tell({"event": "revision", "instance": now.instance, "number": now.number})

    def close(self) -> None:
        """Stop what goes on."""
        self.works.stop_all()
        self._closing.set()

    def _watching(self) -> None:
        """Take over what other programs write to the document."""
        while not self._closing.wait(LOOK_SECONDS):
            opened = self.opened
            if opened is None:
                continue
            before = opened.now.number
            try:
                after = opened.look().number
            except (CleatwrightError, Cancelled):
                continue
            if after != before:
                self.tell_revision()


def _empty(folder: Path) -> bool:
    """Tell whether a workshop may be started in a folder: it has none, or is not there yet."""
    if folder.name == FILE_NAME:
        return False
    return not folder.exists() or (folder.is_dir() and not (folder / FILE_NAME).exists())
