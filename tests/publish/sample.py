"""A small pattern of our own invention, planned by hand: three views, three sections, every kind of thing a page can meet."""

from __future__ import annotations

from booklet.draw.drawing import Drawing
from booklet.length import House, parse, spell
from booklet.plan.plan import (
    Art,
    Caution,
    Chart,
    Fabric,
    FabricRow,
    Figure,
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


def words(*parts: str | Span) -> tuple[Span, ...]:
    return tuple(part if isinstance(part, Span) else Span("text", part) for part in parts)


def para(*parts: str | Span) -> Block:
    return Block("paragraph", words(*parts))


def bullet(*parts: str | Span) -> Block:
    return Block("bullet", words(*parts))


def item(ordinal: int, *parts: str | Span) -> Block:
    return Block("number", words(*parts), ordinal)


def piece(name: str, number: str) -> Span:
    return Span("piece", f"{name} ({number})", target=name.lower())


def step_link(number: int, target: str) -> Span:
    return Span("step", str(number), target=target)


ART = {view: Art(f"art/{view.lower()}.svg", f"Line drawing of view {view}, front") for view in VIEWS}
SHOULDER = Section(
    "french", parse("5/8 in"), ("Front", "Back"), ("self", "self"), (Stage("stitch", (parse("3/8 in"),)), Stage("trim"))
)
FACED = Section("enclosed", parse("5/8 in"), ("Body", "Armhole facing"), ("self", "self"), (Stage("stitch"), Stage("clip")))
HEM = Section("double hem", parse("1 in"), ("Body",), ("self",), (Stage("fold", (parse("1/2 in"), parse("1/2 in"))),))
POCKET = Art("art/pocket.svg", "The pocket pinned to the front, right sides up")


def placeholder(name: str, width: int, height: int, wide: bool, shows: str, caption: str) -> Drawing:
    """A rectangle of cloth with a row of stitching, standing in for the drawing of another stage."""
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">'
        f'<rect x="0.3" y="0.3" width="{width - 0.6}" height="{height - 0.6}" fill="#d8d8d8" stroke="#000" stroke-width="0.32"/>'
        f'<path d="M3 4H{width - 3}" fill="none" stroke="#c8102e" stroke-width="0.32" stroke-dasharray="0.78 0.49"/>'
        f'<text x="3" y="9" font-family="Source Sans 3" font-size="2.65">{name.split("/")[-1][:12]}</text></svg>'
    )
    return Drawing(f"{name}.svg", svg, width, height, wide, shows, caption)


def garment(view: str) -> Drawing:
    """A sleeveless, short-sleeved or long-sleeved top in seven strokes."""
    reach = {"A": 0, "B": 10, "C": 28}[view]
    sleeves = "" if not reach else f"M14 8L{14 - reach // 3} {12 + reach}l7 3L18 22M46 8L{46 + reach // 3} {12 + reach}l-7 3L42 22"
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="70mm" viewBox="0 0 60 70">'
        '<g fill="none" stroke="#000" stroke-width="0.5" stroke-linecap="round" stroke-linejoin="round">'
        '<path d="M22 4Q30 16 38 4L46 8Q41 16 42 22L44 66Q30 69 16 66L18 22Q19 16 14 8Z" fill="#fff"/>'
        f'<path d="{sleeves}M16.2 62.5Q30 65.5 43.8 62.5"/></g></svg>'
    )
    return Drawing(f"view-{view.lower()}.svg", svg, 60, 70, False, ART[view].shows, "")


def drawings() -> dict[Figure, Drawing]:
    return {
        **{ART[view]: garment(view) for view in VIEWS},
        SHOULDER: placeholder("french", 120, 34, True, "A French seam in four stages", "The shoulder seam from the side"),
        FACED: placeholder("faced", 62, 46, False, "The faced armhole in section", "Trim, clip, then press"),
        HEM: placeholder("hem", 62, 30, False, "A double hem in section", "The hem from the side"),
        POCKET: placeholder("pocket", 62, 54, False, POCKET.shows, "Pocket on the front"),
    }


def key() -> dict[str, Drawing]:
    kinds = ("right side", "wrong side", "interfacing", "stitching", "fold")
    return {kind: placeholder(f"key-{kind.replace(' ', '-')}", 16, 10, False, f"Sign for {kind}", "") for kind in kinds}


