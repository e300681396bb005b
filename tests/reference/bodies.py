"""Geometry by shapely and scipy, forces by equilibrium, beams by beam libraries."""

import numpy as np
from scipy.interpolate import CubicSpline
from scipy.integrate import dblquad, quad, solve_bvp
from scipy.linalg import eigh, expm
from scipy.optimize import brentq, linprog
from shapely import LineString, Point, box
import sympy


# Along the axis: shank and land are segments of a line.


def segment(start, end):
    return LineString([(start, 0.0), (max(start, end), 0.0)])


def land(i):
    front = i["stick_out"] + i.get("bore_setback", 0.0)
    return segment(front, front + i["bore_length"])


def gripped_length(i):
    tail = i["overall_length"] - i.get("square_length", 0.0)
    shank = segment(i["overall_length"] - i["shank_length"], tail)
    return shank.intersection(land(i)).length


def ungripped_front(i):
    bare = segment(-1e4, i["overall_length"] - i["shank_length"])
    return bare.intersection(land(i)).length


def flat_in_bore(i):
    flat = segment(i["overall_length"] - i["to_tail"], i["overall_length"] - i["from_tail"])
    return flat.intersection(land(i)).length


def plain_insertion(i):
    """The plain shank behind the front face; of what lies in front of the bore any part counts."""
    end = i["overall_length"] - i.get("square_length", 0.0)
    begin = i["overall_length"] - i["shank_length"] - max(i.get("bore_setback", 0.0), 0.0)
    return segment(begin, end).intersection(segment(i["stick_out"], i["stick_out"] + 1e4)).length


def square_engagement(i):
    """The overlap of tap's square and collet's square; their distance, below 0, if they lie apart."""
    tap = segment(i["insertion"] - i["square_length"], i["insertion"])
    collet = segment(i["bore_setback"] + i["bore_length"], i["rear"])
    return tap.intersection(collet).length - tap.distance(collet)


def square_insertion(i):
    """The insertion at which the overlap, rising, is the share that is asked for."""
    end = i["bore_setback"] + i["bore_length"]
    spare = lambda insertion: square_engagement(
        {**i, "insertion": insertion, "rear": end + 2.0 * i["square_length"]}
    ) - i["share"] * i["square_length"]
    return brentq(spare, end - 1.0, end + i["square_length"], xtol=1e-12)


def insertion_needed(i):
    """The least insertion at which the grip is reached, and no less than what others ask for."""
    square = i.get("square_length", 0.0)
    ask = [i[name] for name in ("maker", "square_insertion") if name in i]
    lacks = lambda insertion: i["needed_grip"] - gripped_length({
        "overall_length": insertion, "shank_length": insertion, "square_length": square,
        "stick_out": 0.0, "bore_setback": i["bore_setback"], "bore_length": 1e3})
    begin = i["bore_setback"] + square
    return max([brentq(lacks, begin - 1.0, begin + 2.0 * i["needed_grip"] + 1.0, xtol=1e-12)] + ask)


def deepest_square(i):
    """The insertion at which the overlap, falling, is the share that is asked for."""
    spare = lambda insertion: square_engagement(
        {**i, "insertion": insertion, "bore_setback": 0.0, "bore_length": 0.0}
    ) - i["share"] * i["square_length"]
    return brentq(spare, i["rear"], i["rear"] + i["square_length"], xtol=1e-12)


def shortest_overall_length(i):
    square = i.get("square_length", 0.0)
    lacks = lambda length: i["needed_grip"] - gripped_length(
        {**i, "overall_length": length, "shank_length": length, "square_length": square})
    begin = i["stick_out"] + i.get("bore_setback", 0.0) + square
    return brentq(lacks, begin + 1e-6, begin + i["bore_length"], xtol=1e-12)


def shortest_for_flutes(i):
    """The drill is cut off at its tip until the hole is as deep as what is left of the flutes."""
    off = brentq(lambda cut: i["chip_flute_length"] - cut - i["reach"], -1e3, 1e3, xtol=1e-12)
    return i["overall_length"] - off


def least_stick_out(i):
    """The least p of four inequalities, by linear programming."""
    bounds = [i["overall_length"] - i["shank_length"] - i["bore_setback"], i["needs"]]
    bounds.append(i["overall_length"] - i.get("deepest", i["overall_length"]))
    found = linprog([1.0], A_ub=[[-1.0]] * 3, b_ub=[-b for b in bounds], bounds=[(0, None)])
    return found.x[0]


