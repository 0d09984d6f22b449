"""Two traps under the same fan: what 1.5 in. of suction does to seals 2 and 6 in. deep."""

from ...result import Result
from ...units import si
from ..markup import Markup
from .canvas import Sheet
from .parts import arrow, inches

PULL = 1.5  # in. WC at the drain
SEALS = (2.0, 6.0)  # in.
BORE = si("1.5 in")
SCALE = 26 / si("1 in")


def figure(result: Result | None, uid: str, system: str) -> Markup:
    """Both traps to scale while the fan pulls: the room's side falls and the fan's side rises, half the suction each.

    Full traps hold a depth equal to their seal in both legs; water above the weir goes over to the fan's side, so the
    room's leg stands lower than the weir by the whole suction.
    """
    sheet = Sheet(280, 0, 44, SCALE)
    for x, seal in zip((42.0, 214.0), SEALS, strict=True):
        _trap(sheet, x, seal, system)
    return sheet.figure(
        uid,
        "Two traps and the suction of a fan",
        f"A trap with a seal {inches(SEALS[0], system)} deep and one {inches(SEALS[1], system)} deep, room air at the left, "
        f"a fan that pulls {inches(PULL, system)} of water at the right. Water in the room's leg stands {inches(PULL, system)} "
        f"below the overflow; {inches(SEALS[0] - PULL, system)} and {inches(SEALS[1] - PULL, system)} of seal are left.",
        "To scale. Room air stands at the left of each trap, the fan draws at its right. "
        "The fan pulls 1.5 in. WC (374 Pa); the room's leg falls by that much, and what is left keeps the air out. "
        "Dashed: the level of a full trap.",
    )


def _trap(sheet: Sheet, x: float, seal: float, system: str) -> None:
    bore = BORE * SCALE * 0.62
    gap = 12.0
    weir = 74.0
    dip = weir + seal * si("1 in") * SCALE  # under side of the inner wall: the seal is measured from here to the weir
    foot = dip + bore * 0.9
    left, mid = x, x + bore
    right, out = mid + gap, mid + gap + bore
    far = out + 46
    sheet.path("part", [
        (left, 34), (left, foot), (out, foot), (out, weir), (far, weir), (far, weir - bore), (right, weir - bore),
        (right, dip), (mid, dip), (mid, 34),
    ])  # fmt: skip
    level = weir + PULL * si("1 in") * SCALE
    sheet.field("water", left + 1, level, mid, foot - 1)
    sheet.field("water", mid, dip, right, foot - 1)
    sheet.field("water", right, weir, out - 1, foot - 1)
    sheet.path("edge", [(left, level), (mid, level)])
    sheet.path("edge", [(right, weir), (out, weir)])
    sheet.path("level", [(left - 24, weir), (right, weir)])
    arrow(sheet, ((left + mid) / 2, 38), ((left + mid) / 2, level - 6))
    arrow(sheet, (far - 30, weir - bore / 2), (far + 14, weir - bore / 2))
    sheet.path("lead", [(left - 12, weir), (left - 12, level)])
    sheet.path("lead", [(left - 18, level), (left - 6, level)])
    sheet.path("lead", [(out + 14, level), (out + 14, dip)])
    for y in (level, dip):
        sheet.path("lead", [(out + 8, y), (out + 20, y)])
    sheet.text(f"{inches(seal, system)} seal", left - 24, 22)
    sheet.text(f"{inches(seal - PULL, system)} left", left - 14, foot + 22)
