"""What every calculator of air in a vent pipe compares and warns of: its speed, its kind of flow, missing fittings."""

from ..physics import pipe
from ..tables import rule_pack, si_of
from ..work import Work

SPEED = "ft/min|m/s"
HIGHEST = (  # reason in the rule's condition, id of the check, its words
    ("noise", "speed-noise", "Above this speed the air in the pipe is heard."),
    ("condensate", "speed-condensate", "Above this speed water on the pipe wall no longer runs back against the air."),
)


def air_speed(work: Work, V: float) -> None:
    """Compare the air speed V [m/s] with the advisory limits."""
    limits = {r["condition"]["reason"]: r for r in rule_pack("sgm-sf-2017")["rows"] if r["quantity"] == "air_speed"}
    for reason, id, text in HIGHEST:
        row = limits[reason]
        wanted = si_of(row)
        work.at_most(id, text, found=V, required=wanted, unit=SPEED, source=row["source"], section=row["section"])


def cautions(work: Work, *, Re: float, fittings: bool) -> None:
    """Doubts about the loss: a Reynolds number Re [1] between laminar and turbulent, a pipe without fittings."""
    if pipe.regime(Re=Re) == "transitional":
        work.caution(
            "note",
            "The flow is between laminar and turbulent: the loss may be 30 % off either way. It is small there.",
            "transition-line",
        )
    if not fittings:
        work.caution("warning", "No fittings were entered. A few elbows can cost more than the straight pipe.")
