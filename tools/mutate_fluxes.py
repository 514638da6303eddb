#!/usr/bin/python3
"""Each of ten spoiled fluxes must open the books: a one-line edit of the stepper, in a copy, built and run.

The books (src/simulation/audit.hpp, room_books) find every boundary flux again by code that the solver does not use. This
shows that they would notice: tests/property/mutations/books.cpp is built from a copy of the sources with one flux of the
solver off by a few percent, and must report a residual outside its bars; from the copy as it is, none.
"""

import argparse
import re
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
SOURCES = ["simulation/run.cpp", "simulation/stepper.cpp", "simulation/rooms.cpp", "simulation/sideways.cpp", "simulation/stack_batch.cpp",
           "simulation/stack_lane.cpp", "simulation/mesh.cpp", "simulation/water_step.cpp", "physics/film.cpp",
           "physics/gap.cpp", "physics/canopy.cpp", "physics/air.cpp"]
DRIVER = "property/mutations/books.cpp"
FLAGS = ["-std=c++20", "-O1", "-w", "-Wno-psabi", "-ffp-contract=off", "-fno-math-errno"]

# (what is spoiled, file below src/simulation, old text that stands there once, new text)
MUTATIONS = [
    ("sun on the leaves", "node_balance.hpp",
     "r[N::foliage] = k.leaves_sun_frac * s.sun_w_per_m2", "r[N::foliage] = L(0.98) * k.leaves_sun_frac * s.sun_w_per_m2"),
    ("long-wave of a bare surface", "node_balance.hpp",
     "ground_longwave = k.surface_emissivity * (arriving - surface_out);",
     "ground_longwave = k.surface_emissivity * (L(0.98) * arriving - surface_out);"),
    ("convection of a net", "node_balance.hpp",
     "L(2.0) * film.value_w_per_m2_k * warmer_k;", "L(1.9) * film.value_w_per_m2_k * warmer_k;"),
    ("vapour from canopy air", "node_balance.hpp",
     "from_ground.value_w_per_m2 - h * (vapour_k - s.air_vapour_k);",
     "from_ground.value_w_per_m2 - L(1.02) * h * (vapour_k - s.air_vapour_k);"),
    ("radiation across a gap, arriving", "node_balance.hpp",
     "arriving_below = s.gap_wall_w_per_m2_k * (gap_c - membrane_c) + radiated;",
     "arriving_below = s.gap_wall_w_per_m2_k * (gap_c - membrane_c) + L(0.95) * radiated;"),
    ("ceiling to the room's surfaces", "node_balance.hpp",
     "out.to_room.convective_w_per_m2 - out.to_room.radiative_w_per_m2;",
     "out.to_room.convective_w_per_m2 - L(0.98) * out.to_room.radiative_w_per_m2;"),
    ("heat that drainage carries", "stack_batch_step.hpp",
     "carried = above - below - taken;", "carried = above - L(0.98) * below - taken;"),
    ("water that roots take up", "stack_lane.cpp",
     "leaf > 0.0 ? leaf * stage[i].uptake_share[j] : 0.0", "leaf > 0.0 ? 0.98 * leaf * stage[i].uptake_share[j] : 0.0"),
    ("what a store passes on", "water_step.cpp",
     "      inflow = outflow;", "      inflow = 0.98 * outflow;"),
    ("ceilings' heat to the room's air", "rooms.cpp",
     "residual_w[3 * place.room] += place.area_m2 * ceilings.reports[k].convective_w_per_m2;",
     "residual_w[3 * place.room] += 0.98 * place.area_m2 * ceilings.reports[k].convective_w_per_m2;"),
]
# Wider lanes give the same bits and take most of the time to build.
NARROW = ("stack_batch.cpp", r"\n    case [24]:\n      return make_with<numerics::Lane<[24]>>\([^;]*;")


def replace_once(path: Path, old: str, new: str) -> None:
    text = path.read_text()
    if text.count(old) != 1:
        raise SystemExit(f"mutate_fluxes: {path.name} holds {text.count(old)} times, not once: {old.strip()}")
    path.write_text(text.replace(old, new))


def includes(path: Path, source: Path, seen: set[Path]) -> set[Path]:
    """All files of the copy that `path` includes, itself too."""
    if path not in seen:
        seen.add(path)
        for name in re.findall(r'^\s*#\s*include\s*"([^"]+)"', path.read_text(), re.MULTILINE):
            for folder in (source, ROOT / "tests"):
                if (folder / name).is_file():
                    includes(folder / name, source, seen)
    return seen


class Copy:
    """A copy of src/ in which single files are changed, with an object for each source."""

    def __init__(self, folder: Path, compiler: str):
        self.folder, self.compiler, self.source = folder, compiler, folder / "src"
        for path in sorted((ROOT / "src").rglob("*.[ch]pp")):
            copied = self.source / path.relative_to(ROOT / "src")
            copied.parent.mkdir(parents=True, exist_ok=True)
            copied.write_text(path.read_text())
        batch = self.source / "simulation" / NARROW[0]
        text, n_cut = re.subn(NARROW[1], "", batch.read_text())
        if n_cut != 2:
            raise SystemExit(f"mutate_fluxes: {NARROW[0]} has {n_cut} wide lanes to leave out, not 2")
        batch.write_text(text)
        self.clean: list[Path] = []
        self.files = [self.source / name for name in SOURCES] + [ROOT / "tests" / DRIVER]

    def object_of(self, path: Path, prefix: str) -> Path:
        made = self.folder / f"{prefix}{path.stem}.o"
        subprocess.run([self.compiler, *FLAGS, f"-I{self.source}", f"-I{ROOT}/tests", "-c", str(path), "-o", str(made)],
                       check=True)
        return made

    def run(self, objects: list[Path]) -> tuple[int, str]:
        program = self.folder / "books"
        subprocess.run([self.compiler, *map(str, objects), "-o", str(program)], check=True)
        done = subprocess.run([str(program)], capture_output=True, text=True, timeout=300, check=False)
        return done.returncode, done.stdout

    def as_it_is(self) -> tuple[int, str]:
        self.clean = [self.object_of(path, "") for path in self.files]
        return self.run(self.clean)

    def spoiled(self, file: str, old: str, new: str) -> tuple[int, str]:
        path = self.source / "simulation" / file
        original = path.read_text()
        replace_once(path, old, new)
        objects = [self.object_of(own, "spoiled_") if path in includes(own, self.source, set()) else clean
                   for own, clean in zip(self.files, self.clean)]
        path.write_text(original)
        return self.run(objects)


def main() -> int:
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--compiler", default="g++")
    compiler = arguments.parse_args().compiler
    n_wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        copy = Copy(Path(folder), compiler)
        code, text = copy.as_it_is()
        print(f"{'as it is':36} {text}", flush=True)
        if code != 0:
            print("the books are open without any spoiled flux", file=sys.stderr)
            return 1
        for what, file, old, new in MUTATIONS:
            code, text = copy.spoiled(file, old, new)
            print(f"{what:36} {text}", flush=True)
            if code != 1:
                n_wrong += 1
                print(f"{what}: " + ("the books still close" if code == 0 else "no result"), file=sys.stderr)
    return 1 if n_wrong else 0


if __name__ == "__main__":
    sys.exit(main())