def point_length(i):
    height = sympy.Symbol("h")
    half = sympy.nsimplify(i["point_angle"]) * sympy.pi / 360
    radius = sympy.nsimplify(i["cutting_diameter"]) / 2
    triangle = sympy.Eq(radius * sympy.cos(half), height * sympy.sin(half))
    return float(sympy.solve(triangle, height)[0])


def draw_in(i):
    closes = lambda travel: 2.0 * travel * np.tan(np.radians(8.0)) - i["bore_gap"]
    return brentq(closes, -1.0, 100.0, xtol=1e-13)


def draw_in_one_in_ten(i):
    closes = lambda travel: travel / 10.0 - i["bore_gap"]
    return brentq(closes, -1.0, 1e3, xtol=1e-13)


def nut_room(i):
    pocket = Point(0, 0).buffer(i["room"] / 2.0, quad_segs=4096).exterior
    nut = Point(0, 0).buffer(i["nut"] / 2.0, quad_segs=4096)
    return 2.0 * (pocket.distance(nut) - i["clearance"])


# Clamping: unknown forces from their equilibrium.


def thread(force, pitch_diameter, pitch, friction, flank):
    """Torque of a thread that lifts a force: the normal force on the incline is the unknown."""
    slope = np.arctan(pitch / (np.pi * pitch_diameter))
    rub = friction / np.cos(np.radians(flank))
    lifts = np.cos(slope) - rub * np.sin(slope)
    normal = np.linalg.solve([[lifts]], [force])[0]
    return normal * (np.sin(slope) + rub * np.cos(slope)) * pitch_diameter / 2.0


def face(force, friction, radius, half_angle):
    normal = np.linalg.solve([[np.sin(np.radians(half_angle))]], [force])[0]
    return friction * normal * radius


def pitch_diameter(i):
    """ISO 724 from the triangle: three quarters of its height are cut off both sides together."""
    triangle = sympy.Triangle(sympy.Point(0, 0), sympy.Point(1, 0),
                              sympy.Point(sympy.Rational(1, 2), sympy.sqrt(3) / 2))
    height = triangle.altitudes[triangle.vertices[2]].length
    return i["diameter"] - float(sympy.Rational(3, 4) * height) * i["pitch"]


def axial_force(i):
    mean = pitch_diameter(i)
    on_face = i.get("face_friction", i["friction"])
    lacks = lambda force: thread(force, mean, i["pitch"], i["friction"], 30.0) + face(
        force, on_face, i["radius"], i["half_angle"]) - i["torque"] * 1e3
    return brentq(lacks, 1.0, 1e8, rtol=1e-14)


def wedge(i):
    """Normal and radial force of a wedge that is pushed in, from two equations."""
    a, mu = np.radians(i["half_angle"]), i["friction"]
    rows = [[np.sin(a) + mu * np.cos(a), i.get("bore_friction", 0.0)],
            [np.cos(a) - mu * np.sin(a), -1.0]]
    return np.linalg.solve(rows, [i["axial"], 0.0])


def core_diameter(i):
    """The basic profile of a thread: a triangle of height H, cut 5/8 H for the nut's minor
    diameter and rounded H/12 deeper for the bolt's core."""
    height = i["pitch"] / 2.0 / np.tan(np.radians(30.0))
    return i["diameter"] - 2.0 * (5.0 / 8.0 * height + height / 12.0)


def taper_diameter(i):
    """Where a line at 8 degrees from the mouth stands at that depth."""
    wall = LineString([(0.0, i["mouth"] / 2.0),
                       (100.0, i["mouth"] / 2.0 - 100.0 * np.tan(np.radians(8.0)))])
    cut = LineString([(i["depth"], 0.0), (i["depth"], i["mouth"])])
    return 2.0 * wall.intersection(cut).y


def ring_tension(i):
    """Force over the area of a ring, summed from thin rings."""
    area = quad(lambda r: 2.0 * np.pi * r, i["inner"] / 2.0, i["outer"] / 2.0)[0]
    return i["force"] / area


def nut_to_slip(i):
    """The whole chain from the nut to the shank."""
    force = axial_force(i) if i["torque"] else 0.0
    pushed = {"axial": force, "half_angle": 8.0, "friction": i["taper_friction"],
              "bore_friction": i["bore_friction"]}
    return slip_torque({"friction": i["shank_friction"], "radial": wedge(pushed)[1],
                        "diameter": i["shank"]})


def normal_force(i):
    a, mu = np.radians(i["half_angle"]), i["friction"]
    return brentq(lambda n: n * np.cos(a) - mu * n * np.sin(a) - i["radial"], 0.0, 1e9)


