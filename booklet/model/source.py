"""The language of the source: every file's keys, what each holds and whether it is needed; the schema comes from it."""

from __future__ import annotations

from booklet.model.kinds import Anything, Either, Items, Key, Keyed, Measure, Number, OneOf, OneOrMore, Table, Words

WORDS = Words()
NAMES = OneOrMore(Words("a name"))
FLAG = OneOf("true", "false", "yes", "no")
ALLOW = Key(Table(Words("the reason, in words"), "rules"), "exceptions: a rule's name and the reason")
SCOPE = {
    "for": Key(NAMES, "views, or words under a view's “with”, that have it"),
    "not for": Key(NAMES, "views, or words under a view's “with”, that do not have it"),
}
ART = Key(
    Either(
        Words("a file of the pattern's folder"),
        Keyed(
            "figure",
            {
                "file": Key(
                    Words("a file of the pattern's folder"),
                    "a drawing in the pattern's folder, as art/collar.svg",
                    True,
                ),
                "shows": Key(WORDS, "what the drawing shows, for a reader who can't see it"),
            },
        ),
    ),
    "your own drawing",
)

VIEW = Keyed(
    "view",
    {
        "name": Key(WORDS, "what the view is, as Sleeveless tunic", True),
        "with": Key(NAMES, "words that pieces and steps may be `for`"),
        "about": Key(WORDS, "a sentence or two"),
        "figure": ART,
    },
)
CHART = Keyed(
    "chart",
    {
        "unit": Key(OneOf("in", "cm"), "of every figure in the chart", True),
        "rows": Key(Table(OneOrMore(WORDS), "rows"), "a label and one figure a size", True),
        "note": Key(WORDS, "a sentence under the chart"),
        **SCOPE,
    },
)
MATERIAL = Keyed(
    "material",
    {
        "name": Key(WORDS, "as the buyer reads it, as Main fabric", True),
        "kind": Key(OneOf("woven", "knit", "interfacing", "lining", "batting", "other"), "what it is"),
        "suits": Key(WORDS, "which cloths suit"),
        "amounts": Key(
            Table(Either(OneOrMore(Measure()), Table(OneOrMore(Measure()), "views")), "widths"),
            "how much, by the width of the cloth and by view",
        ),
    },
)
NOTION = Keyed(
    "notion",
    {
        "item": Key(WORDS, "what it is, as button", True),
        "size": Key(Measure(), "its size, as 1/2 in"),
        "thick": Key(Measure(), "how thick it is, as a button: 1/8 in"),
        "count": Key(
            Either(Number(whole=True, most=999), Table(Number(whole=True, most=999), "views")),
            "how many, one number or one a view",
        ),
        "length": Key(Either(Measure(), Table(Measure(), "views")), "how long, one measure or one a view"),
        "note": Key(WORDS, "a few words for the buyer"),
        **SCOPE,
    },
)
EDGE = Keyed(
    "edge",
    {
        "allowance": Key(Measure(), "of this edge, where it is not the pattern's"),
        "curve": Key(OneOf("inward", "outward"), "how the edge curves"),
        "bias": Key(FLAG, "true: it lies on the bias, and drops when it hangs"),
        "on": Key(OneOf("fold"), "an edge on the fold is never sewn"),
    },
)
DRAWN = Key(NAMES, "its inner lines on the outline, numbered as notchbook edges draws them: l1, or [l1, l2]")
DART = Keyed(
    "dart",
    {"crosses": Key(NAMES, "the edge or edges into which it runs", True), "drawn": DRAWN},
)
FOLDS = {"darts": DART, "pleats": Keyed("pleat", DART.keys), "tucks": Keyed("tuck", DART.keys)}
LINE = Keyed(
    "line",
    {
        "allowance": Key(Measure(), "of the edge that is cut along it, where it is not the edge's own"),
        "drawn": DRAWN,
    },
)
PIECE = Keyed(
    "piece",
    {
        "number": Key(WORDS, "printed on the piece", True),
        "cut": Key(
            Table(Words("a number, or “1 on fold”"), "materials"),
            "how many of which material, as {self: 2, fusible: 1}",
            True,
        ),
        "edges": Key(Table(EDGE, "edges"), "in their order round the piece", True),
        **{
            folds: Key(Table(kind, folds), f"each {kind.of} with the edge or edges that it crosses")
            for folds, kind in FOLDS.items()
        },
        "corners": Key(
            NAMES, "where each edge begins on the outline, numbered as notchbook edges draws them: [1, 2, n3]"
        ),
        "lines": Key(Either(NAMES, Table(LINE, "lines")), "marked lines that a step may speak of"),
        "bias": Key(FLAG, "true: it is cut on the bias"),
        **SCOPE,
    },
)
PATTERN = Keyed(
    "pattern",
    {
        "pattern": Key(WORDS, "the title", True),
        "studio": Key(WORDS, "whose pattern it is", True),
        "edition": Key(WORDS, 'in quotes, as "1.0"', True),
        "about": Key(WORDS, "a paragraph or two for the first pages"),
        "units": Key(OneOf("inch", "metric"), "the system that is written first"),
        "seam allowance": Key(Measure(), "of every edge that does not say its own", True),
        "metric": Key(Table(Measure(), "measures"), "the house's rounding, as {5/8 in: 1.5 cm}"),
        "views": Key(Table(VIEW, "views"), "a letter each, as A: {name: Sleeveless tunic}", True),
        "sizes": Key(NAMES, "as [6, 8, 10]"),
        "outlines": Key(NAMES, "files of the pattern's folder with the outlines: pieces.dxf, or pieces/*.svg"),
        "figure size": Key(WORDS, "the size in which figures are drawn; the middle one where it is not said"),
        "fittings": Key(NAMES, "bust or cup fittings"),
        "for ages": Key(
            Items(Number(whole=True, most=120), "ages"), "children's clothes: youngest and oldest, in years"
        ),
        "charts": Key(Table(CHART, "charts"), "tables by size"),
        "choosing a size": Key(WORDS, "prose"),
        "materials": Key(Table(MATERIAL, "materials"), "what pieces are cut of", True),
        "notions": Key(Items(NOTION, "notions"), "what is bought besides cloth"),
        "tools": Key(NAMES, "a list of words"),
        "pieces": Key(Table(PIECE, "pieces"), "the pattern pieces", True),
        "terms": Key(Table(WORDS, "terms"), "your own words in the glossary"),
        "before you begin": Key(WORDS, "prose: laying out, cutting, marking"),
        "allow": ALLOW,
    },
)

