"""Problems on the pump's cycle and its line: times, speed, fittings counted as length."""

from functools import partial
from math import pi

from ..physics import pipe, water
from ..tables import si_of, table
from ..units import from_si, short, si
from .draw import Draw, Shown
from .problem import Problem, Slip, distinct, named, near, options, solved, template
from .pump import PUMPS, READ

line = partial(template, part="water-and-pump", calculator="pump-sizing", kind="number")
LINE = {"static_lift": "9 ft", "pipe_size": "1-1/2", "pipe_length": "30 ft"}


def _pump(draw: Draw) -> dict[str, list[dict[str, str]]]:
    return {"points": [{"flow": f"{q} gpm", "head": f"{h} ft"} for q, h in draw.pick(PUMPS)]}


@line(level=2, minutes=4, source="mil-hdbk-1005-9a", title="The shortest cycle of the pump")
def pump_shortest_cycle(draw: Draw) -> Problem:
    """The shortest possible cycle from pit, switch range and pump flow."""
    pit = draw.number((16, 30, 1, "in"), (400, 760, 10, "mm"))
    span = draw.number((4, 12, 0.5, "in"), (100, 300, 10, "mm"))
    inflow = draw.number((4, 12, 1, "gpm"), (0.25, 0.75, 0.05, "L/s"))
    result = solved("pump-sizing", pit_diameter=pit, inflow=inflow, switch_range=span, pump=_pump(draw), **LINE)
    unit = draw.text("gpm", "L/s")
    delivered = Shown(round(from_si(result["delivered_flow"], unit), draw.text(0, 1)), unit)
    volume = result["storage_volume"]
    key = near(water.worst_cycle_time(V=volume, Q_d=delivered.si), 0.03, READ, unit="s")
    slips = distinct(
        key,
        [
            Slip(
                "emptying-only",
                volume / delivered.si,
                "This is the time to empty the pit with no water coming in. The shortest cycle is four times as long.",
            ),
            Slip(
                "twice",
                2 * volume / delivered.si,
                "At half the pump's flow the pit takes twice as long to fill, and twice as long to empty: four times.",
            ),
            Slip("square-pit", key.value * 4 / pi, "The pit was taken as square. A round pit holds π/4 of that."),
            Slip(
                "inflow",
                4 * volume / inflow.si,
                "The water coming in was used. The shortest cycle goes by the pump's flow.",
            ),
            Slip("radius", key.value * 4, "The diameter was put where the radius belongs."),
        ],
    )
    return Problem(
        text=[
            f"A pit {pit} across takes in {inflow}. The switch starts the pump {span} above the level at which it stops "
            f"it; the pump delivers {delivered}."
        ],
        ask="How long is the shortest cycle that any inflow can bring about? Answer in s.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Water between the switch levels",),
        words=[
            "The cycle is shortest when half the pump's flow comes in: four times the volume, divided by the pump's flow."
        ],
    )


@line(level=3, minutes=5, source="mil-hdbk-1005-9a", title="One cycle at this inflow")
def pump_cycle(draw: Draw) -> Problem:
    """Cycle time from volume, inflow and pump flow."""
    volume = draw.number((4, 15, 0.5, "gal"), (15, 60, 1, "L"))
    inflow = draw.number((3, 9, 1, "gpm"), (0.2, 0.5, 0.05, "L/s"))
    flow = draw.number((18, 32, 1, "gpm"), (1.2, 2, 0.1, "L/s"))
    key = near(water.cycle_time(V=volume.si, Q_i=inflow.si, Q_d=flow.si), 0.03, READ, unit="s")
    fill, empty = volume.si / inflow.si, volume.si / (flow.si - inflow.si)
    slips = distinct(
        key,
        [
            Slip("filling-only", fill, "This is the filling alone. The cycle ends when the pump has stopped again."),
            Slip("pumping-only", empty, "This is the pumping alone. Before it the pit has to fill."),
            Slip(
                "inflow-stops",
                fill + volume.si / flow.si,
                "Water goes on coming in while the pump works: it lowers the pit by its flow less the inflow.",
            ),
            Slip(
                "sum-of-flows",
                volume.si / (inflow.si + flow.si),
                "The flows were added. They work against each other, and filling and emptying follow one another.",
            ),
        ],
    )
    words = f"Filling {short(fill, 3)} s, emptying {short(empty, 3)} s: together {key.printed()}."
    return Problem(
        text=[
            f"Between its switch levels a pit holds {volume}. {inflow} comes in all the time; the pump delivers {flow}."
        ],
        ask="How long is one cycle, from start to start? Answer in s.",
        answer=key,
        slips=slips,
        words=[words],
    )