def slip_torque(i):
    """Friction of an even pressure over the surface of a shank, of any length."""
    d, l = i["diameter"], 30.0
    pressure = i["radial"] / (np.pi * d * l)
    moment = lambda z, turn: i["friction"] * pressure * d / 2.0 * d / 2.0
    return dblquad(moment, 0.0, 2.0 * np.pi, 0.0, l)[0] / 1e3


def grip_force(i):
    d, l = 10.0, 25.0
    pressure = i["radial"] / (np.pi * d * l)
    return dblquad(lambda z, turn: i["friction"] * pressure * d / 2.0, 0, 2 * np.pi, 0, l)[0]


def pull_out_ratio(i):
    around = i["torque"] * 1e3 / (i["diameter"] / 2.0)
    return i["grip"] / np.linalg.norm([around, i["pull"]])


def edge_pressure(i, engaged=None):
    """A linear pressure a + b z that balances the force and its moment about the mouth."""
    l = engaged or i["engaged"]
    power = lambda n: quad(lambda z: z**n, 0.0, l)[0]
    force = i.get("force", 1.0) / i.get("diameter", 1.0)
    rows = [[power(0), power(1)], [power(1), power(2)]]
    return np.linalg.solve(rows, [force, -force * i["overhang"]])[0]


def ring_hoop(i):
    """Equilibrium of a thick ring in plane stress as a boundary value problem."""
    nu, inner, outer = 0.3, i["inner"], i["outer"]
    stress = lambda r, u, du: ((du + nu * u / r) / (1 - nu**2), (u / r + nu * du) / (1 - nu**2))
    rates = lambda r, y: np.vstack([y[1], y[0] / r**2 - y[1] / r])
    ends = lambda a, b: np.array([stress(inner, *a)[0] + i["pressure"], stress(outer, *b)[0]])
    mesh = np.linspace(inner, outer, 60)
    found = solve_bvp(rates, ends, mesh, np.ones((2, 60)), tol=1e-9, max_nodes=100000)
    return float(stress(i["at"], *found.sol(i["at"]))[1])


# Bending: a cantilever of steps, number 1 at the tip.


def steps(i):
    numbers = [n for n in range(1, 10) if f"length{n}" in i]
    name = ("length", "diameter", "modulus", "density")
    return [tuple(i.get(f"{key}{n}", 0.0) for key in name) for n in reversed(numbers)]


def tip_deflection(i):
    """By two libraries, which have to agree; both refuse a body without a force."""
    if i.get("force", 1.0) == 0.0:
        return 0.0 * by_pynite({**i, "force": 1.0})
    pynite, ana = by_pynite(i), by_anastruct(i)
    assert abs(pynite - ana) < 1e-6 * abs(pynite), (pynite, ana)
    return pynite


def by_pynite(i):
    from Pynite import FEModel3D
    model, x = FEModel3D(), 0.0
    model.add_node("0", 0, 0, 0)
    model.def_support("0", True, True, True, True, True, True)
    for n, (length, diameter, modulus, _) in enumerate(steps(i), 1):
        x += length
        inertia, area = np.pi * diameter**4 / 64, np.pi * diameter**2 / 4
        model.add_material(f"m{n}", modulus, modulus / 2.6, 0.3, 0.0)
        model.add_section(f"s{n}", area, inertia, inertia, 2 * inertia)
        model.add_node(str(n), x, 0, 0)
        model.add_member(f"b{n}", str(n - 1), str(n), f"m{n}", f"s{n}")
    model.add_node_load(str(n), "FY", -i.get("force", 1.0))
    model.analyze_linear(check_statics=False)
    return -list(model.nodes[str(n)].DY.values())[0]


def by_anastruct(i):
    from anastruct import SystemElements
    system, x = SystemElements(), 0.0
    for length, diameter, modulus, _ in steps(i):
        inertia, area = np.pi * diameter**4 / 64, np.pi * diameter**2 / 4
        system.add_element([[x, 0], [x + length, 0]], EA=modulus * area, EI=modulus * inertia)
        x += length
    last = len(steps(i)) + 1
    system.add_support_fixed(1)
    system.point_load(node_id=last, Fy=-i.get("force", 1.0))
    system.solve()
    return abs(system.get_node_displacements(last)["uy"])


def first_frequency(i):
    """By elements, and where a step is too short for them by transfer matrices."""
    shortest = min(length / diameter for length, diameter, _, _ in steps(i))
    return by_transfer(i) if shortest < 0.01 else by_elements(i)


