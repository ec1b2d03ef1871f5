"""A small pattern of our own invention, planned by hand: three views, three sections, all that a page meets."""

from __future__ import annotations

import re

from booklet.length import House, parse, spell
from booklet.plan.plan import (
    Art,
    Caution,
    Chart,
    Fabric,
    FabricRow,
    Gap,
    Key,
    Notion,
    PieceRow,
    Plan,
    PlanSection,
    PlanStep,
    PlanView,
    Section,
    Stage,
    Term,
)
from booklet.plan.prose import Block, Measure, Prose, Span

HOUSE = House({parse("5/8 in"): parse("1.5 cm")})
VIEWS = ("A", "B", "C")


def measure(text: str) -> Measure:
    length = parse(text)
    return Measure(spell(length), spell(HOUSE.other(length)))


def said(text: str) -> Span:
    both = measure(text)
    return Span("measure", f"{both.first.typeset} ({both.other.typeset if both.other else ''})", both)


_MARKED = re.compile(
    r"\{(?P<measure>[^{}]*? in)\}|\[(?P<piece>[^]]*)\]|\*(?P<emphasis>[^*]*)\*|<(?P<step>[a-z]+)=(?P<number>\d+)>"
)


def spans(text: str) -> tuple[Span, ...]:
    """Reads `{1/2 in}`, `[Front (1)]`, `*wrong*` and `<facings=6>` (a step) in a text over any number of lines."""
    found, at, text = [], 0, " ".join(text.split())
    for match in _MARKED.finditer(text):
        found.append(Span("text", text[at : match.start()]))
        at = match.end()
        if match["measure"]:
            found.append(said(match["measure"]))
        elif match["piece"]:
            found.append(Span("piece", match["piece"], target=match["piece"].split(" (")[0].lower()))
        elif match["emphasis"]:
            found.append(Span("emphasis", match["emphasis"]))
        else:
            found.append(Span("step", match["number"], target=match["step"]))
    found.append(Span("text", text[at:]))
    return tuple(span for span in found if span.text)


def say(*paragraphs: str) -> Prose:
    """A paragraph each; an item of a list when it begins with `- ` or `1. `."""
    return tuple(_block(paragraph.strip()) for paragraph in paragraphs)


def _block(text: str) -> Block:
    numbered = re.match(r"(\d+)\. ", text)
    if numbered:
        return Block("number", spans(text[numbered.end() :]), int(numbered[1]))
    return Block("bullet", spans(text[2:])) if text.startswith("- ") else Block("paragraph", spans(text))


ART = {view: Art(f"art/{view.lower()}.svg", f"Line drawing of view {view}, front") for view in VIEWS}
SHOULDER = Section(
    "french", parse("5/8 in"), ("Front", "Back"), ("self", "self"), (Stage("stitch", (parse("3/8 in"),)), Stage("trim"))
)
FACED = Section(
    "enclosed", parse("5/8 in"), ("Body", "Armhole facing"), ("self", "self"), (Stage("stitch"), Stage("clip"))
)
HEM = Section("double hem", parse("1 in"), ("Body",), ("self",), (Stage("fold", (parse("1/2 in"), parse("1/2 in"))),))
POCKET = Art("art/pocket.svg", "The pocket pinned to the front, right sides up")


