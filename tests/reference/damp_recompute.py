#!/usr/bin/env python3
"""Recomputes the expected values of damp_test.cpp and damp_slow_test.cpp by SciPy, from the equations in docs/equations/damp.md alone.

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



def over_ice(t):
    return saturation(t) if t >= 0 else 610.8 * np.exp(22.46 * t / (t + 272.62))


def condensation(heat, vapour, top, bottom):
    """Rates at interfaces by trying every set of wet ones: pressures above saturation or negative rates rule a set out."""
    from itertools import combinations

    n = len(heat)
    x, z = np.concatenate([[0], np.cumsum(heat)]), np.concatenate([[0], np.cumsum(vapour)])
    temperature = top[0] + (bottom[0] - top[0]) * x / x[-1]
    most = np.array([over_ice(t) for t in temperature])
    for size in range(n):
        for wet in combinations(range(1, n), size):
            places = [0, *wet, n]
            pressures = [min(top[1], most[0]), *(most[i] for i in wet), min(bottom[1], most[n])]
            p = np.interp(z, z[places], pressures)
            flux = np.diff(pressures) / np.diff(z[places])
            rates = np.diff(flux)
            if np.all(p <= most + 1e-9) and np.all(rates >= -1e-18):
                return {i: r for i, r in zip(wet, rates)}
    raise RuntimeError("no set of wet interfaces")


def steady_method():
    """A light deck in a cold month, cut in parts; then a screed on insulation on concrete with two wet interfaces."""
    wool = [(4.5 / 18, 0.18 / 18 / 2e-10)] * 18
    light = [(0.05, 360 / 2e-10), (0.17, 0.022 * 50 / 2e-10), *wool, (0.06, 0.0125 * 10 / 2e-10), (0.1, 1e-9)]
    heat, vapour = np.array(light).T
    print("one wet interface:", condensation(heat, vapour, (-2.0, 450.0), (20.0, 1150.0)))
    four = [(0.02, 4e11), (0.5, 2e9), (0.05, 5e10), (1.0, 4e9), (0.1, 4e9)]
    heat, vapour = np.array(four).T
    print("two wet interfaces:", condensation(heat, vapour, (-8.0, 280.0), (20.0, 1400.0)))


def surface():
    """Needed factor at 0 degC and 500 Pa outside, 20 degC inside, 540 Pa of people: face where 1040 Pa are 80 %."""
    from scipy.optimize import brentq

    face = brentq(lambda t: saturation(t) - 1040.0 / 0.8, 0, 30)
    print(f"surface: {face:.6f} degC, factor {face / 20:.6f}")


def mould():
    """Critical humidity, and growth in an hour, from the equations as printed."""
    for t in (5.0, 15.0):
        print(f"mould: critical at {t} degC {-0.00267 * t**3 + 0.16 * t**2 - 3.13 * t + 100:.5f} %")
    t, rh, m = 10.0, 96.0, 0.5
    critical = max(80.0, -0.00267 * t**3 + 0.16 * t**2 - 3.13 * t + 100)
    x = (critical - rh) / (critical - 100)
    most = 0.3 + 6.0 * x - 1.0 * x * x
    weeks = np.exp(-0.68 * np.log(t) - 13.9 * np.log(rh) + 66.02)
    print(f"mould: an hour at {t} degC, {rh} %, index {m}: + {0.578 * max(0, 1 - np.exp(2.3 * (m - most))) / (7 * weeks) / 24:.8e}")
    # Very sensitive wood, 20 degC and 97 %: hours until the index is 1.
    m, hours = 0.0, 0
    while m < 1.0:
        x = (80.0 - 97.0) / (80.0 - 100.0)
        most = 1.0 + 7.0 * x - 2.0 * x * x
        m += max(0, 1 - np.exp(2.3 * (m - most))) / (7 * np.exp(-0.68 * np.log(20.0) - 13.9 * np.log(97.0) + 66.02)) / 24
        hours += 1
    print(f"mould: {hours} h at 20 degC and 97 % until the index is 1")


if __name__ == "__main__":
    benchmark()
    sorption()
    uptake()
    steady()
    steady_method()
    surface()
    mould()