def plan(view: str | None = None, *, draft: bool = False) -> Plan:
    """For all views, or for one: then the steps of the others leave a gap."""
    views = [
        PlanView("A", "Sleeveless top", (para("Faced armholes, hip length. For warm days, or under a jacket."),), ART["A"]),
        PlanView("B", "Short-sleeved top", (para("Sleeves end above the elbow in a ", said("1 in"), " hem."),), ART["B"]),
        PlanView("C", "Long-sleeved top with a pocket", (para("As view B, with long sleeves and a patch pocket."),), ART["C"]),
    ]
    return Plan(
        name="millpond-top",
        title="Millpond Top",
        studio="Example Studio",
        edition="1.0",
        about=(
            para(
                "A loose top with a round neck, cut in two main pieces and shaped by one dart on each side. "
                "It has no closure and goes on over the head, so it is a good first garment in woven cloth."
            ),
        ),
        draft=draft,
        view=view,
        views=[one for one in views if view in (None, one.letter)],
        sizes=SIZES,
        charts=charts(),
        choosing=(
            para("Choose by your bust, measured round the fullest part with the tape level. Between two sizes, take the larger one."),
            para("Compare the finished bust with a top that you like: it should be ", said("3 in"), " or more above your own."),
        ),
        fabrics=fabrics(view),
        notions=notions(view),
        tools=["Sewing machine with a straight stitch", "Iron and pressing cloth", "Shears", "Tape", "Pins", "Fabric marker", "Point turner"],
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
            Caution("Hot iron.", (para("Lift it rather than slide it, keep fingers out of the steam, and stand it on its heel."),)),
            Caution("Needle and pins.", (para("Take out each pin before it reaches the needle, and never hold pins in your mouth."),)),
            Caution("Rotary cutter.", (para("Cut away from yourself along a ruler, and close the blade whenever you put it down."),)),
        ],
        sections=sections(view),
        allowance=measure("5/8 in"),
        all_views=VIEWS,
    )


SIZES = ("6", "8", "10", "12", "14", "16", "18", "20", "22", "24")
BEFORE: Prose = (
    para("Wash and press the fabric as you will wash the garment, so that it shrinks before it is cut and not after."),
    item(1, "Lay the pieces along the grain, printed side up, on the fabric folded with its right sides together."),
    item(2, "Cut along the line of your size. Snip notches ", said("3/16 in"), " deep, never deeper."),
    item(3, "Transfer the darts and dots to the wrong side before you take the paper off."),
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
    Term("Clip", (para("Cut into the allowance of an inward curve, almost to the stitching, so that it can spread."),)),
    Term("Ease", (para("Sew a longer edge to a shorter one without a pleat, spreading the fullness with your fingers."),)),
    Term("Edgestitch", (para("Stitch ", said("1/8 in"), " or less from a fold or seam, on the right side."),)),
    Term("Grade", (para("Trim each layer of a seam to a different width, so that it lies without a ridge."),)),
    Term("Staystitch", (para("A row of stitching in one layer, inside the allowance, which keeps a curve from stretching."),)),
    Term("Understitch", (para("Stitch a facing to its own allowances, close to the seam, so that it rolls to the inside."),)),
]


def charts() -> list[Chart]:
    bust = ("30½", "31½", "32½", "34", "36", "38", "40", "42", "44", "46")
    hip = ("32½", "33½", "34½", "36", "38", "40", "42", "44", "46", "48")
    metric = ("77.5", "80", "82.5", "86.5", "91.5", "96.5", "101.5", "106.5", "112", "117")
    return [
        Chart("Body measurements", "in", SIZES, (("Bust", bust), ("Hip", hip)), (), ()),
        Chart("Body measurements", "cm", SIZES, (("Bust", metric), ("Hip", metric)), (), ()),
        Chart("Finished garment", "in", SIZES, (("Bust", hip), ("Length at centre back", bust)), (para("Length is measured from the neck seam."),), ()),
        Chart("Sleeve", "in", SIZES, (("Sleeve length", bust),), (), ("B", "C")),
    ]


def fabrics(view: str | None) -> list[Fabric]:
    mine = [view] if view else list(VIEWS)
    by_size = ("1 5/8 yd", "1 5/8 yd", "1 5/8 yd", "1 3/4 yd", "1 3/4 yd", "1 7/8 yd", "2 yd", "2 yd", "2 1/8 yd", "2 1/4 yd")
    rows = [
        FabricRow(("A",), measure("45 in"), tuple(map(measure, by_size))),
        FabricRow(("A",), measure("60 in"), (measure("1 1/4 yd"),)),
        FabricRow(("B", "C"), measure("45 in"), tuple(map(measure, by_size))),
    ]
    kept = [row._replace(views=(view,) if view else row.views) for row in rows if set(row.views) & set(mine)]
    return [
        Fabric("Main fabric", (para("Linen, cotton lawn or chambray of light to middle weight."),), SIZES, tuple(kept)),
        Fabric("Interfacing", (para("Light, fusible."),), SIZES, (FabricRow(tuple(mine), measure("20 in"), (measure("1/2 yd"),)),)),
    ]


def notions(view: str | None) -> list[Notion]:
    def count(text: str) -> Prose:
        return (para(text),)

    rows = [
        Notion((para("Thread to match, spool"),), {"A": count("1"), "B": count("1"), "C": count("1")}, ()),
        Notion((para("Button, ", said("1/2 in")),), {"A": count("—"), "B": count("2"), "C": count("4")}, count("for the sleeve tabs")),
    ]
    return [row._replace(by_view={k: v for k, v in row.by_view.items() if view in (None, k)}) for row in rows]