@line(level=1, minutes=3, source="continuity", title="Speed of the water in the line")
def line_velocity(draw: Draw) -> Problem:
    """Speed in the line from flow and bore."""
    bore = draw.number((1.2, 2.1, 0.05, "in"), (30, 54, 1, "mm"))
    flow = draw.number((10, 34, 1, "gpm"), (0.6, 2.2, 0.05, "L/s"))
    key = near(pipe.speed(Q=flow.si, D=bore.si), 0.03, READ, unit=draw.text("ft/s", "m/s"))
    other = si("2 in") if bore.si < si("1.75 in") else si("1.5 in")
    slips = distinct(
        key,
        [
            Slip(
                "diameter-for-radius",
                key.value / 4,
                "The diameter was put where the radius belongs: four times the area.",
            ),
            Slip("square-pipe", key.value * pi / 4, "The pipe was taken as square. A round pipe has π/4 of that area."),
            Slip(
                "minutes",
                key.value * draw.text(60, 1 / 60),
                draw.text(
                    "The flow is per minute; the speed is asked per second.",
                    "The flow is per second already; no minutes come in.",
                ),
            ),
            Slip(
                "other-size",
                pipe.speed(Q=flow.si, D=other),
                "A nominal size was used. The water goes through the bore that is given.",
            ),
        ],
    )
    area = from_si(pipe.circle_area(D=bore.si), draw.text("in2", "cm2"))
    return Problem(
        text=[f"A pump delivers {flow} through a pipe with a bore of {bore}."],
        ask=f"How fast does the water move? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        words=[f"Flow divided by the area of the bore, {short(area, 3)} {draw.text('in²', 'cm²')}: {key.printed()}."],
    )


@line(level=1, minutes=3, source="irc-2018-app-a", title="Fittings counted as straight pipe")
def line_equivalent(draw: Draw) -> Problem:
    """Equivalent length of a pump's line."""
    size = draw.pick(("1-1/4", "1-1/2", "2"))
    length = draw.number((15, 60, 1, "ft"), (5, 18, 0.5, "m"))
    elbows = draw.whole(2, 6)
    kinds = [{"kind": "elbow-90", "count": elbows}, {"kind": "check-valve", "count": 1}]
    result = solved("pump-sizing", pit_diameter="18 in", inflow="10 gpm", static_lift="9 ft", pipe_size=size,
                    pipe_length=length, fittings=kinds)  # fmt: skip
    unit = draw.text("ft", "m")
    rows = table("fittings")["rows"]
    elbow, valve = (si_of(rows[kind][size]["water"]["equivalent-length"][0]) for kind in ("elbow-90", "check-valve"))
    worth = {name: Shown(round(from_si(value, unit), 2), unit) for name, value in (("elbow", elbow), ("valve", valve))}
    key = near(result["equivalent_length"], 0.01, READ, unit=unit)
    slips = distinct(
        key,
        [
            Slip("pipe-only", length.si, "The fittings were left out. Each counts as a length of straight pipe."),
            Slip("one-elbow", length.si + elbow + valve, f"One elbow was counted. There are {elbows}."),
            Slip(
                "no-valve",
                length.si + elbows * elbow,
                "The check valve was left out. It costs as much as several elbows.",
            ),
            Slip("fittings-only", elbows * elbow + valve, "These are the fittings alone. The pipe counts too."),
        ],
    )
    return Problem(
        text=[
            f"A pump's line has {length} of {size} in. pipe, {elbows} sharp elbows and a check valve. One elbow counts as "
            f"{worth['elbow']}, the valve as {worth['valve']}."
        ],
        ask=f"How long is the line with its fittings counted? Answer in {named(key.unit)}.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Equivalent length",),
    )


