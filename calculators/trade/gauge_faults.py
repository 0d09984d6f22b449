"""What can make a gauge read otherwise than at start-up: each cause, what it changes, where to look, what speaks for it."""

from collections.abc import Callable
from math import isclose
from typing import NamedTuple

from ..tables import si_of, table
from ..units import from_si, short
from .gauge_model import GREAT_HOLE, Built, Fault, Shown, nearest

SEEN = (
    "no-power",
    "fan-silent",
    "fan-runs",
    "hose-off",
    "fluid-lost",
    "swings",
    "lid-open",
    "pipe-apart",
    "hiss",
    "water-sound",
    "pit-full",
    "wet-ground",
    "frost",
    "noise",
    "new-fan",
)
STILL = ("no-power", "fan-silent")  # what speaks against everything that needs a running fan


class Cause(NamedTuple):
    """One cause.  ``model`` names what it changes; causes with one model cannot be told apart by any reading.

    ``seen`` speaks for it, ``against`` speaks against it; ``direct`` is what would be the cause itself, seen.
    """

    id: str
    name: str
    means: str
    look_at: str
    model: str
    seen: tuple[str, ...] = ()
    against: tuple[str, ...] = STILL
    direct: tuple[str, ...] = ()


# In the order in which looking costs least.
CAUSES = (
    Cause(
        "unchanged",
        "Nothing has changed",
        "The system reads as it did.",
        "Nothing. Read it again at the next look.",
        "unchanged",
        (),
        (*STILL, "hose-off", "fluid-lost", "lid-open", "pipe-apart", "pit-full", "new-fan"),
    ),
    Cause(
        "hose-off",
        "Hose off, pinched or wet",
        "The gauge no longer feels the pipe. The system may be as it was.",
        "Hose: on at both ends, not pinched, no water in it.",
        "nothing-felt",
        ("hose-off",),
        (),
        ("hose-off",),
    ),
    Cause(
        "fluid-lost",
        "Fluid gone from the gauge",
        "The gauge cannot show anything. The system may be as it was.",
        "Both legs of the U-tube: is there fluid? Fill up with its own fluid only.",
        "nothing-felt",
        ("fluid-lost",),
        (),
        ("fluid-lost",),
    ),
    Cause(
        "gauge-zero",
        "Gauge off its zero",
        "Tilted, or filled wrongly: it is off by {size}. The system may be as it was.",
        "Take the hose off: the gauge must stand at zero. Enter what it shows as zero_offset.",
        "gauge-zero",
        (),
        STILL,
    ),
    Cause(
        "fan-stopped",
        "Fan without power, or dead",
        "No air is drawn at all.",
        "Listen at the fan. Then switch, breaker, tripped outlet, plug. Do not open it under power.",
        "fan-stopped",
        ("no-power", "fan-silent"),
        ("fan-runs", "noise"),
        ("no-power",),
    ),
    Cause(
        "lid-off",
        "Lid off the pit",
        "The fan draws the room's air; nothing is left for the soil.",
        "The lid: on, fastened, gasket in place?",
        "lid-off",
        ("lid-open",),
        STILL,
        ("lid-open",),
    ),
    Cause(
        "lid-leak",
        "New air way into the pit: lid, drain, cracked floor joint",
        "An opening of about {size} lets in the room's air.",
        "Lid rim and every pipe and cord through it, drains that end in the pit, floor joints. Use a smoke pencil.",
        "pit-opening",
        ("lid-open", "hiss"),
    ),
    Cause(
        "pipe-apart",
        "Suction pipe apart behind the gauge",
        "The fan draws the room's air through the open pipe.",
        "Follow the pipe from the pit to the fan, the attic too.",
        "pipe-apart",
        ("pipe-apart",),
        STILL,
        ("pipe-apart",),
    ),
    Cause(
        "pipe-leak",
        "Joint open in the suction pipe",
        "An opening of about {size} in the pipe lets in the room's air.",
        "Every joint and coupling between pit and fan, with smoke or a wet hand.",
        "pipe-opening",
        ("pipe-apart", "hiss"),
    ),
    Cause(
        "pit-flooded",
        "Pit water over the drain mouth",
        "Water shuts the air's way from the soil: {size} of it is left.",
        "Water level in the pit against the mouth of the drain. Does the pump start?",
        "soil-shut",
        ("pit-full", "water-sound", "swings"),
    ),
    Cause(
        "wet-ground",
        "Wet ground",
        "The soil lets through less air: {size} of what it did.",
        "Rain and thaw of the last weeks; water in a test hole.",
        "soil-shut",
        ("wet-ground",),
    ),
    Cause(
        "tile-blocked",
        "Drain tile blocked or crushed",
        "Less of the tile brings air: {size} of what it did.",
        "A camera in the tile; test holes on the far side against their first readings.",
        "soil-shut",
    ),
    Cause(
        "choked-before",
        "Water in a sag of the pipe between pit and gauge",
        "It costs {size} more; the gauge sits on the fan's side of it.",
        "The slope of the pipe up to the gauge; knock and listen. Lift the sag.",
        "choked-before",
        ("water-sound", "swings"),
    ),
    Cause(
        "choked-behind",
        "Water in a sag of the pipe behind the gauge",
        "It costs {size} more on the fan's side; pit and gauge lose suction alike.",
        "The slope of the pipe from the gauge to the fan; knock and listen. Lift the sag.",
        "choked-behind",
        ("water-sound", "swings"),
    ),
    Cause(
        "outlet-choked",
        "Ice, a nest or snow at the outlet or in the fan",
        "It costs {size} more behind the fan; pit and gauge lose suction alike.",
        "The outlet, from the ground first. No roof work in ice, wind or alone.",
        "choked-behind",
        ("frost", "noise"),
    ),
    Cause(
        "fan-worn",
        "Fan worn, dirty or iced",
        "It turns like a fan at {size} of its speed.",
        "Sound and heat of the fan, its age; its pressure with the pipe closed against the data sheet.",
        "other-speed",
        ("noise", "frost"),
    ),
    Cause(
        "other-fan",
        "Another fan, or another speed",
        "It acts like the old fan at {size} of its speed. The old mark no longer holds.",
        "The label of the fan against the one of the start-up record, and its speed control.",
        "other-speed",
        ("new-fan",),
    ),
    Cause(
        "soil-open",
        "Soil gives more air than at start-up: dry, or a new way to the outdoors",
        "The soil lets through {size} of what it did.",
        "Weather since; digging, a new drain or a dry trap beside the house.",
        "soil-open",
        ("hiss",),
        (*STILL, "wet-ground", "pit-full"),
    ),
    Cause(
        "sealed-since",
        "An opening of the start-up day has been closed",
        "Of the openings entered {size} are left. That is a gain.",
        "The lid and the cracks that were open then. Set a new mark.",
        "sealed",
    ),
)


