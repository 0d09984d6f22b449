"""Cautions of a hole through a slab that two calculators share, worded once."""

from ..work import Work


def every_hole(work: Work) -> None:
    """What can hurt at each hole: what lies in the slab, dust, water."""
    work.caution(
        "danger",
        "Stop at once at a change of colour of the dust, at water, at metal, or when the bit drops. Know the shut-offs before you start.",
    )
    work.caution(
        "danger",
        "Concrete dust carries silica. Drill with a shrouded tool and a matching vacuum, or wet; never dry and open.",
        "osha-1926-1153-table-1",
    )
    work.caution(
        "warning",
        "Water under pressure can rise through the hole. Have a plug and a pump at hand, power kept off the floor.",
    )
