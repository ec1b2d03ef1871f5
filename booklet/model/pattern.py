"""What a pattern is. Everything that a finding may point at keeps its place, left out of comparison."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.read.tree import Text, same_name
from booklet.record import NamedTuple, Record, fresh

if TYPE_CHECKING:
    from booklet.craft.load import Operation
    from booklet.finding import Place
    from booklet.length import House, Length


class Measured(NamedTuple):
    """A length and where it was written."""

    length: Length
    place: Place


class Scope(NamedTuple):
    """`for:` and `not for:` as written, and the letters of the views that they come to, in the pattern's order."""

    wanted: tuple[Text, ...]
    unwanted: tuple[Text, ...]
    views: tuple[str, ...]


class Allow(NamedTuple):
    """An exception: a rule's name and the writer's reason."""

    rule: Text
    reason: Text


class View(Record):
    letter: str
    name: str
    words: tuple[Text, ...]
    place: Place
    about: Text | None = None
    figure: ArtFile | None = None


class ArtFile(NamedTuple):
    """A drawing of the designer's: its path in the pattern's folder, and what it shows (None: not said)."""

    file: Text
    shows: Text | None


class EdgeSpec(Record):
    """One edge of a piece, as drawn. `crosses` the corner with its neighbours before and after it round the piece."""

    name: str
    place: Place
    allowance: Length
    own_allowance: Measured | None
    curve: str = ""
    fold: bool = False
    on: str = ""
    bias: bool = False


class Dart(Record):
    """A dart, pleat or tuck (`kind`), and the edges into which it runs and which it shortens.

    drawn: its inner lines on the outline, by their numbers.
    """

    name: str
    crosses: tuple[Text, ...]
    place: Place
    kind: str = "dart"
    drawn: tuple[Text, ...] = ()


class Cut(NamedTuple):
    """How many of one material: `number` copies, each on the fold or not."""

    material: Text
    number: int
    on_fold: bool
    written: str


class Piece(Record):
    """corners: where each edge begins on the outline, by their numbers; drawn_lines: the inner line that a marked line
    is, by its name."""

    name: str
    number: str
    place: Place
    scope: Scope
    cuts: tuple[Cut, ...]
    edges: dict[str, EdgeSpec]
    darts: dict[str, Dart] = fresh(default_factory=dict)
    lines: tuple[Text, ...] = ()
    line_allowances: dict[str, Measured] = fresh(default_factory=dict)
    bias: bool = False
    corners: tuple[Text, ...] = ()
    drawn_lines: dict[str, Text] = fresh(default_factory=dict)


class Material(Record):
    name: str
    key: str
    kind: str
    place: Place
    suits: Text | None = None
    amounts: tuple[tuple[Measured, tuple[tuple[tuple[str, ...], tuple[Measured, ...]], ...]], ...] = ()


class Notion(Record):
    """`count` and `length` by view letter; a key of "" holds for every view of the scope."""

    item: str
    key: str
    place: Place
    scope: Scope
    size: Measured | None = None
    count: dict[str, int] = fresh(default_factory=dict)
    length: dict[str, Measured] = fresh(default_factory=dict)
    note: Text | None = None
    thick: Measured | None = None

    def count_for(self, view: str) -> int | None:
        return self.count.get(view, self.count.get(""))


class Chart(NamedTuple):
    title: str
    place: Place
    unit: str
    rows: tuple[tuple[str, tuple[Text, ...]], ...]
    scope: Scope
    note: Text | None


class EdgeName(NamedTuple):
    """`front.shoulder` as written: a part, an edge, and where it stands."""

    part: str
    edge: str
    written: str
    place: Place


