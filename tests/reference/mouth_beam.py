"""The equations of the socket's beam, solved apart from the program: scikit-fem, quadratic
deflection and linear rotation, 1200 elements, moment and axial force corrected until they stay.

mouth_fe.py asks whether the beam is a good model of the solid; this asks whether the program
solves the beam: with an error of a few per cent in the model a wrong sign in a small term of it
would go unseen.
"""

import numpy as np
from skfem import Basis, BilinearForm, ElementLineP1, ElementLineP2, LinearForm, MeshLine, asm
from scipy.sparse.linalg import spsolve

from mouth_fe import ALPHA, END, FILL, lines


def stress(i, wedge, count=1200):
    """Hoop stress at the mouth in MPa under the normal force of a row."""
    mouth, taper, modulus, nu = i["mouth"] / 2.0, i["taper"], i["modulus"], i["poisson"]
    nose, body = i["nose"] / 2.0, i.get("body", i["nose"]) / 2.0
    step, engaged, end = i.get("nose_length", 2 * END * taper), i["engaged"], END * taper
    points = sorted({0.0, engaged, taper, end} | ({min(step, end), min(step + body - nose, end)}))
    basis = Basis(MeshLine(lines(points, end / count)), ElementLineP2() * ElementLineP1(), intorder=4)

    radius = lambda z: mouth - z * np.tan(ALPHA)
    outer = lambda z: np.where(z < step, nose, np.minimum(body, nose + z - step))
    grows = lambda z: np.where((z > step) & (z < step + body - nose), 1.0, 0.0)
    inside = lambda z: np.where(z < engaged, 1.0, 0.0)
    wall = lambda z: outer(z) - radius(z)
    mean = lambda z: (outer(z) + radius(z)) / 2.0
    slope = lambda z: (grows(z) - np.tan(ALPHA)) / 2.0

    def ring(z):
        b, r = outer(z) ** 2, radius(z) ** 2
        return modulus / ((b + r) / (b - r) + nu)

    def spring(z):
        r = radius(z)
        if not wedge:
            return 0.0 * r
        collet = r * np.log(r / (i["shank"] / 2.0)) / (FILL * i["collet_modulus"])
        return inside(z) / (collet + (1.0 - i["shank_poisson"]) * r / i["shank_modulus"])

    @BilinearForm
    def stiffness(w, psi, dw, dpsi, at):
        z = at.x[0]
        bending = modulus * wall(z) ** 3 * mean(z) / 12.0 / (1.0 - nu**2)
        shear = 5.0 / 6.0 * modulus / 2.0 / (1.0 + nu) * wall(z) * mean(z)
        rests = ring(z) + radius(z) * np.cos(ALPHA) * spring(z)
        return (bending * psi.grad[0] * dpsi.grad[0] + rests * w * dw
                + shear * (w.grad[0] - psi) * (dw.grad[0] - dpsi))

    matrix = asm(stiffness, basis).tocsc()
    grid = np.linspace(0.0, end, 40001)
    middles, width = (grid[1:] + grid[:-1]) / 2.0, grid[1]

    def solved(pushing, leaning):
        """Displacements; pressures are functions of the depth."""
        pull = -np.concatenate([[0.0], np.cumsum(
            radius(middles) * leaning(middles) * np.tan(ALPHA) * width)])
        force = lambda z: np.interp(z, grid, pull)
        load = LinearForm(lambda dw, dpsi, at: (
            radius(at.x[0]) * pushing(at.x[0]) * dw
            + radius(at.x[0]) * leaning(at.x[0]) * np.tan(ALPHA) * wall(at.x[0]) / 2.0 * dpsi
            - force(at.x[0]) * slope(at.x[0]) * dw.grad[0]))
        x = spsolve(matrix, asm(load, basis))
        nodes = basis.mesh.p[0]
        order = np.argsort(nodes)
        return nodes[order], x[basis.nodal_dofs[0][order]]

    if wedge:
        pressure = lambda z: 0.0 * z
        for _ in range(12):
            z, w = solved(spring, pressure)
            pressure = lambda at, z=z, w=w: spring(at) * (1.0 - np.interp(at, z, w) * np.cos(ALPHA))
    else:
        pressure = inside
        z, w = solved(pressure, pressure)
    total = 2 * np.pi / np.cos(ALPHA) * np.sum(pressure(middles) * radius(middles)) * width
    scale = i["normal_force"] / total
    at_mouth = float(pressure(np.array([0.0]))[0])
    return scale * (modulus * w[0] / mouth - nu * at_mouth)