def plan(view: str | None = None, *, draft: bool = False) -> Plan:
    """For all views, or for one: then the steps of the others leave a gap."""
    views = [
        PlanView("A", "Sleeveless top", say("Faced armholes, hip length. For warm days, or under a jacket."), ART["A"]),
        PlanView("B", "Short-sleeved top", say("Sleeves end above the elbow in a {1 in} hem."), ART["B"]),
        PlanView(
            "C", "Long-sleeved top with a pocket", say("As view B, with long sleeves and a patch pocket."), ART["C"]
        ),
    ]
    return Plan(
        name="millpond-top",
        title="Millpond Top",
        studio="Example Studio",
        edition="1.0",
        about=say(
            "A loose top with a round neck, cut in two main pieces and shaped by one dart on each side. "
            "It has no closure and goes on over the head, so it is a good first garment in woven cloth."
        ),
        draft=draft,
        view=view,
        views=[one for one in views if view in (None, one.letter)],
        sizes=SIZES,
        charts=charts(),
        choosing=say(
            "Choose by your bust, measured round the fullest part with the tape level. Between two sizes,"
            " take the larger one.",
            "Compare the finished bust with a top that you like: it should be {3 in} or more above your own.",
        ),
        fabrics=fabrics(view),
        notions=notions(view),
        tools=[
            "Sewing machine with a straight stitch",
            "Iron and pressing cloth",
            "Shears",
            "Tape",
            "Pins",
            "Fabric marker",
            "Point turner",
        ],
        pieces=[one for one in PIECES if view is None or view in one.views],
        key=[
            Key("right side", "Right side of the fabric"),
            Key("wrong side", "Wrong side of the fabric"),
            Key("interfacing", "Interfacing"),
            Key("stitching", "Stitching of this step"),
            Key("fold", "Fold"),
        ],
        terms=TERMS,
        before=BEFORE,
        cautions=[
            Caution(
                "Hot iron.",
                say("Lift it rather than slide it, keep fingers out of the steam, and stand it on its heel."),
            ),
            Caution(
                "Needle and pins.",
                say("Take out each pin before it reaches the needle, and never hold pins in your mouth."),
            ),
            Caution(
                "Rotary cutter.",
                say("Cut away from yourself along a ruler, and close the blade whenever you put it down."),
            ),
        ],
        sections=sections(view),
        allowance=measure("5/8 in"),
        all_views=VIEWS,
    )


SIZES = ("6", "8", "10", "12", "14", "16", "18", "20", "22", "24")
BEFORE: Prose = say(
    "Wash and press the fabric as you will wash the garment, so that it shrinks before it is cut and not after.",
    "1. Lay the pieces along the grain, printed side up, on the fabric folded with its right sides together.",
    "2. Cut along the line of your size. Snip notches {3/16 in} deep, never deeper.",
    "3. Transfer the darts and dots to the wrong side before you take the paper off.",
)
PIECES = [
    PieceRow("1", "Front", (("Main fabric", "1 on fold"),), VIEWS),
    PieceRow("2", "Back", (("Main fabric", "1 on fold"),), VIEWS),
    PieceRow("3", "Neck facing, front", (("Main fabric", "1 on fold"), ("Interfacing", "1 on fold")), VIEWS),
    PieceRow("4", "Neck facing, back", (("Main fabric", "1 on fold"), ("Interfacing", "1 on fold")), VIEWS),
    PieceRow("5", "Armhole facing", (("Main fabric", "4"), ("Interfacing", "4")), ("A",)),
    PieceRow("6", "Short sleeve", (("Main fabric", "2"),), ("B",)),
    PieceRow("7", "Long sleeve", (("Main fabric", "2"),), ("C",)),
    PieceRow("8", "Patch pocket", (("Main fabric", "1"), ("Lining", "1")), ("C",)),
]
TERMS = [
    Term("Clip", say("Cut into the allowance of an inward curve, almost to the stitching, so that it can spread.")),
    Term("Ease", say("Sew a longer edge to a shorter one without a pleat, spreading the fullness with your fingers.")),
    Term("Edgestitch", say("Stitch {1/8 in} or less from a fold or seam, on the right side.")),
    Term("Grade", say("Trim each layer of a seam to a different width, so that it lies without a ridge.")),
    Term(
        "Staystitch", say("A row of stitching in one layer, inside the allowance, which keeps a curve from stretching.")
    ),
    Term(
        "Understitch", say("Stitch a facing to its own allowances, close to the seam, so that it rolls to the inside.")
    ),
]


