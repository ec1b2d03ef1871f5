"""Requests for sections that the tests draw: every construction, in inches and in metric, and some unlikely ones."""

from __future__ import annotations

from booklet.length import parse
from booklet.plan.plan import Section, Stage


def stage(op: str, *lengths: str, manner: str = "") -> Stage:
    return Stage(op, tuple(parse(length) for length in lengths), manner)


def section(kind: str, allowance: str, sides: str, *stages: Stage, cloths: str = "") -> Section:
    names = tuple(sides.split(", "))
    kinds = tuple(cloths.split(", ")) if cloths else ("self",) * len(names)
    return Section(kind, parse(allowance), names, kinds, stages)


OPEN = stage("press", manner="open")
TOWARD_BACK = stage("press", manner="toward back")

PLAIN = section("plain", "5/8 in", "front, back", stage("stitch", "5/8 in"), OPEN)
FRENCH = section(
    "french",
    "5/8 in",
    "front, back",
    stage("stitch", "3/8 in"),
    stage("trim", "1/8 in"),
    stage("turn"),
    stage("stitch", "1/4 in"),
    TOWARD_BACK,
)
FRENCH_METRIC = section(
    "french",
    "1.6 cm",
    "front yoke, back yoke",
    stage("stitch", "1 cm"),
    stage("trim", "3 mm"),
    stage("fold"),
    stage("stitch", "6 mm"),
    stage("press", manner="toward front yoke"),
    cloths="self, lining",
)
FELLED = section(
    "flat felled",
    "5/8 in",
    "front, back",
    stage("stitch", "5/8 in"),
    stage("trim", "1/4 in"),
    TOWARD_BACK,
    stage("fold", "3/8 in"),
    stage("topstitch", "3/8 in"),
)
HEM = section(
    "double hem", "1 in", "body", stage("fold", "1/2 in"), stage("fold", "1/2 in"), stage("press", manner="up"),
    stage("stitch fold"),
)  # fmt: skip
ENCLOSED = section(
    "enclosed",
    "5/8 in",
    "collar, under collar",
    stage("stitch", "5/8 in"),
    stage("grade", "1/4 in", "1/8 in"),
    stage("turn"),
    stage("press", manner="flat"),
    stage("topstitch", "3/8 in"),
    cloths="self, interfacing",
)
CASING = section(
    "casing", "1 1/2 in", "trousers", stage("fold", "1/4 in", "1 1/4 in"), stage("stitch fold"),
    stage("topstitch", "1/8 in"),
)  # fmt: skip

MOCK_FRENCH = section(
    "mock french",
    "5/8 in",
    "front, back",
    stage("stitch", "5/8 in"),
    stage("fold", "1/4 in"),
    stage("stitch", manner="the folds"),
    TOWARD_BACK,
)
BOUND = section("bound", "5/8 in", "front, back", stage("stitch", "5/8 in"), stage("bind", "1/4 in"), TOWARD_BACK)
HONG_KONG = section("hong kong", "5/8 in", "front, back", stage("stitch", "5/8 in"), stage("bind", "1/8 in"), OPEN)
SLOT = section("slot", "5/8 in", "front, back", stage("stitch", "5/8 in"), OPEN, stage("topstitch", "3/8 in"))
PIPED = section("piped", "5/8 in", "front, back", stage("stitch", "5/8 in"), TOWARD_BACK)

BLIND = section("blind hem", "2 1/4 in", "skirt", stage("fold", "1/4 in", "2 in"), stage("stitch fold"))
FACED = section(
    "faced hem", "5/8 in", "skirt, hem facing", stage("stitch", "5/8 in"), stage("turn"), stage("stitch fold")
)  # fmt: skip
BOUND_HEM = section("bound hem", "5/8 in", "skirt", stage("bind"))
BOUND_EDGE = section("bound edge", "5/8 in", "neckline", stage("bind", "1/2 in"))
LETTUCE = section("lettuce hem", "1/4 in", "top", stage("finish", manner="overlock"))

