"""Realistic inputs for every calculator, none of them a check value; tests of all calculators go through them."""

from typing import Any

FAN = {"name": "fan A, entered from its data sheet", "shutoff": "400 Pa", "free_flow": "160 cfm"}
FAN_POINTS = {
    "points": [
        {"flow": "0 cfm", "pressure": "1.6 in WC"},
        {"flow": "60 cfm", "pressure": "1.3 in WC"},
        {"flow": "120 cfm", "pressure": "0.6 in WC"},
        {"flow": "160 cfm", "pressure": "0 in WC"},
    ]
}
PUMP = {
    "points": [
        {"flow": "0 gpm", "head": "25 ft"},
        {"flow": "20 gpm", "head": "20 ft"},
        {"flow": "40 gpm", "head": "10 ft"},
    ]
}

CASES: dict[str, list[dict[str, Any]]] = {
    "vent-route": [
        {
            "storeys": 2, "lowest_floor": "basement", "roof_covering": "asphalt-shingle", "roof_pitch": "6/12", "garage_attached": True,
            "living_space_over_garage": False, "attic": "vented", "attic_access": "hatch", "chase": "free", "closets": "none",
            "separations": "none", "ducts_under_slab": False, "snow": "lies", "cold_winters": True, "wishes": ["nothing-outside"],
            "walls": [
                {
                    "name": "east wall", "nearest_opening": "4 ft", "opening_below": "3 ft", "neighbour": "9 ft", "deck": "12 ft",
                    "gas_meter": False, "service_drop": False, "street_side": False, "shared": False,
                }
            ],
            "roof_outlet": {"nearest_opening": "15 ft", "neighbour": "30 ft", "low_on_slope": False, "bad_spot": False},
            "found_on_line": [{"route": "chase", "what": "joists-across"}], "joist_depth": "11-1/4 in", "pipe_size": "3", "rules": "us-pa",
        },
        {"storeys": 1, "lowest_floor": "slab-on-grade"},
        {
            "storeys": 3, "fan_location": "basement", "separations": ["party-wall"], "chase": "free", "chase_in_party_wall": True,
            "walls": [{"name": "front", "shared": True}, {"name": "back", "outlet_height": "7 m"}], "rules": ["sgm-sf-2017", "rms-mf-2018"],
        },
    ],
    "tile-offset": [
        {
            "wall_thickness": "8 in", "footing_width": "16 in", "drain_side": "inside", "tile_position": "beside",
            "known_below": ["water", "cable"],
        },
        {
            "wall_thickness": "250 mm", "footing_projection": "5 in", "tile_gap_min": "1 in", "finish_depth": "4-1/2 in",
            "core_diameter": "6 in",
        },
        {"wall_thickness": "8 in", "footing_width": "20 in", "drain_side": "outside", "known_below": "none-found"},
    ],
    "needed-suction": [
        {
            "test_day": {"outdoor_temperature": "50 degF", "exhaust": "20 cfm"},
            "design_day": {"outdoor_temperature": "-4 degF", "exhaust": "200 cfm", "wind": "6 mph"},
            "house": {"leakage_at_50Pa": "1500 cfm"}, "measured_suction": "0.04 in WC",
        },
        {
            "test_day": {"outdoor_temperature": "32 degC"},
            "design_day": {"outdoor_temperature": "-10 degC", "indoor_temperature": "20 degC"},
            "house": {"leakage_at_50Pa": "500 L/s", "exponent": "0.6", "leak_top": "5 m", "leak_count": 9},
            "soil_follows": "0.6", "minimum_suction": "0.75 Pa", "minimum_rule": "a rule of the place", "elevation": "1200 m",
        },
    ],
    "suction-reach": [
        {
            "slab": [{"x": "0 ft", "y": "0 ft", "width": "30 ft", "depth": "24 ft"}, {"x": "30 ft", "y": "0 ft", "width": "14 ft", "depth": "12 ft"}],
            "pits": [{"x": "1 ft", "y": "20 ft", "radius": "9 in", "suction": "0.6 in WC", "on_tile": True}], "tile": "perimeter",
            "footings": [{"x1": "30 ft", "y1": "0 ft", "x2": "30 ft", "y2": "12 ft", "tightness": 0.8}],
            "layer_conductance": "9e-6 m3/s/Pa", "slab_leakance": "3e-7 m/s/Pa", "soil_leakance": "5e-8 m/s/Pa",
            "joint_conductance": "3e-7 m3/s/Pa/m", "probes": [{"x": "22 ft", "y": "12 ft"}], "layer_state": "dry",
        },
        {
            "slab": [{"width": "10 m", "depth": "8 m"}], "pits": [{"x": "3 m", "y": "3 m", "dug_volume": "7 L", "flow": "12 L/s"}],
            "layer": "crushed-base", "slab_condition": "ordinary", "target_suction": "2 Pa", "elevation": "900 m",
        },
        {
            "slab": [{"width": "34 ft", "depth": "26 ft"}],
            "pits": [{"x": "8 ft", "y": "8 ft", "radius": "6 in", "suction": "1 in WC"}], "test_flow": "22 cfm",
            "test_holes": [
                {"x": "16 ft", "y": "12 ft", "suction": "0.11 in WC", "baseline": "-0.01 in WC"},
                {"x": "30 ft", "y": "4 ft", "suction": "0.024 in WC", "baseline": "-0.012 in WC"},
                {"x": "30 ft", "y": "23 ft", "suction": "0.006 in WC", "baseline": "-0.014 in WC"},
                {"x": "4 ft", "y": "23 ft", "suction": "0.09 in WC", "baseline": "-0.01 in WC"},
                {"x": "33 ft", "y": "13 ft", "suction": "-0.015 in WC", "baseline": "-0.012 in WC"},
            ],
            "soil_leakance": "1e-8 m/s/Pa", "layer_state": "damp",
        },
    ],
    "tile-loop": [
        {"loop_length": "130 ft", "flow": "50 cfm", "pit_suction": "0.5 in WC", "target_suction": "0.3 in WC"},
        {
            "tile_diameter": "100 mm", "loop_length": "40 m", "flow": "15 L/s", "pit_suction": "200 Pa", "water_depth": "0.4",
            "friction_factor": "0.05", "blocked_at": "26 m", "elevation": "800 m",
        },
        {"loop_length": "130 ft", "flow": "50 cfm", "pit_suction": "0.5 in WC", "water_depth": "1"},
    ],
    "sump-sealing": [
        {
            "lid_diameter": "24 in", "lid_gap": "1/16 in", "fan": FAN, "pipe_size": "4", "pipe_length": "33 ft",
            "fittings": [{"kind": "elbow-90", "count": 3}], "soil_conductance": "42 cfm/in WC",
            "penetrations": [{"diameter": "1.9 in", "hole_diameter": "2-1/4 in"}], "pit_receives": "ground-water",
            "pump_type": "submersible", "drains": [{"kind": "condensate", "trap_seal": "6 in"}],
        },
        {
            "lid_diameter": "450 mm", "fan": FAN_POINTS, "pipe_size": "3", "pipe_length": "12 m", "soil": "ordinary",
            "slots": [{"length": "20 ft", "gap": "1/2 in", "depth": "4 in"}],
        },
    ],
    "pump-sizing": [
        {
            "pit_diameter": "18 in", "rise_height": "4.08 in", "rise_time": "15 s", "measured_when": "wet",
            "static_lift": "9 ft", "pipe_size": "1-1/2", "pipe_length": "30 ft",
            "fittings": [{"kind": "elbow-90", "count": 3}, {"kind": "check-valve"}, {"kind": "exit"}], "pump": PUMP,
            "relief_hole": "drilled", "relief_hole_diameter": "3/16 in", "relief_hole_height": "22 in",
            "pump_off_height": "8 in", "pump_on_height": "16 in", "tile_invert_height": "18 in",
            "check_valve_height": "36 in", "lid_height": "30 in", "resting_water_height": "9 in",
            "pit_suction": "1.2 in WC", "freezing": True,
        },
        {
            "pit_diameter": "24 in", "soil_texture": "clay", "floor_area": "140 m2", "static_lift": "3 m",
            "pipe_size": "2", "pipe_length": "15 m", "friction_method": "darcy-weisbach",
            "fittings": [{"kind": "elbow-90", "count": 2}, {"kind": "check-valve"}], "pump": PUMP,
            "switch_range": "200 mm",
        },
        {"pit_diameter": "18 in", "inflow": "10 gpm", "static_lift": "9 ft", "inside_diameter": "40 mm", "pipe_length": "30 ft"},
    ],
    "pipe-loss": [
        {
            "flow": "60 cfm", "pipe_size": "4", "pipe_length": "33 ft",
            "fittings": [{"kind": "elbow-90", "count": 3}, {"kind": "elbow-45", "count": 2}, {"kind": "entrance"}],
        },
        {
            "flow": "10 cfm", "pipe_size": "4", "pipe_length": "20 m", "fitting_method": "loss-coefficient",
            "fittings": [{"kind": "elbow-90", "count": 2}], "elevation": "1600 m",
        },
        {"flow": "2 cfm", "inside_diameter": "75 mm", "pipe_length": "10 ft", "roughness": "0.1 mm"},
    ],
    "fan-point": [
        {
            "fan": FAN, "pipe_size": "4", "pipe_length": "33 ft", "fittings": [{"kind": "elbow-90", "count": 3}],
            "soil_conductance": "42 cfm/in WC", "open_area": "4 in2",
        },
        {
            "fan": FAN_POINTS, "pipe_size": "3", "pipe_length": "10 m", "soil": "ordinary", "riser_height": "6 m",
            "outdoor_temperature": "0 degC", "indoor_temperature": "20 degC",
        },
    ],
    "gauge-reading": [
        {
            "as_built": {
                "fan": FAN, "pipe_size": "4", "pipe_length": "33 ft", "fittings": [{"kind": "elbow-90", "count": 3}],
                "soil_conductance": "42 cfm/in WC", "gauge_distance": "5 ft",
            },
            "reading_then": "1.38 in WC", "reading_now": "0.7 in WC", "zero_offset": "0 in WC", "seen": ["hiss", "fan-runs"],
        },
        {
            "as_built": {
                "fan": FAN_POINTS, "pipe_size": "3", "pipe_length": "10 m", "soil": "ordinary", "open_area": "10 cm2",
                "pipe_leak": {"area": "2 cm2", "distance_from_pit": "3 m"}, "riser_height": "6 m",
                "outdoor_temperature": "-10 degC", "gauge_position": "pit",
            },
            "reading_now": "300 Pa", "flow_now": "15 L/s",
        },
    ],
    "discharge-clearances": [
        {
            "rules": ["us-pa", "irc-f"],
            "discharge": {
                "height_above_grade": "22 ft", "roof": "side", "height_above_roof": "12 in", "direction": "up",
                "fan_location": "outdoors",
            },
            "openings": [
                {"name": "bedroom window", "kind": "window", "horizontal": "6 ft", "vertical": "1.5 ft", "height": "4 ft"}
            ],
        },
        {"rules": "sgm-sf-2017", "discharge": {"height_above_grade": "8 ft", "direction": "horizontal", "fan_location": "basement"}},
    ],
    "cold-stack": [
        {"flow": "30 cfm", "pipe_size": "4", "outdoor_length": "20 ft", "outdoor_temperature": "-4 degF", "wind": "7 mph"},
        {
            "flow": "15 cfm", "pipe_size": "3", "outdoor_length": "6 m", "outdoor_temperature": "-30 degC",
            "soil_air_temperature": "10 degC", "insulation_thickness": "25 mm", "film_coefficient": "25 W/m2/K",
            "relative_humidity": "80 %", "elevation": "420 ft",
        },
        {"flow": "40 cfm", "pipe_size": "4", "outdoor_length": "3 m", "outdoor_temperature": "10 degC", "soil_air_temperature": "14 degC"},
    ],
    "pipe-takeoff": [
        {
            "runs": [
                {"length": "18 ft", "orientation": "horizontal", "zone": "basement"},
                {"length": "9 ft", "orientation": "vertical", "zone": "garage"},
                {"length": "22 ft", "orientation": "vertical", "zone": "outdoors"},
            ],
            "pipe_size": "4", "rules": ["sgm-sf-2017", "us-pa"], "fittings": [{"kind": "elbow-90", "count": 3}, {"kind": "tee-branch"}],
            "temperature_swing": "120 degF", "prices": [{"item": "stick", "price": "24.5 money"}], "available_drop": "3 in",
        },
        {
            "runs": [{"length": "6 m", "orientation": "horizontal"}, {"length": "10 m", "orientation": "vertical", "zone": "attic"}],
            "pipe_size": "3", "rules": "cc-1000-2018", "horizontal_spacing": "6 ft", "stick_length": "6 m",
        },
        {"runs": [{"length": "12 ft", "orientation": "vertical"}], "pipe_size": "2"},
    ],
    "running-cost": [
        {
            "fan_power": "62 W", "flow": "60 cfm", "house_air_share": "40 %", "heating_degree_days": "5600 degF*day",
            "cooling_degree_days": "900 degF*day", "prices": {"electricity": "0.18 money/kWh", "fuel": "1.40 money/therm"},
        },
        {"fan_power": "23 W", "house_air_flow": "7 L/s", "heating_degree_days": "3000 degC*day", "furnace_efficiency": "0.95", "elevation": "1600 m"},
    ],
    "spillage-check": [
        {
            "house": {"leakage_at_50Pa": "1500 cfm"}, "outdoor_temperature": "-4 degF", "floor_area": "1500 ft2",
            "exhausts": [{"name": "dryer", "flow": "150 cfm"}, {"name": "bath fan", "flow": "50 cfm"}],
            "system_house_air": "14 cfm", "door": "closed", "air_handler": "on", "return_leak_flow": "30 cfm",
            "appliances": [
                {"name": "gas water heater", "kind": "natural-draft-water-heater", "height": "5 ft"},
                {"kind": "natural-draft-furnace"},
            ],
        },
        {
            "house": {"leakage_at_50Pa": "900 L/s", "exponent": "0.6", "leak_count": 1}, "outdoor_temperature": "30 degC",
            "indoor_temperature": "24 degC", "appliances": [{"kind": "solid-fuel"}, {"kind": "sealed"}],
            "whole_house_fan": True, "tested_before": "did-not-spill", "wind": "3 m/s", "elevation": "1600 m",
        },
    ],
    "radon-test": [
        {
            "protocol": "post-mitigation", "earlier_reading": "9.4 pCi/L",
            "readings": [
                {"value": "1.5 pCi/L", "location": "basement", "device": "A"},
                {"value": "1.2 pCi/L", "location": "basement", "device": "B", "role": "duplicate"},
                {"value": "0.9 pCi/L", "location": "den over the garage"},
                {"value": "0.2 pCi/L", "role": "blank"}, {"value": "21 pCi/L", "role": "spike", "known": "20 pCi/L"},
            ],
            "system_started_at": "2026-11-20T14:30", "test_started_at": "2026-11-22T09:00", "test_hours": "50 h",
            "closed_house_hours": "14 h", "fan_confirmed": True, "placement": "right-place", "detection_limit": "0.4 pCi/L",
        },
        {"protocol": "follow-up", "readings": [{"value": "210 Bq/m3"}], "earlier_reading": "260 Bq/m3", "test_hours": "100 day"},
        {"readings": [{"value": "9.4 pCi/L", "location": "basement"}], "test_hours": "30 h", "test_started_at": "2026-10-01"},
    ],
    "settling-time": [
        {"air_changes": "0.25 1/h", "start_ratio": "20"},
        {"air_changes": "0.1 1/h", "start_ratio": 8, "start_delay": "12 h", "test_length": "4 day"},
    ],
    "hole-flow": [
        {"fluid": "water", "diameter": "3/16 in", "head": "12 ft"},
        {"fluid": "air", "width": "1/16 in", "length": "6.3 ft", "depth": "3/8 in", "pressure": "0.5 in WC"},
        {"fluid": "air", "area": "50 cm2", "pressure": "125 Pa", "elevation": "420 ft"},
    ],
    "radon-units": [
        {"value": "5.2 pCi/L", "smoking": "never"},
        {"value": "30 Bq/m3", "hours": "2000 h", "dose_coefficient": "unscear", "smoking": "smoker", "equilibrium_factor": 0.5},
        {"value": "0.02 WL", "dose_coefficient": "12 nSv m3/Bq/h"},
    ],
    "purge-time": [
        {"air_changes": "3 1/h", "removal": "90 %"},
        {"air_changes": "0.5 1/h", "removal": "63 %", "mixing_factor": 4},
    ],
    "entry-balance": [
        {"volume": "12,000 ft3", "air_changes": "0.3 1/h", "concentration": "9.4 pCi/L"},
        {"volume": "300 m3", "air_changes": "0.9 1/h", "entry_rate": "11 Bq/s", "outdoor": "0 Bq/m3"},
    ],
}  # fmt: skip
"""Inputs by calculator: each list holds one to three, with and without what is optional."""


def all_cases() -> list[tuple[str, dict[str, Any]]]:
    """Every case with its calculator, and a name for it."""
    return [(name, inputs) for name, listed in CASES.items() for inputs in listed]


def ids() -> list[str]:
    """Names of the cases, in the order of ``all_cases``."""
    return [f"{name}-{i}" for name, listed in CASES.items() for i in range(1, len(listed) + 1)]