def charts() -> list[Chart]:
    bust = ("30½", "31½", "32½", "34", "36", "38", "40", "42", "44", "46")
    hip = ("32½", "33½", "34½", "36", "38", "40", "42", "44", "46", "48")
    metric = ("77.5", "80", "82.5", "86.5", "91.5", "96.5", "101.5", "106.5", "112", "117")
    return [
        Chart("Body measurements", "in", SIZES, (("Bust", bust), ("Hip", hip)), (), ()),
        Chart("Body measurements", "cm", SIZES, (("Bust", metric), ("Hip", metric)), (), ()),
        Chart(
            "Finished garment",
            "in",
            SIZES,
            (("Bust", hip), ("Length at centre back", bust)),
            say("Length is measured from the neck seam."),
            (),
        ),
        Chart("Sleeve", "in", SIZES, (("Sleeve length", bust),), (), ("B", "C")),
    ]


def fabrics(view: str | None) -> list[Fabric]:
    mine = [view] if view else list(VIEWS)
    by_size = (
        "1 5/8 yd",
        "1 5/8 yd",
        "1 5/8 yd",
        "1 3/4 yd",
        "1 3/4 yd",
        "1 7/8 yd",
        "2 yd",
        "2 yd",
        "2 1/8 yd",
        "2 1/4 yd",
    )
    rows = [
        FabricRow(("A",), measure("45 in"), tuple(map(measure, by_size))),
        FabricRow(("A",), measure("60 in"), (measure("1 1/4 yd"),)),
        FabricRow(("B", "C"), measure("45 in"), tuple(map(measure, by_size))),
    ]
    kept = [row._replace(views=(view,) if view else row.views) for row in rows if set(row.views) & set(mine)]
    return [
        Fabric("Main fabric", say("Linen, cotton lawn or chambray of light to middle weight."), SIZES, tuple(kept)),
        Fabric(
            "Interfacing",
            say("Light, fusible."),
            SIZES,
            (FabricRow(tuple(mine), measure("20 in"), (measure("1/2 yd"),)),),
        ),
    ]


def notions(view: str | None) -> list[Notion]:
    def count(text: str) -> Prose:
        return say(text)

    rows = [
        Notion(say("Thread to match, spool"), {"A": count("1"), "B": count("1"), "C": count("1")}, ()),
        Notion(
            say("Button, {1/2 in}"), {"A": count("—"), "B": count("2"), "C": count("4")}, count("for the sleeve tabs")
        ),
    ]
    return [row._replace(by_view={k: v for k, v in row.by_view.items() if view in (None, k)}) for row in rows]


def sections(view: str | None) -> list[PlanSection]:
    every = [
        PlanSection("Prepare the pieces", (), [step for step in STEPS if step.number <= 4]),
        PlanSection(
            "Shoulders and armholes",
            say("From here on, press every seam before another crosses it."),
            [step for step in STEPS if 4 < step.number <= 9],
        ),
        PlanSection("Neck, sides and hem", (), [step for step in STEPS if step.number > 9]),
    ]
    if view is None:
        return every
    return [PlanSection(one.title, one.intro, list(_of_one_view(one.items, view))) for one in every]


def _of_one_view(items: list[PlanStep | Gap], view: str) -> list[PlanStep | Gap]:
    kept: list[PlanStep | Gap] = []
    for step in items:
        assert isinstance(step, PlanStep)
        if view in step.views:
            kept.append(step)
        else:
            kept.append(
                Gap(
                    str(step.number),
                    f"Step {step.number} belongs to {' and '.join(step.views)}; there is nothing to sew here.",
                )
            )
    return kept


