"""The socket's mouth by axisymmetric finite elements (scikit-fem, quadratic quadrilaterals).

The wall is a solid of revolution: a conical bore, the outside with its step as drawn, cut off at
1.5 taper lengths, where it may not move along the axis. The collet presses on the cone without
friction: equal pressure, or a rigid wedge on springs of collet and shank, both scaled to the
normal force. Nothing of the beam model of src/mechanics/mouth.rs is used but the springs.
"""

from functools import lru_cache

import numpy as np
from skfem import Basis, ElementQuad2, ElementVector, FacetBasis, MeshQuad, asm, condense, solve
from skfem import BilinearForm, LinearForm, Functional

ALPHA = np.radians(8.0)
FILL = 0.88
END = 1.5


def lines(points, size):
    """Grid lines through all points, no further apart than size."""
    grid = [points[0]]
    for a, b in zip(points, points[1:]):
        count = max(1, int(np.ceil((b - a) / size)))
        grid.extend(a + (b - a) * (np.arange(count) + 1) / count)
    return np.array(grid)


def mesh_of(mouth, taper, engaged, nose, body, nose_length, size):
    """Quadrilaterals between the cone and the outside; x is the radius, y the depth."""
    stepped = body is not None and nose_length is not None
    end = END * taper
    stops = {0.0, engaged, taper, end} | ({nose_length} if stepped else set())
    depths = lines(sorted(stops), size)
    across = lines([0.0, 1.0], size / ((nose - mouth) / 2.0))
    outer = [1.0] + ([2.0] if stepped else [])
    if stepped:
        across = np.concatenate([across, lines(outer, size / ((body - nose) / 2.0))[1:]])
    mesh = MeshQuad.init_tensor(across, depths)
    if stepped:
        middle = mesh.p[:, mesh.t].mean(axis=1)
        mesh = mesh.remove_elements(np.nonzero((middle[0] > 1.0) & (middle[1] < nose_length))[0])
    s, z = mesh.p
    bore = mouth / 2.0 - z * np.tan(ALPHA)
    r = bore + np.minimum(s, 1.0) * (nose / 2.0 - bore)
    if stepped:
        r = r + np.maximum(s - 1.0, 0.0) * (body - nose) / 2.0
    on_bore = mesh.facets_satisfying(lambda x: np.abs(x[0]) < 1e-9, boundaries_only=True)
    pressed = [f for f in on_bore if mesh.p[1, mesh.facets[:, f]].mean() < engaged]
    return MeshQuad(np.array([r, z]), mesh.t), on_bore, np.array(pressed)


@lru_cache(maxsize=None)
def solved(wedge, mouth, taper, engaged, nose, body, nose_length, modulus, poisson, shank,
           shank_modulus, shank_poisson, collet_modulus, size):
    """For a normal force of 1 N: hoop stress and opening of the mouth; depths, hoop stress there."""
    mesh, on_bore, pressed = mesh_of(mouth, taper, engaged, nose, body, nose_length, size)
    basis = Basis(mesh, ElementVector(ElementQuad2()), intorder=6)
    shear = modulus / 2.0 / (1.0 + poisson)
    first = modulus * poisson / (1.0 + poisson) / (1.0 - 2.0 * poisson)

    def strains(u, r):
        g = u.grad
        return g[0, 0], u[0] / r, g[1, 1], g[0, 1] + g[1, 0]

    @BilinearForm
    def stiffness(u, v, w):
        a, b = strains(u, w.x[0]), strains(v, w.x[0])
        volume = (a[0] + a[1] + a[2]) * (b[0] + b[1] + b[2])
        direct = a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
        return (first * volume + 2 * shear * direct + shear * a[3] * b[3]) * w.x[0]

    facets = FacetBasis(mesh, ElementVector(ElementQuad2()), facets=pressed, intorder=6)
    out = lambda v: v[0] * np.cos(ALPHA) + v[1] * np.sin(ALPHA)

    def spring(r):
        collet = r * np.log(r / (shank / 2.0)) / (FILL * collet_modulus)
        return 1.0 / (collet + (1.0 - shank_poisson) * r / shank_modulus)

    matrix = asm(stiffness, basis)
    if wedge:
        matrix = matrix + asm(
            BilinearForm(lambda u, v, w: spring(w.x[0]) * out(u) * out(v) * w.x[0]), facets)
        load = asm(LinearForm(lambda v, w: spring(w.x[0]) * out(v) * w.x[0]), facets)
    else:
        load = asm(LinearForm(lambda v, w: out(v) * w.x[0]), facets)
    end = basis.get_dofs(lambda x: np.abs(x[1] - END * taper) < 1e-9).all(["u^2"])
    moved = solve(*condense(matrix, load, D=end))

    def pressure(u, r):
        return spring(r) * (1.0 - out(u)) if wedge else 1.0 + 0.0 * r

    force = 2 * np.pi * asm(
        Functional(lambda w: pressure(w["u"], w.x[0]) * w.x[0]), facets, u=facets.interpolate(moved))
    corner = np.nonzero((np.abs(mesh.p[0] - mouth / 2.0) < 1e-9) & (np.abs(mesh.p[1]) < 1e-9))[0][0]
    u = moved[basis.nodal_dofs[:, corner]]
    at_mouth = float(pressure(u, mouth / 2.0))
    # On the free face nothing acts along the axis: the hoop stress follows from strain and pressure.
    hoop = modulus * u[0] / (mouth / 2.0) - poisson * at_mouth
    bore = FacetBasis(mesh, ElementVector(ElementQuad2()), facets=on_bore, intorder=6)
    r, z = np.asarray(bore.global_coordinates())
    across, round_, along, _ = strains(bore.interpolate(moved), r)
    hoops = first * (across + round_ + along) + 2 * shear * round_
    order = np.argsort(z.ravel())
    return hoop / force, u[0] / force, z.ravel()[order], hoops.ravel()[order] / force


def mouth(inputs, wedge, engaged=None, size=0.5):
    """Hoop stress in MPa and opening in mm under the normal force of a row; depths in mm and the
    hoop stress of the bore at each of them in MPa."""
    get = inputs.get
    keys = ("mouth", "taper", "nose")
    mouth_diameter, taper, nose = (float(inputs[key]) for key in keys)
    found = solved(wedge, mouth_diameter, taper, float(engaged or inputs["engaged"]), nose,
                   get("body"), get("nose_length"), inputs["modulus"], inputs["poisson"],
                   get("shank"), get("shank_modulus"), get("shank_poisson"),
                   get("collet_modulus"), size)
    stress, opening, depths, hoops = found
    force = inputs["normal_force"]
    return stress * force, opening * force, depths, hoops * force
