"""What cold-stack compares, its cautions and its plot."""

from ..physics import heat
from ..units import from_si
from ..work import Work

COLDER = 5.0  # K, how far the weather may lie from what was entered before the frost moves: from memory
R_LEAST = 4.0  # h ft2 F/Btu: RMS-LB 2018, 6.2.10 a
LATE = {"some": "the outlet end", "high": "the whole outdoor run"}


def compare(work: Work, now: heat.ColdStack, r: float) -> None:
    """The end wall with freezing, and the insulation with the figure that a standard gives against ice."""
    work.judge(
        "wall-above-freezing",
        "The inner wall stays above freezing up to the outlet.",
        ok=now.first_frost_distance is None,
        required=heat.ZERO_CELSIUS,
        found=now.wall_end_temperature,
        unit="degF|degC",
        source="derived",
    )
    if now.first_frost_distance is not None:
        work.at_least(
            "insulation-r",
            "Where freezing would regularly choke the pipe, its insulation is at least R-4 (0.70 m2 K/W) and kept from the weather.",
            found=r,
            required=R_LEAST,
            unit="1|1",
            source="rms-lb-2018",
            section="6.2.10 a",
        )


def caution(work: Work, now: heat.ColdStack, colder: heat.ColdStack, insulation: float, length: float) -> None:
    """Ice that falls, ice that closes, ladders; what the sum leaves out."""
    if now.first_frost_distance is not None:
        work.caution(
            "warning",
            f"In this weather frost grows along {LATE[now.risk]}. It closes the outlet slowly: the suction under the slab goes, "
            "the radon comes back, and nobody hears it. Look at the gauge in a cold spell.",
            "derived",
        )
    elif colder.first_frost_distance is not None:
        at = colder.first_frost_distance
        work.caution(
            "warning",
            f"No frost in this weather, but 5 K (9 °F) colder it begins {from_si(at, 'ft'):.1f} ft ({at:.1f} m) from where the "
            "cold begins.",
            "derived",
        )
    if now.risk != "none" or colder.first_frost_distance is not None:
        work.caution(
            "danger",
            "Ice falls. Keep outlet and pipe clear of doors, walks and play places. No ladder and no roof in ice or wind, or "
            "alone.",
        )
        work.caution(
            "warning",
            "Ice that lets go falls into the fan. Switch it off before you knock on a pipe, and let the ice melt out.",
        )
        work.caution(
            "note",
            "Passive stacks without insulation frosted and lost flow in Canadian houses, worse in winter.",
            "zhou-2021",
        )
    if insulation:
        work.caution(
            "note",
            "Insulation works only dry and whole: a jacket against weather and sun, joints closed, fittings too.",
        )
    work.caution(
        "note",
        "All water must run back to the ground: no sag, no cap, no low point before the outlet.",
        "sgm-sf-2017",
    )
    work.not_looked_at(
        "Measured heat losses of vent pipes: none were found. This is textbook heat transfer, not a measurement.",
        "Sun on the pipe, and a clear night sky, which cools it more. Weather that changes: the sum is steady.",
        "House air drawn through leaks: it is drier and warmer, and makes less ice.",
        "How long a frost lasts, and how thick it grows before it closes the pipe.",
        "Frost on a screen, a cap or an elbow at the outlet.",
        "Elbows and fittings, which lie bare where the insulation was not cut for them.",
    )
    if not length:
        work.not_looked_at("Any pipe in the cold: the length outdoors is 0.")


def plot(work: Work, now: heat.ColdStack) -> None:
    """Air and wall along the riser, with the line of freezing."""
    places = now.places
    if len(places) < 2:
        return
    every = max(1, -(-len(places) // 100))
    kept = [*places[:-1:every], places[-1]]
    work.plot(
        "temperatures",
        "Temperatures along the riser",
        ("distance outdoors", "ft|m", [place.distance for place in kept]),
        ("inner wall", "degF|degC", [place.wall for place in kept]),
        ("air", "degF|degC", [place.air for place in kept]),
        ("freezing", "degF|degC", [heat.ZERO_CELSIUS] * len(kept)),
    )