STEPS = [
    PlanStep(
        1, "staystitch", "Staystitch the curves", VIEWS, True, False,
        say(
        "Curved edges are partly on the bias and stretch as you handle them. Stitch {1/2 in} from the"
        " neckline and armhole edges of the [Front (1)] and the [Back (2)], from the shoulder towards"
        " the middle.",
    ),
        tip=say(
        "Don’t backstitch. The row is only there to hold, and will be covered by the seam.",
    ),
    ),
    PlanStep(
        2, "fuse", "Fuse the interfacing", VIEWS, True, False,
        say(
        "Lay the interfacing on the wrong side of each facing, rough side down. Cover it with the "
        "pressing cloth.",
        "Press each place for as long as the maker says, lifting the iron and not sliding it. Let the"
        " pieces cool flat.",
    ),
        cautions=(Caution("Hot iron.", say("Keep your fingers out of the steam, and lift the iron by its handle.")),),
        figures=(FACED,),
    ),
    PlanStep(
        3, "pocket", "Sew the pocket to the front", ("C",), False, True,
        say(
        "Fold under {5/8 in} on the sides and bottom of the [Patch pocket (8)] and press. Fold the "
        "top along its line, then:",
        "- pin it to the [Front (1)], right sides up, between the dots;",
        "- edgestitch {1/8 in} from the sides and bottom;",
        "- stitch a small triangle at each upper corner.",
    ),
        figures=(POCKET,),
    ),
    PlanStep(
        4, "darts", "Sew the bust darts", VIEWS, True, False,
        say(
        "Fold each dart with right sides together. Stitch from the side to the point and let the last"
        " three stitches run off the fold. Press the darts down.",
    ),
    ),
    PlanStep(
        5, "shoulders", "Join the shoulders", VIEWS, True, False,
        say(
        "Lay the front on the back, *wrong* sides together. Stitch the shoulders {3/8 in} from the "
        "edge. Trim to {1/8 in} and press.",
        "Fold with right sides together, the seam on the fold. Stitch {1/4 in} from it, so that the "
        "raw edges are caught inside. Press towards the back.",
    ),
        figures=(SHOULDER,),
    ),
    PlanStep(
        6, "facings", "Join the armhole facings", ("A",), False, False,
        say(
        "Sew two [Armhole facing (5)] pieces together at the shoulder, right sides together. Press "
        "the seam open. Finish the outer edge.",
    ),
    ),
    PlanStep(
        7, "face", "Face the armholes", ("A",), False, False,
        say(
        "Pin the facing from step <facings=6> to the armhole, right sides together, seam on seam. "
        "Stitch.",
        "Trim to {1/4 in} and clip every {1/2 in}, not through the stitching of step <staystitch=1>. "
        "Press the allowances towards the facing and understitch.",
    ),
        cautions=(Caution("Sharp points.", say("Clip away from your fingers, with the tips of the blades only.")),),
        figures=(FACED,),
    ),
    PlanStep(
        8, "sleeves", "Set in the sleeves", ("B", "C"), False, False,
        say(
        "Sew two rows of long stitches between the notches of the sleeve cap. Match the notches and "
        "the dot to the shoulder seam, draw up the threads until the cap fits, and stitch. Press "
        "towards the sleeve.",
    ),
        tip=say(
        "If a pleat is caught, unpick only there: {2 in} on each side is enough to spread it.",
    ),
    ),
    PlanStep(
        9, "literal", "Mark <script>alert(1)</script> and {{ braces }} & keep them", VIEWS, True, False,
        say(
        "Text such as <script>alert(1)</script> or {{ plan.title }} is a writer’s text and is printed"
        " as it stands.",
    ),
    ),
    PlanStep(
        10, "neck", "Face the neck", VIEWS, True, False,
        say(
        "Join the [Neck facing, front (3)] and the [Neck facing, back (4)] at the shoulders. Press "
        "the seams open.",
        "Pin the facing to the neckline, right sides together. Stitch, trim to {1/4 in}, clip, press "
        "towards the facing and understitch.",
    ),
        figures=(FACED, HEM),
    ),
    PlanStep(
        11, "sides", "Sew the side seams", VIEWS, True, False,
        say(
        "Right sides together, match the underarm seams and the notches. In views B and C sew the "
        "sleeve and the side in one run. Finish the allowances together and press them towards the "
        "back.",
    ),
    ),
    PlanStep(
        12, "hem", "Hem the top", VIEWS, True, False,
        say(
        "Turn under {1/2 in} and press, then another {1/2 in} and press. Edgestitch along the inner "
        "fold. Press the hem from the right side.",
    ),
        figures=(HEM,),
    ),
]  # fmt: skip