def by_transfer(i):
    """Deflection, slope, moment and shear carried from the root to the tip, where the last two
    are nothing: the least frequency at which that can be."""
    def remains(speed):
        carried = np.eye(4)
        for length, diameter, modulus, density in steps(i):
            rigid, mass = modulus * np.pi * diameter**4 / 64, density * 1e-12 * np.pi * diameter**2 / 4
            rates = np.zeros((4, 4))
            rates[0, 1], rates[1, 2], rates[2, 3], rates[3, 0] = 1.0, 1.0 / rigid, -1.0, -mass * speed**2
            carried = expm(rates * length) @ carried
        return np.linalg.det(carried[2:, 2:])

    speeds = np.linspace(1.0, 2e5, 2001)
    values = np.array([remains(speed) for speed in speeds])
    first = np.flatnonzero(values[:-1] * values[1:] < 0.0)[0]
    return brentq(remains, speeds[first], speeds[first + 1]) / 2.0 / np.pi


def by_elements(i, parts=40):
    """Hermite elements of scikit-fem, the least eigenvalue by scipy."""
    from skfem import Basis, BilinearForm, ElementLineHermite, MeshLine, asm
    from skfem.helpers import dd, ddot
    grid, rigid, heavy = [0.0], [], []
    for length, diameter, modulus, density in steps(i):
        start = grid[-1]
        grid += [start + length * (n + 1) / parts for n in range(parts)]
        rigid += [modulus * np.pi * diameter**4 / 64] * parts
        heavy += [density * 1e-12 * np.pi * diameter**2 / 4] * parts
    basis = Basis(MeshLine(np.array(grid)), ElementLineHermite())
    ei, mass = np.array(rigid)[:, None], np.array(heavy)[:, None]
    k = asm(BilinearForm(lambda u, v, w: ei * ddot(dd(u), dd(v))), basis).toarray()
    m = asm(BilinearForm(lambda u, v, w: mass * u * v), basis).toarray()
    free = basis.complement_dofs(basis.get_dofs(lambda x: x[0] < 1e-9))
    # The inverse problem: the greatest of its values is the one that rounding spares.
    least = eigh(m[np.ix_(free, free)], k[np.ix_(free, free)], eigvals_only=True)[-1]
    return 1.0 / np.sqrt(least) / 2.0 / np.pi


# Cutting: circles by shapely, arcs and periods by quadrature and fine sweeps.


def circle(diameter):
    return Point(0.0, 0.0).buffer(diameter / 2.0, quad_segs=20000)


def engagement_angle(i):
    """Arc of the cutter, on the side that meets the work, inside the strip that it takes off."""
    r = i["diameter"] / 2.0
    strip = box(0.0, r - i["width"], 2.0 * r, 2.0 * r)
    return np.degrees(circle(i["diameter"]).exterior.intersection(strip).length / r)


def arc(i):
    return 2.0 * np.arcsin(np.sqrt(min(1.0, i["width"] / i["diameter"])))


def mean_chip_thickness(i):
    total = quad(lambda at: i["feed"] * np.sin(at), 0.0, arc(i))[0]
    return total / arc(i) * np.sin(np.radians(i["edge_angle"]))


def specific_force(i):
    return i["kc11"] * np.exp(-i["mc"] * np.log(i["thickness"])) * i.get("correction", 1.0)


def sweep(i, angles=400, slices=24000):
    """Torque of all teeth over one tooth period, finely swept."""
    z = int(i["flutes"])
    turn = (np.arange(angles) + 0.5) / angles * 2 * np.pi / z
    height = (np.arange(slices) + 0.5) / slices * i["depth"]
    lag = 2.0 * height * np.tan(np.radians(i["helix"])) / i["diameter"]
    total = np.zeros(angles)
    for tooth in range(z):
        at = np.mod(turn[:, None] + tooth * 2 * np.pi / z - lag[None, :], 2 * np.pi)
        thick = i["feed"] * np.clip(np.sin(at), 0.0, None)
        total += np.where(at < arc(i), thick ** (1.0 - i["mc"]), 0.0).sum(axis=1)
    force = i["kc11"] * i.get("correction", 1.0) * i["depth"] / slices
    return total * force * i["diameter"] / 2e3


def mean_torque(i):
    """Every slice passes the same arc: the mean is one integral."""
    force = quad(lambda at: (i["feed"] * np.sin(at)) ** (1.0 - i["mc"]), 0.0, arc(i))[0]
    force *= i["kc11"] * i.get("correction", 1.0) * i["depth"]
    return i["flutes"] / (2 * np.pi) * force * i["diameter"] / 2e3


def drilling_torque(i):
    """Two edges, each with half the feed, integrated over the radius."""
    thick = i["feed"] / 2.0 * np.sin(np.radians(i["point"]) / 2.0)
    kc = specific_force({**i, "thickness": thick})
    return 2.0 * quad(lambda r: kc * i["feed"] / 2.0 * r, 0.0, i["diameter"] / 2.0)[0] / 1e3


