"""Suction pits of three volumes as half balls under a slab, to one scale, beside a bucket."""

from math import pi

from ...result import Result
from ...units import from_si, si
from ..figures import figure as figure_text
from ..markup import Markup
from .canvas import Sheet
from .parts import arc, balloon, listed, spoken

# RMS-LB 2018 (12/20), 6.1.1: at least 0.25 ft3, in tight soil 1 ft3; 35 Ill. Adm. Code 742.1210(c)(1): 2 ft3, vapour.
PITS = (
    (0.25, "at least, existing building"),
    (1.0, "tight soil, advised"),
    (2.0, "an Illinois rule for chemical vapours"),
)
BUCKET = si("8 L")  # 2 gallons, RMS-LB 2018 (12/20), 6.1.1
SLAB, PIPE = si("4 in"), si("3.5 in")
PLACES = (46.0, 146.0, 280.0)


def radius(volume: float) -> float:
    """Radius [m] of a half ball of a volume [m3]: V = 2/3 pi r^3."""
    return (1.5 * volume / pi) ** (1 / 3)


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Pits, slab, pipe and bucket to one scale."""
    scale = 68 / radius(si("2 ft3"))
    sheet = Sheet(264, 0, 60, scale)
    floor = 60 + SLAB * scale
    sheet.field("soil", 0, floor, 360, 160)
    sheet.field("conc", 0, 60, 360, floor)
    means = []
    for number, ((cubic, why), x) in enumerate(zip(PITS, PLACES, strict=True), 1):
        volume = si(f"{cubic} ft3")
        r = radius(volume)
        sheet.path("pit", arc(x, floor, r * scale, 0, 1))
        half = PIPE * scale / 2
        sheet.field("inside", x - half - 2, 60, x + half + 2, floor + 1)
        sheet.field("part", x - half, 14, x + half, floor + 7)
        balloon(sheet, x + half + 18, 36, number)
        litres = figure_text(round(from_si(volume, "L")))
        means.append(f"{figure_text(cubic)} ft³ ({litres} L), radius {_both(r)}: {why}")
    _bucket(sheet, scale)
    drawn = sheet.figure(
        uid,
        "Suction pits to one scale",
        f"Three half balls under a slab and a bucket. {spoken(means)}",
        f"To scale: pits as half balls under a {_both(SLAB)} slab, a pipe {_both(PIPE)} wide, and a bucket "
        "of 2 gallons (8 L), which the same standard names beside the smallest pit.",
    )
    return listed(drawn, means)


def _both(metres: float) -> str:
    return f"{figure_text(round(from_si(metres, 'in'), 1))} in. ({figure_text(round(metres * 1000))} mm)"


def _bucket(sheet: Sheet, scale: float) -> None:
    """A bucket as tall as it is wide in the middle; its upper rim a tenth wider, its foot a tenth narrower."""
    size = (BUCKET * 4 / pi) ** (1 / 3)  # near enough: a cylinder of that width holds it
    side, x, foot = size * scale / 2, 60.0, 258.0
    top, rim, base = foot - 2 * side, side * 1.1, side * 0.9
    sheet.path("part", [(x - rim, top), (x - base, foot), (x + base, foot), (x + rim, top), (x - rim, top)])
    sheet.path("edge", arc(x, top, rim, 1, 2))
    sheet.text("bucket, 2 gallons (8 L)", x + rim + 12, foot - side + 5)
