#!/usr/bin/python3
"""Fails on an include that points the wrong way. ARCHITECTURE.md draws the same table."""

import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

# A folder may include itself and every folder of an earlier line, never a neighbour on its own line.
LEVELS = [
    ["base"],
    ["numerics", "geometry"],
    ["stats"],
    ["physics", "catalogue"],
    ["design", "logbook", "climate", "results"],
    ["plan"],
    ["simulation", "checks", "planting", "money", "buildorder", "workshop", "trials", "upkeep"],
    ["store", "report"],
    ["studies"],
]
# The two exceptions: a trial's fit and the choice of plants run a simulation.
ALSO_ALLOWED = {("trials", "simulation"), ("planting", "simulation")}
LEVEL = {folder: level for level, folders in enumerate(LEVELS) for folder in folders}
INCLUDE = re.compile(r'^\s*#\s*include\s*"([^"]+)"')


def problem_with(folder: str, included: str) -> str:
    """Why a file in src/FOLDER may not include this path, or an empty text."""
    target = included.split("/")[0]
    if "/" not in included or target not in LEVEL:
        return f'"{included}" is not written from src ("folder/file.hpp" with a folder of the table)'
    if folder == target or (folder, target) in ALSO_ALLOWED or LEVEL[target] < LEVEL[folder]:
        return ""
    return f'{folder} may not include {target} ("{included}")'


def check_tree() -> list[str]:
    problems = []
    for path in sorted((ROOT / "src").rglob("*.[ch]pp")):
        place = path.relative_to(ROOT)
        folder = place.parts[1]
        if folder not in LEVEL:
            problems.append(f"{place}: src/{folder} is not in the table of tools/check_layers.py")
            continue
        for number, line in enumerate(path.read_text().splitlines(), start=1):
            match = INCLUDE.match(line)
            if not match:
                continue
            problem = problem_with(folder, match[1])
            if not problem and not (ROOT / "src" / match[1]).is_file():
                problem = f'there is no src/{match[1]}'
            if problem:
                problems.append(f"{place}:{number}: {problem}")
    return problems


def self_test() -> list[str]:
    wrong = [("physics", "design/design.hpp"), ("simulation", "money/outlay.hpp"), ("base", "numerics/lane.hpp"),
             ("climate", "design/design.hpp"), ("simulation", "trials/fit.hpp"), ("plan", "studies/study.hpp"),
             ("physics", "air.hpp"), ("physics", "../base/result.hpp")]
    right = [("physics", "base/contract.hpp"), ("physics", "physics/air.hpp"), ("simulation", "plan/squares.hpp"),
             ("trials", "simulation/year.hpp"), ("studies", "report/table.hpp")]
    return [f"self-test: {pair} should be refused" for pair in wrong if not problem_with(*pair)] + [
        f"self-test: {pair} should be allowed" for pair in right if problem_with(*pair)]


if __name__ == "__main__":
    found = self_test() if sys.argv[1:] == ["--self-test"] else check_tree()
    print("\n".join(found), file=sys.stderr, end="\n" if found else "")
    sys.exit(1 if found else 0)