def ball_diameter(i):
    r = i["diameter"] / 2.0
    return circle(i["diameter"]).intersection(
        LineString([(-2 * r, i["depth"] - r), (2 * r, i["depth"] - r)])).length


# What a milling cut does besides turning, and a drill's thrust.


def side_sweep(i, weight=lambda z: np.ones_like(z), angles=400, slices=6000):
    """Vectors along and across the path of every slice, added up and measured at each instant."""
    z = int(i["flutes"])
    # From the instant at which a tooth leaves, and just before it.
    turn = np.mod(arc(i) - 1e-9 + np.arange(angles) / angles * 2 * np.pi / z, 2 * np.pi / z)
    height = (np.arange(slices) + 0.5) / slices * i["depth"]
    lag = 2.0 * height * np.tan(np.radians(i["helix"])) / i["diameter"]
    total = np.zeros((angles, 2))
    for tooth in range(z):
        at = np.mod(turn[:, None] + tooth * 2 * np.pi / z - lag[None, :], 2 * np.pi)
        thick = i["feed"] * np.clip(np.sin(at), 0.0, None)
        along = np.where(at < arc(i), thick ** (1.0 - i["mc"]), 0.0) * weight(height)[None, :]
        across = i["radial_share"] * along
        total[:, 0] += (along * np.cos(at) + across * np.sin(at)).sum(axis=1)
        total[:, 1] += (along * np.sin(at) - across * np.cos(at)).sum(axis=1)
    force = i["kc11"] * i.get("correction", 1.0) * i["depth"] / slices
    return np.hypot(*total.T).max() * force


def side_deflection(i):
    """Each slice bends the tip by the integral of its moment times that of one newton there."""
    at = np.linspace(0.0, i["depth"], 41)
    body = list(reversed(steps(i)))

    def bends(height):
        start = total = 0.0
        for length, diameter, modulus, _ in body:
            end, inertia = start + length, np.pi * diameter**4 / 64
            if end > height:
                total += quad(lambda x: (x - height) * x, max(start, height), end)[0] / modulus / inertia
            start = end
        return total

    return side_sweep(i, CubicSpline(at, [bends(height) for height in at]))


def axial_pull_with_friction(i):
    """From the vectors on the face of an oblique edge: x across the edge, y along it, z up from
    the work, which comes in x and y. The chip goes up the face and leaves the normal of the edge
    by the inclination; friction drags along it, and its part across the edge is to the normal
    force as the tangent of the friction angle."""
    lean, rake, rub = (np.radians(i[name]) for name in ("helix", "rake", "friction"))
    speed = np.array([np.cos(lean), np.sin(lean), 0.0])
    up_the_face = np.array([np.sin(rake), 0.0, np.cos(rake)])
    into_the_face = np.array([np.cos(rake), 0.0, -np.sin(rake)])
    chip = np.cos(lean) * up_the_face + np.sin(lean) * np.array([0.0, 1.0, 0.0])
    force = into_the_face + np.tan(rub) / np.cos(lean) * chip
    axis = np.array([np.sin(lean), -np.cos(lean), 0.0])
    return i["force"] * (force @ axis) / (force @ speed)


def drill_thrust(i):
    """Half of the cutting force of both lips, integrated over the radius."""
    thick = i["feed"] / 2.0 * np.sin(np.radians(i["point"]) / 2.0)
    kc = specific_force({**i, "thickness": thick})
    return 0.5 * 2.0 * quad(lambda r: kc * thick, 0.0, i["diameter"] / 2.0)[0]


def neighbour_difference(i):
    """Greatest difference of two neighbours' distances from the axis, over all places of the
    eccentricity; to the first order, as a run-out is small."""
    turn = np.linspace(0.0, 2.0 * np.pi, 200001)
    radius = lambda tooth: i["run_out"] / 2.0 * np.cos(turn + tooth * 2.0 * np.pi / i["flutes"])
    return float(np.abs(radius(1) - radius(0)).max())


def thickest_chip(i):
    """Greatest of the feed's part across the path, over the arc."""
    return i["feed"] * np.sin(np.linspace(0.0, arc(i), 100001)).max()


def tip_deflection_above(i):
    """A force above the tip: moment times that of one newton at the tip, integrated."""
    start = total = 0.0
    for length, diameter, modulus, _ in reversed(steps(i)):
        end, inertia = start + length, np.pi * diameter**4 / 64
        if end > i["height"]:
            total += quad(lambda x: (x - i["height"]) * x, max(start, i["height"]), end)[0] / modulus / inertia
        start = end
    return i["force"] * total