ALL = {
    "plain, pressed open": PLAIN,
    "plain, metric, overlocked edges": section(
        "plain", "1.5 cm", "front, back", stage("stitch", "1.5 cm"), stage("finish", manner="overlock"), OPEN
    ),
    "plain, trimmed and topstitched": section(
        "plain",
        "5/8 in",
        "armhole facing, back",
        stage("stitch", "5/8 in"),
        stage("trim", "3/8 in"),
        stage("finish", manner="zigzag"),
        stage("press", manner="toward armhole facing"),
        stage("topstitch", "1/4 in"),
    ),
    "plain, clean finished": section(
        "plain", "5/8 in", "front, back", stage("stitch", "5/8 in"), stage("finish", manner="clean"), OPEN
    ),
    "plain, bound": section(
        "plain", "5/8 in", "front, back", stage("stitch", "5/8 in"), stage("finish", manner="bind"), TOWARD_BACK
    ),
    "plain, outer to lining": section(
        "plain",
        "1 cm",
        "outer, lining",
        stage("stitch", "1 cm"),
        OPEN,
        stage("topstitch", "5 mm"),
        cloths="self, lining",
    ),
    "plain, one stage": section("plain", "5/8 in", "front, back", stage("stitch", "5/8 in")),
    "french": FRENCH,
    "french, metric": FRENCH_METRIC,
    "flat felled": FELLED,
    "flat felled on the right side": section(
        "flat felled",
        "1.5 cm",
        "front, back",
        stage("stitch", "1.5 cm", manner="wrong sides together"),
        stage("press", manner="toward front"),
        stage("trim", "6 mm"),
        stage("fold", "9 mm"),
        stage("topstitch"),
    ),
    "mock felled": section(
        "mock felled",
        "5/8 in",
        "front, back",
        stage("stitch", "5/8 in"),
        stage("trim", "1/4 in"),
        TOWARD_BACK,
        stage("topstitch", "3/8 in"),
    ),
    "welt": section(
        "welt",
        "5/8 in",
        "front, back",
        stage("stitch", "5/8 in"),
        TOWARD_BACK,
        stage("trim", "1/4 in"),
        stage("topstitch", "3/8 in"),
    ),
    "topstitched": section(
        "topstitched",
        "1.5 cm",
        "front, back",
        stage("stitch", "1.5 cm"),
        stage("press", manner="toward front"),
        stage("topstitch", "6 mm"),
    ),
    "mock french": MOCK_FRENCH,
    "bound": BOUND,
    "bound, pressed the other way": section(
        "bound",
        "1.5 cm",
        "front, back",
        stage("stitch", "1.5 cm"),
        stage("trim", "1 cm"),
        stage("bind", "6 mm"),
        stage("press", manner="toward front"),
        stage("topstitch", "1 cm"),
    ),
    "hong kong": HONG_KONG,
    "slot": SLOT,
    "piped": PIPED,
    "piped, turned": section(
        "piped", "1.5 cm", "cover, back", stage("stitch", "1.5 cm"), stage("turn"), stage("topstitch", "6 mm")
    ),
    "lapped, folded": section(
        "lapped", "5/8 in", "yoke, back", stage("fold", "5/8 in"), stage("stitch"), stage("topstitch", "1/4 in")
    ),
    "lapped, cut edge": section("lapped", "1 cm", "band, tote", stage("stitch", "1 cm"), cloths="self, interfacing"),
    "enclosed, understitched": section(
        "enclosed",
        "5/8 in",
        "body, armhole facing",
        stage("stitch", "5/8 in"),
        stage("trim", "1/4 in"),
        stage("clip", "1/2 in"),
        stage("press", manner="toward armhole facing"),
        stage("understitch", "1/8 in"),
        stage("turn"),
    ),
    "enclosed, graded and topstitched": ENCLOSED,
    "enclosed, three layers": section(
        "enclosed",
        "5/8 in",
        "body, collar, facing",
        stage("stitch", "5/8 in"),
        stage("grade", "3/8 in", "1/4 in", "1/8 in"),
        stage("press", manner="toward facing"),
        stage("understitch", "1/8 in", manner="facing"),
        stage("turn"),
        cloths="self, self, lining",
    ),
    "enclosed, everything": section(
        "enclosed",
        "5/8 in",
        "front, back",
        stage("stitch", "5/8 in"),
        stage("trim", "1/4 in"),
        OPEN,
        TOWARD_BACK,
        stage("understitch", "1/8 in"),
        stage("turn"),
        stage("topstitch", "3/16 in"),
    ),
    "overlocked": section("overlocked", "1 cm", "front, back", stage("stitch", "1 cm"), TOWARD_BACK),
    "double hem": HEM,
    "double hem, uneven": section(
        "double hem", "1 1/2 in", "body", stage("fold", "1/2 in", "1 in"), stage("stitch fold", "1/8 in")
    ),
    "hem turned once": section(
        "double hem",
        "2 cm",
        "leg",
        stage("finish", manner="overlock"),
        stage("fold", "2 cm"),
        stage("stitch fold", "1.5 cm"),
    ),
    "blind hem": BLIND,
    "rolled hem": section("rolled hem", "1/8 in", "scarf", stage("fold", "1/16 in", "1/16 in"), stage("stitch fold")),
    "faced hem": FACED,
    "bound edge": BOUND_EDGE,
    "casing": CASING,
    "casing, metric": section(
        "casing", "4 cm", "shorts", stage("fold", "1 cm", "3 cm"), stage("stitch fold"), cloths="self"
    ),
    "long names": section(
        "plain",
        "5/8 in",
        "upper left back bodice with its underlining, <b>Rückenpasse</b> & Seitenteil",
        stage("stitch", "5/8 in"),
        stage("press", manner="toward upper left back bodice with its underlining"),
    ),
    "two names of middling length, three stages": section(
        "plain",
        "5/8 in",
        "Front armhole facing and front, Back armhole facing and back",
        stage("stitch", "5/8 in"),
        stage("trim", "3/8 in"),
        OPEN,
    ),
    "a piece to itself": section("plain", "5/8 in", "Long sleeve, Long sleeve", stage("stitch", "5/8 in"), OPEN),
    "four layers": section(
        "plain",
        "1 cm",
        "Facing, Zip strip, Zip strip in lining, Lining",
        stage("stitch", "1 cm"),
        stage("press", manner="toward lining"),
        stage("topstitch", "3 mm"),
        cloths="self, self, lining, lining",
    ),
}
