"""Cautions of the pit that two calculators share, worded once."""

from ..work import Work


def pump_under_lid(work: Work) -> None:
    """The two dangers of a pump under a sealed lid: its current, and that it fails unseen."""
    work.caution(
        "danger",
        "Unplug the pump and prove it dead before a hand goes into the pit. The outlet, its circuit and its ground-fault "
        "protection follow the local code, by a licensed electrician where it says so.",
        "cec-2013",
    )
    work.caution(
        "danger",
        "A sealed lid hides a dead pump. Pour in water, see the pump start and stop, before and after the lid is closed, "
        "and leave a high-water alarm on another circuit.",
    )
