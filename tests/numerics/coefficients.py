"""Minimax coefficients of src/numerics and src/stats (Remez exchange in mpmath, 60 digits); prints them as exact hexadecimal doubles."""
import mpmath as mp

mp.mp.dps = 60


def remez(name, f, w, lo, hi, degree, fixed_low=0):
    """Polynomial c with least max |w (f - sum c_i x^i)| on [lo, hi]."""
    n = degree + 2
    nodes = [(lo + hi) / 2 - (hi - lo) / 2 * mp.cos(mp.pi * (2 * i + 1) / (2 * n)) for i in range(n)]
    for _ in range(12):
        a = mp.matrix(n, n)
        b = mp.matrix(n, 1)
        for i, x in enumerate(nodes):
            for j in range(degree + 1):
                a[i, j] = x**j
            a[i, degree + 1] = (-1) ** i / w(x)
            b[i] = f(x)
        c = mp.lu_solve(a, b)
        coef = [c[j] for j in range(degree + 1)]

        def err(x):
            return w(x) * (f(x) - mp.polyval(coef[::-1], x))

        grid = [(lo + hi) / 2 - (hi - lo) / 2 * mp.cos(mp.pi * i / (40 * n)) for i in range(40 * n + 1)]
        e = [err(x) for x in grid]
        # the largest of each run of one sign
        new, k = [], 0
        while k < len(grid):
            j, best = k, k
            while j < len(grid) and mp.sign(e[j]) == mp.sign(e[k]):
                if abs(e[j]) > abs(e[best]):
                    best = j
                j += 1
            new.append(best)
            k = j
        while len(new) > n:
            new.pop(0 if abs(e[new[0]]) < abs(e[new[-1]]) else -1)
        if len(new) < n:
            break
        worst, least = max(abs(e[i]) for i in new), min(abs(e[i]) for i in new)
        nodes = [grid[i] for i in new]
        if worst / least < 1.01:
            break
    rounded = [mp.mpf(float(x)) for x in coef]
    final = max(abs(w(x) * (f(x) - mp.polyval(rounded[::-1], x))) for x in grid)
    print(f"{name}: degree {degree}, largest weighted error {mp.nstr(final, 4)} = 2^{mp.nstr(mp.log(final, 2), 4)}")
    print("  " + ", ".join(float(x).hex() for x in coef))


def nonzero(f, at_zero):
    return lambda x: at_zero if abs(x) < mp.mpf("1e-20") else f(x)


def chebyshev_erfcx():
    """(1 + 2 x) exp(x^2) erfc(x) as a Chebyshev sum in t = (x - 3.75) / (x + 3.75), for src/stats."""
    n, degree = 120, 24

    def g(t):
        x = mp.mpf("3.75") * (1 + t) / (1 - t)
        return (1 + 2 * x) * mp.exp(x * x) * mp.erfc(x)

    angles = [mp.pi * (2 * i + 1) / (2 * n) for i in range(n)]
    values = [g(mp.cos(a)) for a in angles]
    c = [2 / mp.mpf(n) * sum(v * mp.cos(k * a) for v, a in zip(values, angles)) for k in range(n)]
    print(f"erfcx: first coefficient left off {mp.nstr(abs(c[degree + 1]), 3)}; c0 is halved")
    print("  " + ", ".join(mp.nstr(x / 2 if k == 0 else x, 17) for k, x in enumerate(c[: degree + 1])))


if __name__ == "__main__":
    half = mp.log(2) / 2 + mp.mpf("1e-9")
    remez("exp", nonzero(lambda r: (mp.exp(r) - 1 - r) / r**2, mp.mpf(1) / 2), lambda r: r**2 + mp.mpf("1e-4"), -half, half, 9)
    # s = f / (2 + f) for m = 1 + f between sqrt(1/2) and sqrt(2)
    z_max = ((mp.sqrt(2) - 1) / (mp.sqrt(2) + 1)) ** 2 + mp.mpf("1e-9")

    def g(z):
        s = mp.sqrt(z)
        return mp.log((1 + s) / (1 - s)) / s

    remez("log", nonzero(lambda z: (g(z) - 2) / z, mp.mpf(2) / 3), lambda z: z + mp.mpf("1e-30"), mp.mpf(0), z_max, 6)
    remez("pow log", nonzero(lambda z: (g(z) * 3 / 2 - 3 - z) / z**2, mp.mpf(3) / 5), lambda z: z**2 + mp.mpf("1e-30"),
          mp.mpf(0), z_max, 7)
    q = (mp.pi / 4 + mp.mpf("1e-6")) ** 2
    remez("sin", nonzero(lambda z: (mp.sin(mp.sqrt(z)) / mp.sqrt(z) - 1) / z, -mp.mpf(1) / 6), lambda z: z + mp.mpf("1e-30"),
          mp.mpf(0), q, 5)
    remez("cos", nonzero(lambda z: (mp.cos(mp.sqrt(z)) - 1 + z / 2) / z**2, mp.mpf(1) / 24),
          lambda z: z**2 + mp.mpf("1e-30"), mp.mpf(0), q, 5)
    t = (mp.sqrt(2) - 1 + mp.mpf("1e-9")) ** 2
    remez("atan", nonzero(lambda z: (mp.atan(mp.sqrt(z)) / mp.sqrt(z) - 1) / z, -mp.mpf(1) / 3),
          lambda z: z + mp.mpf("1e-30"), mp.mpf(0), t, 10)
    # inverse roots: h = 1 - x y^n with y the guess made from the bits
    for root, half_width, degree in ((3, "0.1022", 5), (5, "0.1549", 5)):
        width = mp.mpf(half_width)
        remez(f"inverse root {root}", nonzero(lambda h: ((1 - h) ** (-mp.mpf(1) / root) - 1) / h, mp.mpf(1) / root),
              lambda h: abs(h) + mp.mpf("1e-3"), -width, width, degree)
    chebyshev_erfcx()