class Explained(NamedTuple):
    """A cause in the size that comes nearest to the reading: what it means, what is shown then, whether none is needed.

    ``idle`` is true where none of it is needed, and where no amount helps.
    """

    cause: Cause
    means: str
    shown: Shown
    idle: bool = False


def _area(size: float, _: Shown) -> str:
    return f"{short(from_si(size, 'in2'), 3)} in2 ({short(from_si(size, 'cm2'), 3)} cm2)"


def _share(size: float, _: Shown | None = None) -> str:
    return f"{short(size * 100, 3)} %"


def _suction(pressure: float) -> str:
    return f"{from_si(pressure, 'in WC'):.2f} in WC ({pressure:.0f} Pa)"


# What it changes, from which size to which, and how the size is said.
Sizes = tuple[Callable[[float], Fault], float, float, Callable[[float, Shown], str]]


def _sized(system: Built, higher: bool) -> dict[str, Sizes]:
    """The models that have a size; ``higher`` when the gauge reads more than it should."""

    def cost(k: float, shown: Shown) -> str:
        return _suction(k * system.system.motion(shown.flow))

    found: dict[str, Sizes] = {
        "pit-opening": (lambda a: Fault(pit_area=a), 1e-6, GREAT_HOLE, _area),
        "pipe-opening": (lambda a: Fault(pipe_area=a), 1e-6, system.bore_area, _area),
        "soil-shut": (lambda f: Fault(soil=f), 1.0, 1e-3, _share),
        "soil-open": (lambda f: Fault(soil=f), 1.0, 30.0, _share),
        "choked-behind": (lambda k: Fault(after=k), 0.01, 1e6, cost),
        "other-speed": (lambda r: Fault(speed=r), 1.0, 3.0 if higher else 0.02, _share),
    }
    if system.setting.in_pipe and system.setting.distance > 0:
        found["choked-before"] = (lambda k: Fault(before=k), 0.01, 1e6, cost)
    if system.setting.leaks or system.setting.hole:
        found["sealed"] = (lambda f: Fault(kept=f), 1.0, 1e-3, _share)
    return found


IDLE = "No amount of it brings the gauge nearer to this reading."
NEEDLESS = "None of it is needed to explain this reading."


def explained(system: Built, base: Shown, reading: float, *, soil: float, zero_known: bool) -> list[Explained]:
    """Every cause that can be here, in the size whose reading comes nearest to ``reading`` [Pa].

    ``base`` is what the sound system shows, ``soil`` [1] the factor that fits it to its mark.
    """
    off, rows = reading - base.gauge, table("limits")["gauge"]
    sound = abs(off) <= max(si_of(rows["readable"]), rows["readable-share"]["value"] / 100 * reading)
    models = {
        "unchanged": _Model(base),
        "nothing-felt": _Model(base._replace(gauge=0.0)),
        "fan-stopped": _Model(Shown(0.0, 0.0, 0.0)),
    }
    if not zero_known:
        most = si_of(rows["zero-most"])
        shift = max(-most, min(most, off))
        models["gauge-zero"] = _Model(base._replace(gauge=base.gauge + shift), _suction(abs(shift)), abs(off) > most)
    for model, fault in (("lid-off", Fault(pit_area=GREAT_HOLE)), ("pipe-apart", Fault(pipe_area=system.bore_area))):
        shown = system.shows(fault._replace(soil=soil))
        if shown:
            models[model] = _Model(shown)
    for model, (of, start, end, say) in _sized(system, off > 0).items():

        def fitted(size: float, of: Callable[[float], Fault] = of) -> Fault:
            fault = of(size)
            return fault._replace(soil=fault.soil * soil)

        best = nearest(system, fitted, start, end, reading)
        if best:
            models[model] = _Model(
                best.shown, say(best.size, best.shown), isclose(best.size, end), isclose(best.size, start)
            )
    return [
        _said(cause, models[cause.model], sound)
        for cause in CAUSES
        if cause.model in models and not (cause.id == "fan-worn" and off > 0)
    ]


class _Model(NamedTuple):
    """What a model shows, its size in words, whether that is the largest reckoned, or none at all."""

    shown: Shown
    size: str = ""
    largest: bool = False
    none: bool = False


def _said(cause: Cause, model: _Model, sound: bool) -> Explained:
    if model.none or (sound and model.size):
        return Explained(cause, NEEDLESS if sound else IDLE, model.shown, True)
    more = " That is the most reckoned." if model.largest else ""
    return Explained(cause, cause.means.format(size=model.size) + more, model.shown)