def sections(view: str | None) -> list[PlanSection]:
    every = [
        PlanSection("Prepare the pieces", (), [step for step in STEPS if step.number <= 4]),
        PlanSection(
            "Shoulders and armholes",
            (para("From here on, press every seam before another crosses it."),),
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
            kept.append(Gap(str(step.number), f"Step {step.number} belongs to {' and '.join(step.views)}; there is nothing to sew here."))
    return kept


STEPS = [
    PlanStep(
        1, "staystitch", "Staystitch the curves", VIEWS, True, False,
        (
            para("Curved edges are partly on the bias and stretch as you handle them. Stitch ", said("1/2 in"), " from the neckline and armhole edges of the ", piece("Front", "1"), " and the ", piece("Back", "2"), ", from the shoulder towards the middle."),
        ),
        tip=(para("Don’t backstitch. The row is only there to hold, and will be covered by the seam."),),
    ),
    PlanStep(
        2, "fuse", "Fuse the interfacing", VIEWS, True, False,
        (
            para("Lay the interfacing on the wrong side of each facing, rough side down. Cover it with the pressing cloth."),
            para("Press each place for as long as the maker says, lifting the iron and not sliding it. Let the pieces cool flat."),
        ),
        cautions=(Caution("Hot iron.", (para("Keep your fingers out of the steam, and lift the iron by its handle."),)),),
        figures=(FACED,),
    ),
    PlanStep(
        3, "pocket", "Sew the pocket to the front", ("C",), False, True,
        (
            para("Fold under ", said("5/8 in"), " on the sides and bottom of the ", piece("Patch pocket", "8"), " and press. Fold the top along its line, then:"),
            bullet("pin it to the ", piece("Front", "1"), ", right sides up, between the dots;"),
            bullet("edgestitch ", said("1/8 in"), " from the sides and bottom;"),
            bullet("stitch a small triangle at each upper corner."),
        ),
        figures=(POCKET,),
    ),
    PlanStep(
        4, "darts", "Sew the bust darts", VIEWS, True, False,
        (para("Fold each dart with right sides together. Stitch from the side to the point and let the last three stitches run off the fold. Press the darts down."),),
    ),
    PlanStep(
        5, "shoulders", "Join the shoulders", VIEWS, True, False,
        (
            para("Lay the front on the back, ", Span("emphasis", "wrong"), " sides together. Stitch the shoulders ", said("3/8 in"), " from the edge. Trim to ", said("1/8 in"), " and press."),
            para("Fold with right sides together, the seam on the fold. Stitch ", said("1/4 in"), " from it, so that the raw edges are caught inside. Press towards the back."),
        ),
        figures=(SHOULDER,),
    ),
    PlanStep(
        6, "facings", "Join the armhole facings", ("A",), False, False,
        (para("Sew two ", piece("Armhole facing", "5"), " pieces together at the shoulder, right sides together. Press the seam open. Finish the outer edge."),),
    ),
    PlanStep(
        7, "face", "Face the armholes", ("A",), False, False,
        (
            para("Pin the facing from step ", step_link(6, "facings"), " to the armhole, right sides together, seam on seam. Stitch."),
            para("Trim to ", said("1/4 in"), " and clip every ", said("1/2 in"), ", not through the stitching of step ", step_link(1, "staystitch"), ". Press the allowances towards the facing and understitch."),
        ),
        cautions=(Caution("Sharp points.", (para("Clip away from your fingers, with the tips of the blades only."),)),),
        figures=(FACED,),
    ),
    PlanStep(
        8, "sleeves", "Set in the sleeves", ("B", "C"), False, False,
        (para("Sew two rows of long stitches between the notches of the sleeve cap. Match the notches and the dot to the shoulder seam, draw up the threads until the cap fits, and stitch. Press towards the sleeve."),),
        tip=(para("If a pleat is caught, unpick only there: ", said("2 in"), " on each side is enough to spread it."),),
    ),
    PlanStep(
        9, "literal", "Mark <script>alert(1)</script> and {{ braces }} & keep them", VIEWS, True, False,
        (para("Text such as <script>alert(1)</script> or {{ plan.title }} is a writer’s text and is printed as it stands."),),
    ),
    PlanStep(
        10, "neck", "Face the neck", VIEWS, True, False,
        (
            para("Join the ", piece("Neck facing, front", "3"), " and the ", piece("Neck facing, back", "4"), " at the shoulders. Press the seams open."),
            para("Pin the facing to the neckline, right sides together. Stitch, trim to ", said("1/4 in"), ", clip, press towards the facing and understitch."),
        ),
        figures=(FACED, HEM),
    ),
    PlanStep(
        11, "sides", "Sew the side seams", VIEWS, True, False,
        (para("Right sides together, match the underarm seams and the notches. In views B and C sew the sleeve and the side in one run. Finish the allowances together and press them towards the back."),),
    ),
    PlanStep(
        12, "hem", "Hem the top", VIEWS, True, False,
        (para("Turn under ", said("1/2 in"), " and press, then another ", said("1/2 in"), " and press. Edgestitch along the inner fold. Press the hem from the right side."),),
        figures=(HEM,),
    ),
]  # fmt: skip