TAKE_KEYS = {
    "setup": Key(WORDS, "a camera set-up of film.yaml"),
    "show": Key(WORDS, "what the take shows"),
    "say": Key(WORDS, "what is said"),
    "minutes": Key(Number(most=600), "how long it lasts"),
    "words": Key(Number(whole=True, most=10_000), "how many words will be said, where “say” is not written out"),
    "note": Key(OneOrMore(WORDS), "put on the screen: words, or the name of a chart, material, notion or piece"),
    "about views": Key(WORDS, "what is said about the views that are not filmed"),
}
TAKE = Keyed("take", TAKE_KEYS)
STEP_KEYS = {
    "id": Key(WORDS, "a short name for other steps to speak of", True),
    "title": Key(WORDS, "as Join the shoulders", True),
    **SCOPE,
    "work": Key(Items(Anything(), "entries"), "what hands do, in order"),
    "uses": Key(NAMES, "parts that `work` does not name"),
    "makes": Key(WORDS, "the part that this step makes"),
    "after": Key(NAMES, "ids of steps that must come first"),
    "text": Key(WORDS, "the instruction"),
    "tip": Key(WORDS, "one short tip"),
    "caution": Key(WORDS, "one short caution"),
    "figure": ART,
    "film": Key(Items(TAKE, "takes"), "takes of this step"),
    "minutes": Key(Number(most=600), "how long it takes at the machine"),
    "optional": Key(FLAG, "true: the view must sew with it and without it"),
    "allow": ALLOW,
}
STEP = Keyed("step", STEP_KEYS)
SECTION = Keyed(
    "section",
    {
        "section": Key(WORDS, "its title", True),
        "text": Key(WORDS, "a few words before its steps"),
        "steps": Key(Items(STEP, "steps"), "in sewing order", True),
        "allow": ALLOW,
    },
)
FILM = Keyed(
    "film plan",
    {
        "view": Key(WORDS, "the view that is filmed"),
        "pace": Key(Number(most=400, least=1), "words a minute"),
        "recorded": Key(
            Words("the name of one file"),
            "what was filmed: a file of the folder with captions, markers or an edit list",
        ),
        "times": Key(
            Table(Words("a time, such as 12:40, or “not filmed”"), "times"),
            "corrections: a step's id or a take's title, and 12:40, or “not filmed”",
        ),
        "link": Key(WORDS, "the video's address; {seconds} in it stands for the time, else #t= and the time are added"),
        "setups": Key(Table(WORDS, "set-ups"), "camera set-ups, your own names"),
        "samples": Key(Number(whole=True, most=9), "how many half-made samples you will sew beforehand, at most"),
        "takes": Key(
            Items(
                Keyed(
                    "take",
                    {
                        "title": Key(WORDS, "as Welcome", True),
                        "when": Key(WORDS, "first, last, before STEP or after STEP", True),
                        "needs": Key(WORDS, "the garment it shows: nothing, finished, or STEP: sewn to that step"),
                        **TAKE_KEYS,
                    },
                ),
                "takes",
            ),
            "takes that belong to no step",
        ),
    },
)
