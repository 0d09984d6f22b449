"""Every printed equation against the function that computes it."""

import importlib
import pkgutil
import random
from collections.abc import Callable
from inspect import signature
from math import exp, isclose, log10, pi, sqrt

import pytest

from calculators import physics
from calculators.units import unit

WORDS = {"pi": pi, "sqrt": sqrt, "log10": log10, "exp": exp, "min": min, "max": max, "abs": abs}
RELATIVE = 1e-9
TRIES = 25

# SI ranges to draw arguments from: by function and symbol, by symbol, by the SI unit of the printed unit.
OF_FUNCTION: dict[str, dict[str, tuple[float, float]]] = {
    "air.humidity_ratio": {"p": (7e4, 1.02e5)},
    "air.density": {"p": (7e4, 1.02e5)},
    "air.dry_density": {"p": (7e4, 1.02e5)},
    "air.stack_gradient": {"p": (7e4, 1.02e5)},
    "air.standard_temperature": {"z": (-400, 4500)},
    "air.pressure_at": {"z": (-400, 4500)},
    "air.saturation_pressure_ice": {"T": (215, 273)},
    "clearance.vertical_gap": {"v": (-3, 3)},
    "clearance.cone_clearance": {"z": (-3, 3)},
    "clearance.spread_radius": {"z": (-3, 3)},
    "pipe.transition_factor": {"Re": (2300, 4000), "f_t": (0.039, 0.06)},
    "pipe.laminar_factor": {"Re": (1, 2300)},
    "tile.footing_projection": {"b": (0.4, 0.9), "t": (0.1, 0.39)},
    "water.cycle_time": {"Q_i": (1e-4, 9e-4), "Q_d": (1e-3, 3e-3)},
    "water.hazen_williams_gradient": {"C": (90, 150)},
    "slab_closed.power_loss": {"m": (1.2, 1.9)},
    "slab_closed.footing_conductance": {"t": (0.05, 0.95)},
}
OF_SYMBOL = {
    "T": (273.2, 320), "T_i": (285, 300), "T_o": (240, 284), "Re": (4e3, 1e6), "f": (0.01, 0.1), "e": (300, 3000),
    "k": (0, 1e-3), "K": (0.1, 9), "w": (1e-4, 2e-2), "mu": (1e-5, 2e-5), "dp": (0.1, 500),
}  # fmt: skip
OF_UNIT = {
    "1": (0.1, 0.9), "m": (0.05, 3), "m2": (1e-4, 1), "m3": (1e-3, 1), "m3/s": (1e-4, 0.1), "m/s": (0.1, 20),
    "Pa": (1, 400), "kg/m3": (0.8, 1.3), "Pa*s": (1e-5, 2e-5), "K": (250, 310), "s": (1, 1e4), "1/s": (1e-6, 1e-2),
    "m3/s/Pa": (1e-5, 4e-4), "m/m": (1e-3, 0.2), "m3/s/Pa/m": (1e-7, 1e-4), "m/s/Pa": (1e-8, 3e-6),
}  # fmt: skip


def printed() -> dict[str, Callable[..., float]]:
    """Every function of the physics modules that carries an equation, by module and name."""
    found: dict[str, Callable[..., float]] = {}
    for part in pkgutil.iter_modules(physics.__path__):
        module = importlib.import_module(f"calculators.physics.{part.name}")
        for name, function in vars(module).items():
            if hasattr(function, "formula") and function.__module__ == module.__name__:
                found[f"{part.name}.{name}"] = function
    return found


PRINTED = printed()


def in_printed_unit(value: float, name: str) -> float:
    """An SI value in the unit of the equation."""
    into = unit(name)
    return (value - into.offset) / into.factor


def draw(name: str, symbol: str, printed_unit: str, dice: random.Random) -> float:
    """An SI argument from the narrowest range that is known for it."""
    plain = OF_UNIT.get(printed_unit)
    if plain is None:
        wanted = unit(printed_unit).dims
        plain = next((r for u, r in OF_UNIT.items() if unit(u).dims == wanted), (0.1, 10.0))
    of_symbol = OF_SYMBOL.get(symbol) if symbol_fits(symbol, printed_unit) else None
    low, high = OF_FUNCTION.get(name, {}).get(symbol) or of_symbol or plain
    return dice.uniform(low, high)


def symbol_fits(symbol: str, printed_unit: str) -> bool:
    """Whether a symbol's usual range goes with this unit: k is a roughness here and a permeability there."""
    usual = {
        "T": "K",
        "T_i": "K",
        "T_o": "K",
        "Re": "1",
        "f": "1",
        "e": "Pa",
        "k": "m",
        "K": "1",
        "w": "m",
        "mu": "Pa*s",
        "dp": "Pa",
    }
    return symbol in usual and unit(usual[symbol]).dims == unit(printed_unit).dims


@pytest.mark.parametrize("name", PRINTED)
def test_the_printed_right_side_gives_the_functions_value(name: str) -> None:
    """The text that a reader sees, worked out in its own units, is what the function returns."""
    function = PRINTED[name]
    equation = function.formula  # type: ignore[attr-defined]
    dice = random.Random(name)
    for _ in range(TRIES):
        arguments = {s: draw(name, s, equation.units[s], dice) for s in signature(function).parameters}
        result = in_printed_unit(function(**arguments), equation.units[equation.symbol])
        values = {s: in_printed_unit(v, equation.units[s]) for s, v in arguments.items()} | {equation.symbol: result}
        right = eval(equation.right, {"__builtins__": {}}, WORDS | values)
        assert isclose(right, result, rel_tol=RELATIVE, abs_tol=1e-12), (
            f"{equation.text} with {values}: {right} against {result}"
        )


@pytest.mark.parametrize("name", PRINTED)
def test_every_symbol_has_a_unit_and_every_argument_is_printed(name: str) -> None:
    """Nothing enters the function that the reader does not see, and no symbol stands without its unit."""
    function = PRINTED[name]
    equation = function.formula  # type: ignore[attr-defined]
    seen = set(compile(equation.right, name, "eval").co_names) - set(WORDS) - {equation.symbol}
    assert seen == set(signature(function).parameters)
    assert set(equation.units) == seen | {equation.symbol}
    for text in equation.units.values():
        unit(text)


@pytest.mark.parametrize("name", PRINTED)
def test_arguments_are_keyword_only(name: str) -> None:
    """An argument cannot be given in the wrong place."""
    assert all(p.kind is p.KEYWORD_ONLY for p in signature(PRINTED[name]).parameters.values())


def test_the_walk_finds_the_equations() -> None:
    """The tests above are not empty: the best known equations are among those found."""
    assert {"pipe.straight_loss", "water.hazen_williams_gradient", "openings.gap_speed", "air.density"} <= set(PRINTED)
