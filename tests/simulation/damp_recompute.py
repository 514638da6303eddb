#!/usr/bin/env python3
"""Recomputes the expected values of damp_cases_test.cpp and damp_step_slow_test.cpp by SciPy, from the equations in docs/equations/damp.md alone.

A step of temperature and humidity at the face of a deep solid depends on depth over the square root of time only, so that
the two partial differential equations become ordinary ones, solved here by collocation on a mesh of its own.
"""

import numpy as np
from scipy.integrate import solve_bvp

R_V = 461.524
RHO_W = 1000.0
L_0 = 2.501e6
C_V = 1860.0
C_W = 4187.0
DAY = 86400.0


def saturation(t):
    return 610.8 * np.exp(17.27 * t / (t + 237.3))


# The material of the benchmark in EN 15026 Annex A, functions as remembered.
def suction(h, t):
    return -RHO_W * R_V * (t + 273.15) * np.log(h)


def water(h, t):
    return 146.0 / (1.0 + (8e-8 * suction(h, t)) ** 1.6) ** 0.375


def liquid_conductivity(w):
    y = w - 73.0
    return np.exp(-39.2619 + 0.0704 * y - 1.7420e-4 * y**2 - 2.7953e-6 * y**3 - 1.1566e-7 * y**4 + 2.5969e-9 * y**5)


def vapour_permeability(w, t):
    dry = 1.0 - w / 146.0
    return 0.018 / 8.314 / (t + 273.15) * 26.1e-6 / 200.0 * dry / (0.503 * dry**2 + 0.497)


def conductivity(w):
    return 1.5 + 15.8 / 1000.0 * w


def heat(w, t):
    return (1.824e6 + C_W * w) * t


def slope(function, h, t, by):
    step = 1e-6 if by == 0 else 1e-4
    if by == 0:
        return (function(h + step, t) - function(h - step, t)) / (2 * step)
    return (function(h, t + step) - function(h, t - step)) / (2 * step)


def right_side(eta, y):
    h, t, g_w, g_h = y
    w = water(h, t)
    delta, k, lam = vapour_permeability(w, t), liquid_conductivity(w), conductivity(w)
    vapour = lambda a, b: a * saturation(b)
    pressure = lambda a, b: -suction(a, b)
    # Vapour and liquid by the slopes of h and t; heat carried along.
    v_h, v_t = -delta * slope(vapour, h, t, 0), -delta * slope(vapour, h, t, 1)
    l_h, l_t = -k * slope(pressure, h, t, 0), -k * slope(pressure, h, t, 1)
    e_v, e_l = L_0 + C_V * t, C_W * t
    a11, a12 = v_h + l_h, v_t + l_t
    a21, a22 = v_h * e_v + l_h * e_l, -lam + v_t * e_v + l_t * e_l
    det = a11 * a22 - a12 * a21
    h_x = (a22 * g_w - a12 * g_h) / det
    t_x = (a11 * g_h - a21 * g_w) / det
    content = lambda a, b: heat(water(a, b), b)
    w_x = slope(water, h, t, 0) * h_x + slope(water, h, t, 1) * t_x
    e_x = slope(content, h, t, 0) * h_x + slope(content, h, t, 1) * t_x
    return np.vstack([h_x, t_x, eta / 2 * w_x, eta / 2 * e_x])


