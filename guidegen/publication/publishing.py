"""The room's two doors: an edition in memory, and an edition put into its folder."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from itertools import chain
from pathlib import Path

from guidegen.presentation.page_keys import key_of
from guidegen.presentation.sheets import AnySheet, DrawingPlan, PagePlan, Publication
from guidegen.press import File, Memory, Press, Remembered, Staging, Written
from guidegen.publication.edition import Edition, bindings_of
from guidegen.publication.links import file_of
from guidegen.publication.making import Made, Plan, made
from guidegen.publication.page_readings import PageReading
from guidegen.publication.proofs import Look, Proofs
from guidegen.publication.rendering import Page, Printer


@dataclass(frozen=True, slots=True, kw_only=True)
class Watch:
    """Who is told how a publication goes."""

    told: Callable[[int, int], None] = lambda _done, _total: None
    """Told how many pages are done, and of how many."""
    stands: Callable[[], None] = lambda: None
    """Told when the edition is in its folder, before what is remembered of it is written down."""
    hurried: bool = False
    """Whether picture cards that stand may stay as they were drawn: in a preview nobody shares a page."""


def render_edition(publication: Publication, folder: Path) -> Edition:
    """The finished edition in memory, proof-read, by the theme in ``folder``."""
    files: dict[str, File] = {}
    print_edition(publication, folder, take=lambda file: files.__setitem__(file.path, file), look=lambda path: files[path].content.decode())
    return Edition(files=tuple(files.values()))


def print_edition(publication: Publication, folder: Path, *, take: Callable[[File], None], look: Look) -> None:
    """Every file of the edition handed to ``take``, one by one, and proof-read in the end; ``look`` gives a page's text back.

    Raises a ``PublicationError`` with every fault of every page; what was taken is worth nothing then.
    """
    printer = Printer.of(publication, folder)
    paths: set[str] = set()
    readings: dict[str, PageReading] = {}
    for file in chain(_ready_files(publication, printer), bindings_of(publication)):
        paths.add(file.path)
        take(file)
    plans = (*map(_plan_of, publication.sheets), *publication.plans)
    for plan, one in made(printer, publication.drawings, plans):
        paths.add(file_of(plan.address))
        if isinstance(one, Page):
            readings[one.file.path] = one.reading
            take(one.file)
        elif isinstance(one, File):
            take(one)
    ordered = {path: readings[path] for one in plans if (path := file_of(one.address)) in readings}
    Proofs(ordered, paths, publication.site.public_address).pass_or_refuse(look)


def publish_edition(
    publication: Publication, folder: Path, *, press: Press, program: str, watch: Watch | None = None
) -> Written:
    """The edition put into its folder as a whole by the theme in ``folder``; call it inside ``Press.held``.

    What changed since ``program`` last ran is made and written, what stands already is taken over.
    """
    memory = Memory.read(press.room, program)
    run = _Run(Printer.of(publication, folder), Staging(press, memory.marks), memory)
    written = run.publish(publication, press, watch or Watch())
    run.made().write(press.room, program)
    return written


class _Run:
    """One publication on its way into the folder."""

    def __init__(self, printer: Printer, staging: Staging, memory: Memory) -> None:
        self._printer = printer
        self._staging = staging
        self._memory = memory
        self._made: dict[str, Remembered] = {}
        self._readings: dict[str, PageReading] = {}
        self._fresh: set[str] = set()

    def publish(self, publication: Publication, press: Press, watch: Watch) -> Written:
        """The edition made ready, proof-read and put in place."""
        for file in _ready_files(publication, self._printer):
            self._staging.take(file)
        undrawn = tuple(one for one in publication.drawings if not self._kept(one, hurried=watch.hurried))
        plans = (*map(_plan_of, publication.sheets), *publication.plans)
        fresh = tuple(plan for plan in plans if not self._recalled(plan))
        done = len(plans) - len(fresh)
        for plan, one in made(self._printer, undrawn, fresh, self._said(fresh)):
            if isinstance(plan, PagePlan):
                done += 1
                watch.told(done, len(plans))
            self._keep(plan, one)
        pages = tuple(file_of(one.address) for one in plans)
        for file in bindings_of(publication):
            self._staging.take(file)
        for old in publication.archived:
            self._staging.copy(old.address, Path(old.source), old.digest)
        self._proof_read(pages, publication, press)
        return self._staging.publish(watch.stands)

    def made(self) -> Memory:
        """What is worth remembering of the edition that was put in place."""
        return Memory(self._made, self._staging.marks())

    def _key(self, plan: Plan) -> str:
        return f"{plan.key} {self._printer.key}"

    def _recalled(self, plan: PagePlan) -> bool:
        """Whether the page was made of the same key before and stands as it was made."""
        path = file_of(plan.address)
        before = self._memory.made.get(path)
        if before is None or before.key != self._key(plan) or not self._staging.keep(path, before.digest):
            return False
        self._stand(path, before)
        return True

    def _said(self, plans: tuple[PagePlan, ...]) -> dict[str, str]:
        """What the sheets of plans said when the same theme made their pages, for those that still stand as they were made."""
        said = {}
        for plan in plans:
            before = self._memory.made.get(file_of(plan.address))
            same_theme = before is not None and before.key.endswith(f" {self._printer.key}")
            if before is not None and same_theme and before.says and self._staging.holds(file_of(plan.address), before.digest):
                said[plan.address] = before.says
        return said

    def _stand(self, path: str, before: Remembered) -> None:
        """A page is taken over as it stands."""
        self._made[path], self._readings[path] = before, PageReading.from_kept(before.found)

    def _kept(self, plan: DrawingPlan, *, hurried: bool) -> bool:
        """Whether the picture was drawn of the same key before, or of any where there is no time, and stands as it was drawn."""
        before = self._memory.made.get(plan.address)
        if before is None or (before.key != plan.key and not hurried) or not self._staging.keep(plan.address, before.digest):
            return False
        self._made[plan.address] = before
        return True

    def _keep(self, plan: Plan, one: Made) -> None:
        """What came of a plan is part of the edition, and remembered."""
        if isinstance(one, File):
            self._staging.take(one)
            self._made[one.path] = Remembered(plan.key, self._staging.files[one.path])
        elif isinstance(one, Page):
            path = one.file.path
            self._staging.take(one.file)
            self._fresh.add(path)
            self._readings[path] = one.reading
            self._made[path] = Remembered(self._key(plan), self._staging.files[path], one.reading.kept(), one.says)
        else:
            path = file_of(plan.address)
            before = self._memory.made[path]
            self._staging.keep(path, before.digest)
            self._stand(path, replace(before, key=self._key(plan)))

    def _proof_read(self, pages: tuple[str, ...], publication: Publication, press: Press) -> None:
        readings = {path: self._readings[path] for path in pages}
        sound = () if self._something_gone() else readings.keys() - self._fresh
        proofs = Proofs(readings, self._staging.files.keys(), publication.site.public_address, sound=sound)
        proofs.pass_or_refuse(lambda path: (press.building / path).read_text(encoding="utf-8"))
        self._readings.clear()  # of thousands of pages they are too much to be held beside what is written down

    def _something_gone(self) -> bool:
        """Whether a file or an anchor of the last edition is no more, so that a page that stands may lead nowhere now."""
        if self._staging.gone:
            return True
        before = ((self._memory.made.get(path), self._readings[path]) for path in self._fresh)
        return any(old is not None and not PageReading.from_kept(old.found).ids <= new.ids for old, new in before)


def _plan_of(sheet: AnySheet) -> PagePlan:
    """A page that is composed already, to be rendered when it says anything new."""
    return PagePlan(address=sheet.address, key=key_of(sheet), compose=partial(_itself, sheet))


def _itself(sheet: AnySheet) -> AnySheet:
    return sheet


def _ready_files(publication: Publication, printer: Printer) -> Iterator[File]:
    """What is no page and needs no drawing, one by one."""
    data = (File(path=one.address, content=one.text.encode()) for one in publication.files)
    binaries = (File(path=one.address, content=one.content) for one in publication.binaries)
    return chain(printer.assets.files, data, binaries)
