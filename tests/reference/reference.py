"""Recomputes the expected values of tests/evidence/*.toml by general-purpose libraries.

For anyone who wants to check the checks; the Rust tests do not need it. From this folder:

    python3 -m venv venv && venv/bin/pip install -r requirements.txt
    venv/bin/python reference.py            # all rows, about a minute
    venv/bin/python reference.py mouth      # only formulas that begin so

Every row names a formula; here each formula is found another way: segments and circles by
shapely, equilibrium and quadrature by numpy and scipy, units by pint, beams by PyNiteFEA,
anastruct and scikit-fem, the socket's mouth by axisymmetric finite elements (mouth_fe.py), and
its beam model once more by finer elements (mouth_beam.py). The table gives what the row expects, what was recomputed, the relative deviation (absolute where 0 is
expected) and the row's tolerance. The exit status is 1 if a deviation is above its tolerance.
"""

import sys
import tomllib
from pathlib import Path

import numpy as np
import pint

import bodies
import mouth_beam
import mouth_fe

UNITS = pint.UnitRegistry()
MM, N, NM, RPM = UNITS.mm, UNITS.newton, UNITS.newton * UNITS.meter, UNITS.rpm


def unbalance(i):
    """Grade over angular speed times mass."""
    per = i["grade"] * UNITS.mm / UNITS.s / (i["speed"] * RPM)
    return (i["mass"] * UNITS.kg * per).to("gram * mm", "Gaussian").magnitude


def grade_at(i):
    """The eccentricity stays: grade over one angular speed, times another."""
    eccentricity = i["grade"] * UNITS.mm / UNITS.s / (i["balanced_at"] * RPM)
    return (eccentricity * i["speed"] * RPM).to("mm / s").magnitude


def arms(i):
    return bodies.thread(1.0, i["pitch_diameter"], i["pitch"], i["friction"], i["flank"])


def stress_ratio(wedge):
    return lambda i: (mouth_fe.mouth(i, wedge)[0]
                      / mouth_fe.mouth(i, wedge, engaged=i["taper"])[0])


def stress_at(i):
    _, _, depths, hoops = mouth_fe.mouth(i, True)
    return float(mouth_fe.np.interp(i["depth"], depths, hoops))


def lengths(formula):
    """A formula over lengths in mm, by pint; a ratio has no unit left."""
    def value(i):
        found = formula({name: number * MM for name, number in i.items()})
        return found.to("mm" if found.check("[length]") else "").magnitude
    return value