def benchmark():
    """Profiles for a face at 30 degC and 95 % over a solid at 20 degC and 50 %."""
    # Heat goes as far as 6e-3 m/s^0.5, moisture stays within 1e-4.
    eta = np.concatenate([np.linspace(0, 3e-4, 400), np.geomspace(3.01e-4, 8e-3, 200)])
    end = 8e-3
    from scipy.special import erfc

    h = 0.5 + 0.45 * erfc(eta / 6e-5)
    t = 20 + 10 * erfc(eta / 2 / np.sqrt(2.6 / 2.1e6))
    guess = np.vstack([h, t, 1e-5 * erfc(eta / 6e-5), 1e4 * erfc(eta / 2 / np.sqrt(2.6 / 2.1e6))])
    edges = lambda a, b: np.array([a[0] - 0.95, a[1] - 30.0, b[0] - 0.5, b[1] - 20.0])
    answer = solve_bvp(right_side, edges, eta, guess, tol=1e-5, max_nodes=20000, verbose=0)
    print("benchmark:", answer.message, len(answer.x), "nodes; flux at the face", answer.y[2:, 0])
    for days, depths in ((7, (0.01, 0.02, 0.04)), (30, (0.02, 0.04, 0.08)), (365, (0.05, 0.1, 0.2))):
        for depth in depths:
            h, t = answer.sol(depth / np.sqrt(days * DAY))[:2]
            print(f"{days:4d} d {depth:5.2f} m  w {water(h, t):10.5f} kg/m3   T {t:9.5f} degC   h {h:.6f}")
        print(f"{days:4d} d taken up {2 * answer.y[2, 0] * np.sqrt(days * DAY):10.6f} kg/m2")


def sorption():
    """The curve through 40 (50 %), 60 (80 %) and 150 kg/m3: its two constants and the water at 65 and 93 %."""
    from scipy.optimize import brentq

    free, half, eight_tenths = 150.0, 40.0, 60.0
    n = brentq(lambda n: ((free / half) ** n - 1) / ((free / eight_tenths) ** n - 1) - np.log(0.5) / np.log(0.8), 1e-6, 50)
    a = -np.log(0.8) / ((free / eight_tenths) ** n - 1)
    print(f"sorption: n {n:.6f} a {a:.6f}; 65 % {free * (1 - np.log(0.65) / a) ** (-1 / n):.5f}; "
          f"93 % {free * (1 - np.log(0.93) / a) ** (-1 / n):.5f}")


def uptake():
    """Water taken up by a solid of D = D_0 exp(6 s) in contact with water, over S sqrt(t): would be 1 from dry (0.9977,
    as far as the formula for S is exact)."""
    d_0 = 1.0 / 123.1310
    first = 0.04  # where the tests' solid starts

    def side(eta, y):
        s, g = y
        s_x = -g / (d_0 * np.exp(6 * s))
        return np.vstack([s_x, eta / 2 * s_x])

    # Straight water content down to the front as a first guess.
    eta = np.linspace(0, 1.6, 4000)
    guess = np.vstack([np.maximum(first, 1 - eta / 1.1), np.maximum(0.5 * (1 - eta / 1.1), 0)])
    answer = solve_bvp(side, lambda a, b: np.array([a[0] - 1.0, b[0] - first]), eta, guess, tol=1e-6, max_nodes=100000)
    print(f"uptake: {answer.message} {2 * answer.y[1, 0]:.6f} of S sqrt(t)")


def steady():
    """Condensation below a tight membrane at 5 degC, room at 20 degC and 1403 Pa, still air 100 mm thick (mu = 1): vapour
    by the hour, kg/(m2 s). Temperature is a straight line, the permeability goes with T^0.81."""
    from scipy.integrate import quad

    inner_film_k, inner_film_v, thickness, lam = 0.1, 1.0 / 2.5e-8, 0.1, 0.04
    flux = (20 - 5) / (inner_film_k + thickness / lam)
    face = 20 - flux * inner_film_k
    delta = lambda t: 0.083 / 3600 / (462 * (t + 273.15)) * ((t + 273.15) / 273) ** 1.81
    resistance, _ = quad(lambda x: 1 / delta(5 + (face - 5) * x / thickness), 0, thickness)
    print(f"steady: {(1403 - saturation(5)) / (inner_film_v + resistance):.6e} kg/(m2 s)")


if __name__ == "__main__":
    benchmark()
    sorption()
    uptake()
    steady()
