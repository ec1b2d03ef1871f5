"""The plan: everything that an output says, finished. Renderers choose form and nothing else.

Made from the pattern and what happened on the bench (plan/build.py); read by draw/ and publish/.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from booklet.length import Length
from booklet.plan.film.times import Timed
from booklet.plan.flow import GarmentMap
from booklet.plan.picture import StepFigure
from booklet.plan.prose import Measure, Prose


class Stage(NamedTuple):
    """One thing done to a seam, for a section through the cloth.

    op: stitch | trim | grade | clip | press | turn | understitch | topstitch | finish | fold | stitch fold
    measures: the numbers it was done with (one, or one a layer); manner: `open`, `toward front`, `overlock`, …
    (for `clip`, `notch` where wedges are cut out).
    """

    op: str
    measures: tuple[Length, ...] = ()
    manner: str = ""


class Section(NamedTuple):
    """A request for a section through the cloth. Equal requests are one drawing.

    construction: a row of constructions.yaml; enclosed; double, blind, rolled, lettuce, faced or bound hem; bound
    edge; casing
    allowance: of the seam, or the whole hem allowance; sides: names of the layers joined (one for a hem), upper first;
    cloths: self | lining | interfacing, one a side; stages: in the order of the hands. backs: which sides are the back
    of the one above them, as a folded cuff's or a lined panel's lower layer, so that their right side lies down.
    """

    construction: str
    allowance: Length
    sides: tuple[str, ...]
    cloths: tuple[str, ...]
    stages: tuple[Stage, ...]
    backs: tuple[int, ...] = ()


class Art(NamedTuple):
    """The designer's own drawing: a file of the pattern's folder, already checked to be one, and what it shows."""

    file: str
    shows: str


class Key(NamedTuple):
    """A row of the key to the figures: `kind` is what draw/key.py draws (right side, wrong side, stitching, …)."""

    kind: str
    words: str


Figure = Section | StepFigure | Art


class PlanView(NamedTuple):
    letter: str
    name: str
    about: Prose
    figure: Art | None


class Chart(NamedTuple):
    """A table by size. rows: a label, then one text a size, figures already spelled; views: letters, empty for all.

    A chart in inches or centimetres is followed by the same in the other; the note stands with the second.
    """

    title: str
    unit: str
    sizes: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]
    note: Prose
    views: tuple[str, ...]


class FabricRow(NamedTuple):
    """How much of one material a view takes at one width: one amount a size, or one for all sizes."""

    views: tuple[str, ...]
    width: Measure
    amounts: tuple[Measure, ...]


class Fabric(NamedTuple):
    name: str
    suits: Prose
    sizes: tuple[str, ...]
    rows: tuple[FabricRow, ...]


class Notion(NamedTuple):
    """`item`: as in "Button, ½ in (1.3 cm)"; by_view: letter -> "5", or "—" where the view needs none."""

    item: Prose
    by_view: dict[str, Prose]
    note: Prose


class PieceRow(NamedTuple):
    """`cuts`: (material's name, "2" or "1 on fold"); cloth: what it is cut of first, self | lining | interfacing."""

    number: str
    name: str
    cuts: tuple[tuple[str, str], ...]
    views: tuple[str, ...]
    cloth: str = "self"


class Term(NamedTuple):
    word: str
    meaning: Prose


class Caution(NamedTuple):
    """A hazard in a few words, then one plain sentence."""

    hazard: str
    says: Prose


@dataclass(slots=True)
class PlanStep:
    """One step, numbered. `views` are the letters that sew it; `everyone` when all of this plan's views do.

    codes: of stitches and seams, as the writer gave them: `sew: 301 SSa-1`. For who sets machines.
    """

    number: int
    id: str
    title: str
    views: tuple[str, ...]
    everyone: bool
    optional: bool
    text: Prose
    tip: Prose = ()
    cautions: tuple[Caution, ...] = ()
    figures: tuple[Figure, ...] = ()
    codes: tuple[str, ...] = ()
    file: str = ""
    line: int = 0


class Gap(NamedTuple):
    """In an output of one view: numbers that belong to other views, and the sentence that says so."""

    numbers: str
    says: str


@dataclass(slots=True)
class PlanSection:
    title: str
    intro: Prose
    items: list[PlanStep | Gap]


class Run(NamedTuple):
    """Steps that follow each other in one section for the same views.

    begins: whether they are the first of their section; steps: (number, title).
    """

    section: str
    begins: bool
    steps: tuple[tuple[int, str], ...]
    views: tuple[str, ...]

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(number for number, _ in self.steps)


class Parting(NamedTuple):
    """Where views leave the steps that all share, and meet again.

    after, until: the shared steps before and behind it, None where the pattern begins or ends with it; first, end: its
    runs are `Branches.runs[first:end]`; each: what each view that leaves sews there, its numbers by its letter.
    """

    after: int | None
    until: int | None
    first: int
    end: int
    each: dict[str, tuple[int, ...]]


class Share(NamedTuple):
    """What one view adds to the shared steps (the other views that sew it too, its numbers), and what it drops."""

    letter: str
    name: str
    sews: tuple[int, ...]
    adds: tuple[tuple[tuple[str, ...], tuple[int, ...]], ...]
    drops: tuple[int, ...]


class Branches(NamedTuple):
    """Several views side by side. shared: numbers of the steps of all of them; says: the same in sentences."""

    views: tuple[str, ...]
    runs: tuple[Run, ...]
    shared: tuple[int, ...]
    partings: tuple[Parting, ...]
    shares: tuple[Share, ...]
    says: tuple[str, ...]


class Chapter(NamedTuple):
    """`start` in whole seconds from the beginning of the film."""

    start: int
    title: str


class Note(NamedTuple):
    """Put on the screen. kind: words | chart | material | notion | piece; text: what the booklet says of it."""

    kind: str
    text: str
    prose: Prose = ()


class Shot(NamedTuple):
    """One take, in the order of the film. minutes: given, or an estimate (`estimated`).

    others: what is said of the views that are not filmed; words: how many are said in all; spoken, spoken_of_others:
    `say` and `others` as prose.
    """

    take: int
    step: int | None
    step_title: str
    setup: str
    show: str
    say: str
    minutes: float
    estimated: bool
    others: str = ""
    notes: tuple[Note, ...] = ()
    words: int = 0
    spoken: Prose = ()
    spoken_of_others: Prose = ()


@dataclass(slots=True)
class FilmPlan:
    """setups: the name of each camera set-up, and what the writer says of it; times: when each step, and each take that
    belongs to none, begins; link: the video's address; pace: words a minute."""

    view: PlanView
    chapters: list[Chapter]
    shots: list[Shot]
    seconds: int
    setups: tuple[tuple[str, str], ...] = ()
    times: tuple[Timed, ...] = ()
    link: str = ""
    pace: float = 0.0


@dataclass(slots=True)
class Plan:
    """Everything, for all views (`view` None) or for one. branches: where there are several views to be told apart;
    map: of the same views, where pieces are joined."""

    name: str
    title: str
    studio: str
    edition: str
    about: Prose
    draft: bool
    view: str | None
    views: list[PlanView]
    sizes: tuple[str, ...]
    charts: list[Chart]
    choosing: Prose
    fabrics: list[Fabric]
    notions: list[Notion]
    tools: list[str]
    pieces: list[PieceRow]
    key: list[Key]
    terms: list[Term]
    before: Prose
    cautions: list[Caution]
    sections: list[PlanSection]
    allowance: Measure
    films: FilmPlan | None = None
    all_views: tuple[str, ...] = field(default=())
    branches: Branches | None = None
    map: GarmentMap | None = None

    @property
    def steps(self) -> list[PlanStep]:
        return [item for section in self.sections for item in section.items if isinstance(item, PlanStep)]

    @property
    def figures(self) -> list[Figure]:
        """Every figure once, in the order of the steps."""
        return list(dict.fromkeys(figure for step in self.steps for figure in step.figures))