FORMULAS = {
    "axial.gripped_length": bodies.gripped_length,
    "axial.ungripped_front": bodies.ungripped_front,
    "axial.insertion": lengths(lambda i: i["overall_length"] - i["stick_out"]),
    "axial.needed_grip": lambda i: i["fraction"] * i["bore_length"],
    "axial.grip_fraction": lengths(lambda i: i["gripped_length"] / i["bore_length"]),
    "axial.bore_setback": lengths(lambda i: i["face_setback"] + i["bore_recess"]),
    "axial.plain_shank": lambda i: bodies.segment(i["square_length"], i["shank_length"]).length,
    "axial.bore_gap": lengths(lambda i: i["bore_diameter"] - i["shank_diameter"]),
    "axial.draw_in": bodies.draw_in,
    "axial.flat_in_bore": bodies.flat_in_bore,
    "axial.draw_in_one_in_ten": bodies.draw_in_one_in_ten,
    "axial.plain_insertion": bodies.plain_insertion,
    "axial.flat_stick_out": lengths(
        lambda i: i["overall_length"] - i["flat_distance"] - i["screw_distance"]),
    "axial.collet_rear": lengths(lambda i: i["face_setback"] + i["collet_length"]),
    "axial.square_engagement": bodies.square_engagement,
    "axial.square_insertion": bodies.square_insertion,
    "axial.deepest_square": bodies.deepest_square,
    "axial.insertion_needed": bodies.insertion_needed,
    "axial.deepest_insertion": lengths(lambda i: i["depth"] - i["draw_in"] - i["room"]),
    "axial.least_stick_out": bodies.least_stick_out,
    "axial.shortest_overall_length": bodies.shortest_overall_length,
    "axial.shortest_for_flutes": bodies.shortest_for_flutes,
    "axial.point_length": bodies.point_length,
    "axial.protruding_length": lengths(lambda i: i["gauge_length"] + i["stick_out"]),
    "reach.needed": lengths(lambda i: i["reach"] + i["clearance"]),
    "reach.margin": lengths(lambda i: i["has"] - i["needs"]),
    "reach.rubbing_excess": lengths(lambda i: i["following"] - i["cutting_diameter"]),
    "reach.nut_room": bodies.nut_room,
    "reach.overhang_ratio": lengths(lambda i: i["length"] / i["diameter"]),
    "reach.functional_length": lengths(lambda i: i["protruding_length"] - i["point_length"]),
    "clamping.pitch_diameter": bodies.pitch_diameter,
    "clamping.thread_arm": arms,
    "clamping.face_arm": lambda i: bodies.face(1.0, i["friction"], i["radius"], i["half_angle"]),
    "clamping.axial_force": bodies.axial_force,
    "clamping.radial_force": lambda i: bodies.wedge(i)[1],
    "clamping.cone_force": lambda i: bodies.wedge(i)[1],
    "clamping.core_diameter": bodies.core_diameter,
    "clamping.taper_diameter": bodies.taper_diameter,
    "clamping.ring_tension": bodies.ring_tension,
    "clamping.normal_force": bodies.normal_force,
    "clamping.grip_force": bodies.grip_force,
    "clamping.slip_torque": bodies.slip_torque,
    "clamping.nut_to_slip": bodies.nut_to_slip,
    "clamping.slip_ratio": lambda i: (i["slip"] * NM / (i["torque"] * NM)).to("").magnitude,
    "clamping.pull_out_ratio": bodies.pull_out_ratio,
    "clamping.edge_pressure": bodies.edge_pressure,
    "clamping.edge_ratio": lambda i: (
        bodies.edge_pressure(i | {"overhang": i["overhang"] + i.get("bare", 0.0)}, i["engaged"])
        / bodies.edge_pressure(i, i["full"])),
    "clamping.ring_hoop": bodies.ring_hoop,
    "mouth.stress": lambda i: mouth_fe.mouth(i, True)[0],
    "mouth.stress_upper": lambda i: mouth_fe.mouth(i, False)[0],
    "mouth.stress_at": stress_at,
    "mouth.beam_stress": lambda i: mouth_beam.stress(i, True),
    "mouth.beam_stress_upper": lambda i: mouth_beam.stress(i, False),
    "mouth.opening": lambda i: mouth_fe.mouth(i, True)[1],
    "mouth.ratio": stress_ratio(True),
    "mouth.ratio_upper": stress_ratio(False),
    "bending.tip_deflection": lambda i: (
        bodies.tip_deflection_above(i) if i.get("height") else bodies.tip_deflection(i)),
    "bending.tip_stiffness": lambda i: 1.0 / bodies.tip_deflection(i),
    "bending.first_frequency": bodies.first_frequency,
    "cutting.cutting_speed": lambda i: (i["speed"] * RPM * i["diameter"] / 2 * MM).to(
        "m * radian / minute").magnitude,
    "cutting.engagement_angle": bodies.engagement_angle,
    "cutting.mean_chip_thickness": bodies.mean_chip_thickness,
    "cutting.specific_force": bodies.specific_force,
    "cutting.peak_torque": lambda i: bodies.sweep(i).max(),
    "cutting.mean_torque": bodies.mean_torque,
    "cutting.peak_over_mean": lambda i: bodies.sweep(i).max() / bodies.mean_torque(i),
    "cutting.milling_power": lambda i: (
        i["depth"] * MM * i["width"] * MM * i["feed_speed"] * MM / UNITS.minute
        * i["specific_force"] * UNITS.MPa).to("kW").magnitude,
    "cutting.drilling_torque": bodies.drilling_torque,
    "cutting.tapping_torque": lambda i: (
        i["specific_force"] * UNITS.MPa * (i["pitch"] * MM) ** 2 / 4 * i["diameter"] * MM / 2
    ).to("N * m").magnitude,
    "cutting.ball_diameter": bodies.ball_diameter,
    "cutting.side_force": bodies.side_sweep,
    "cutting.side_deflection": bodies.side_deflection,
    "cutting.tangential_force": lambda i: (
        i["torque"] * NM / (i["diameter"] / 2 * MM)).to("N").magnitude,
    "cutting.axial_pull_with_friction": bodies.axial_pull_with_friction,
    "cutting.drill_thrust": bodies.drill_thrust,
    "cutting.axial_pull": lambda i: (i["force"] * np.sin(np.radians(i["helix"]))
                                     / np.cos(np.radians(i["helix"]))),
    "cutting.power": lambda i: (i["torque"] * NM * i["speed"] * RPM / UNITS.radian).to(
        "kW").magnitude,
    "rotation.permissible_unbalance": unbalance,
    "rotation.grade_at": grade_at,
    "rotation.run_out_at_tip": lambda i: float(np.interp(
        i["stick_out"], [0.0, i["distance"], 1e3 * i["distance"]],
        [i["run_out"], i["run_out"], 1e3 * i["run_out"]])),
    "rotation.neighbour_difference": bodies.neighbour_difference,
    "rotation.thickest_chip": bodies.thickest_chip,
    "rotation.run_out_share": lengths(lambda i: i["difference"] / i["chip"]),
    "rotation.speed_of_teeth": lambda i: (
        i["frequency"] * UNITS.revolution / UNITS.s / i["flutes"]).to("revolution / minute").magnitude,
    "rotation.tooth_frequency": lambda i: (i["flutes"] * i["speed"] * UNITS.revolution
                                           / UNITS.minute).to("revolution / s").magnitude,
}


def rows():
    """All rows with the file that they stand in."""
    for path in sorted((Path(__file__).parent.parent / "evidence").glob("*.toml")):
        for row in tomllib.loads(path.read_text(encoding="utf-8"))["row"]:
            yield path.stem, row


def deviation(found, expected):
    off = abs(found - expected)
    return off if expected == 0 else off / abs(expected)


def main(beginning):
    outside = count = 0
    print(f"{'file':<16}{'formula':<32}{'expected':>16}{'recomputed':>16}{'deviation':>11}  may be")
    for file, row in rows():
        if not row["formula"].startswith(beginning):
            continue
        found = float(FORMULAS[row["formula"]](row["inputs"]))
        off = deviation(found, row["expected"])
        holds = off <= row["tolerance"]
        outside += not holds
        count += 1
        print(f"{file:<16}{row['formula']:<32}{row['expected']:>16.8g}{found:>16.8g}{off:>11.1e}"
              f"  {row['tolerance']:.1e}{'' if holds else '  OUTSIDE'}")
    print(f"{count - outside} of {count} rows recomputed within their tolerance")
    return 1 if outside else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1] if len(sys.argv) > 1 else ""))