class Entry(Record):
    """One entry of `work`. `things`, `sides`, `measures` or `word` are set as the operation takes them."""

    operation: Operation
    place: Place
    things: tuple[EdgeName, ...] = ()
    sides: tuple[tuple[EdgeName, ...], ...] = ()
    measures: tuple[Measured, ...] = ()
    word: Text | None = None
    spacing: tuple[str, Measured | None] = ("", None)
    options: dict[str, Any] = fresh(default_factory=dict)
    says: Text | None = None

    @property
    def name(self) -> str:
        return self.operation.name

    def measure(self, option: str) -> Length | None:
        """The length of an option, or None where it is not given."""
        measured = self.options.get(option)
        return measured.length if isinstance(measured, Measured) else None

    def lengths(self, option: str) -> tuple[Length, ...]:
        return tuple(measured.length for measured in self.options.get(option, ()))

    def place_of(self, option: str) -> Place:
        """Where an option's value stands, or the entry where it is not given."""
        value = self.options.get(option)
        if isinstance(value, tuple) and value and not isinstance(value, Measured):
            value = value[0]
        place: Place = getattr(value, "place", None) or self.place
        return place


class Take(NamedTuple):
    """A take of the film: on a step, or (with `title`, `when` and `needs`) in film.yaml.

    words: how many are said, where `say` does not have them; others: what is said about the views not filmed.
    """

    place: Place
    setup: Text | None
    show: Text | None
    say: Text | None
    minutes: float | None
    title: Text | None = None
    when: Text | None = None
    needs: Text | None = None
    words: int | None = None
    notes: tuple[Text, ...] = ()
    others: Text | None = None

    @property
    def texts(self) -> tuple[Text | None, ...]:
        """What is shown, said and put on the screen."""
        return (self.show, self.say, self.others, *self.notes)


class Step(Record):
    id: str
    number: int
    title: str
    place: Place
    title_place: Place
    scope: Scope
    section: Section
    work: tuple[Entry, ...] = ()
    uses: tuple[Text, ...] = ()
    makes: Text | None = None
    after: tuple[Text, ...] = ()
    text: Text | None = None
    tip: Text | None = None
    caution: Text | None = None
    figure: ArtFile | None = None
    film: tuple[Take, ...] = ()
    minutes: float | None = None
    optional: bool = False
    allow: tuple[Allow, ...] = ()
    has_work: bool = False

    @property
    def called(self) -> str:
        """How findings speak of it: `step 12, “Join the shoulders”`."""
        return f"step {self.number}, “{self.title}”"


class Section(Record):
    title: str
    place: Place
    text: Text | None = None
    steps: list[Step] = fresh(default_factory=list)
    allow: tuple[Allow, ...] = ()


class Film(Record):
    """recorded: a file of the folder; times: corrections by hand, the step or take and the time as written; link: the
    video's address, never fetched; samples: how many may be sewn beforehand at most."""

    place: Place
    view: Text | None = None
    pace: float | None = None
    setups: dict[str, tuple[Text, Text]] = fresh(default_factory=dict)
    takes: tuple[Take, ...] = ()
    recorded: Text | None = None
    times: tuple[tuple[Text, Text], ...] = ()
    link: str = ""
    samples: int = 0


class Pattern(Record):
    folder: str
    texts: dict[str, str]
    name: str
    studio: str
    edition: str
    place: Place
    metric: bool
    allowance: Length
    allowance_place: Place
    house: House
    rounding: tuple[tuple[Measured, Measured], ...]
    views: dict[str, View]
    sizes: tuple[str, ...]
    fittings: tuple[str, ...]
    ages: tuple[int, int] | None
    about: Text | None
    before: Text | None
    choosing: Text | None
    charts: tuple[Chart, ...]
    materials: dict[str, Material]
    notions: tuple[Notion, ...]
    tools: tuple[Text, ...]
    pieces: dict[str, Piece]
    terms: tuple[tuple[Text, Text], ...]
    sections: list[Section]
    film: Film | None
    allow: tuple[Allow, ...]
    outlines: tuple[Text, ...] = ()
    figure_size: Text | None = None

    @property
    def steps(self) -> list[Step]:
        return [step for section in self.sections for step in section.steps]

    def steps_of(self, view: str) -> list[Step]:
        return [step for section in self.sections for step in section.steps if view in step.scope.views]

    def step(self, name: str) -> Step | None:
        wanted = same_name(name)
        return next((step for step in self.steps if same_name(step.id) == wanted), None)