@line(level=3, minutes=5, source="orifice-textbook", title="How long the pipe drains back")
def drain_back(draw: Draw) -> Problem:
    """Time in which the pipe below the check valve drains through the relief hole."""
    bore = draw.text(f"{draw.pick((1.38, 1.61, 2.07))} in", f"{draw.pick((35, 41, 53))} mm")
    hole = draw.text(f"{draw.pick(('1/8', '3/16', '1/4'))} in", f"{draw.whole(3, 6)} mm")
    low = draw.number((6, 12, 1, "in"), (150, 300, 10, "mm"))
    high = draw.number((24, 48, 1, "in"), (600, 1200, 10, "mm"))
    result = solved(
        "pump-sizing", pit_diameter="18 in", inflow="5 gpm", static_lift="9 ft", inside_diameter=bore, pipe_length="30 ft",
        relief_hole="drilled", relief_hole_diameter=hole, relief_hole_height=low, check_valve_height=high,
        lid_height="60 in", pump_off_height="4 in",
    )  # fmt: skip
    key = near(result["drain_back_time"], 0.04, READ, unit="s")
    column = high.si - low.si
    slips = distinct(
        key,
        [
            Slip(
                "no-coefficient", key.value * 0.6, "The coefficient was left out: the jet narrows to 0.6 of the hole."
            ),
            Slip(
                "no-square", key.value * si(hole) / si(bore), "The ratio of the diameters was not squared: areas count."
            ),
            Slip("no-root", key.value * (2 * column / water.GRAVITY) ** 0.5, "The square root was forgotten."),
            Slip(
                "from-the-floor",
                key.value * (high.si / column) ** 0.5,
                "The water was counted from the pit floor. Only what stands above the hole runs out of it.",
            ),
        ],
    )
    return Problem(
        text=[
            f"The pump has stopped. Its pipe has a bore of {bore}; a relief hole of {hole} sits {low} above the pit floor, "
            f"the check valve {high} above it. The hole's coefficient is 0.60."
        ],
        ask="How long does the water between valve and hole take to run back? Answer in s.",
        answer=key,
        slips=slips,
        solution=result,
        steps=("Time in which the pipe drains back",),
    )


@line(kind="what-is-wrong", level=2, minutes=3, source="ndsu-news-2005", title="The pump starts again and again")
def short_cycling(draw: Draw) -> Problem:
    """Why a pump cycles in dry weather."""
    inflow = draw.number((0.5, 2, 0.5, "gpm"), (0.03, 0.12, 0.01, "L/s"))
    result = solved("pump-sizing", pit_diameter="18 in", inflow=inflow, switch_range="8 in", pump=_pump(draw), **LINE)
    minutes = short(result["cycle_time"] / 60, 2)
    now = draw.pick((60, 75, 90))
    cases = (
        ("After each run one hears water fall back into the pit, as much as the riser holds.",
         "The check valve is missing or does not close.",
         "The riser empties into the pit after each run and starts the pump again."),
        ("The riser is quiet after each run. Outside, the pipe ends in a dip beside the wall, and the dip is full.",
         "The outlet: the same water comes round again.",
         "What is pumped out soaks down along the wall and comes back. The outlet is led farther away, downhill."),
    )  # fmt: skip
    seen, right, because = draw.pick(cases)
    other = next(case for case in cases if case[1] != right)
    return Problem(
        text=[f"It has not rained for weeks. For {inflow} coming in, this pump should start about every {minutes} minutes; "
              f"it starts every {now} seconds.", seen],
        ask="What is wrong here?",
        answer=options(
            draw,
            f"""
            + {right} | {because}
            - {other[1]} | What was heard and seen speaks against it.
            - The pump is too small. | A small pump runs long; it does not start often.
            - The fan sucks water into the pit. | A fan raises the water by its suction in inches of water, once.
            """,
        ),
    )  # fmt: skip
