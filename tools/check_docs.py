#!/usr/bin/python3
"""Every function declared in src/physics/*.hpp says its equation, units, range and source, and who checks it.

The keys in square brackets must stand in docs/references.bib, the ids after `Checked by:` in the tests.
"""

import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LABELS = ["Equation", "Symbols", "Shape", "Units", "Valid", "Errors", "Source", "Checked by"]
NOT_A_FUNCTION = re.compile(r"^(?:template\s*<[^{;]*>\s*)?(?:enum|struct|class|union|namespace|using|typedef|static_assert|extern|concept)\b")


def declarations(text: str):
    """Yields (line, doc comment, declaration text) for each statement at namespace level."""
    doc: list[str] = []
    statement = ""
    statement_line = 0
    depth = 0  # braces inside a body; those of namespaces are not counted
    for number, line in enumerate(text.splitlines(), start=1):
        stripped = line.strip()
        if depth == 0 and not statement:
            if stripped.startswith("///"):
                doc.append(stripped[3:])
                continue
            if not stripped or stripped.startswith(("//", "#")):
                # An empty line parts a comment from what follows.
                doc = doc if stripped.startswith("//") else []
                continue
        code = re.sub(r'"(?:[^"\\]|\\.)*"', '""', line)
        code = re.sub(r"//.*", "", code)
        for character in code:
            if depth > 0:
                depth += {"{": 1, "}": -1}.get(character, 0)
                if depth == 0 and not re.match(r"\s*[;,]", code[code.rfind("}") + 1:]):
                    yield statement_line, doc, statement.strip()
                    statement, doc = "", []
                continue
            if character == "{":
                if re.match(r"^(?:inline\s+)?namespace\b[\w\s:]*$", statement.strip()):
                    statement, doc = "", []
                else:
                    depth = 1
                continue
            if character == "}":  # end of a namespace
                statement, doc = "", []
                continue
            if character == ";":
                if statement.strip():
                    yield statement_line, doc, statement.strip()
                statement, doc = "", []
                continue
            if not statement.strip():
                statement_line = number
            statement += character
        if statement.strip():
            statement += " "
        else:
            statement = ""


def function_name(statement: str) -> str:
    """The name of the function that a statement declares, or an empty text."""
    plain = re.sub(r"\[\[.*?\]\]", "", " ".join(statement.split())).strip()
    if not plain or NOT_A_FUNCTION.match(plain):
        return ""
    before, bracket, _ = plain.partition("(")
    if not bracket or "=" in before:
        return ""  # a constant with an initialiser
    match = re.search(r"(operator\s*\S+|[A-Za-z_]\w*)\s*$", before)
    return match[1] if match else ""


def problems_of(name: str, doc: list[str], keys: set[str], test_text: str) -> list[str]:
    text = "\n".join(doc)
    found = [f"{name}: no '{label}:' line" for label in LABELS
             if not re.search(rf"(?:^|\s){label}:\s*\S", text, re.MULTILINE)]
    source = re.search(r"Source:(.*?)(?=Checked by:|\Z)", text, re.DOTALL)
    # Elsewhere a word in square brackets may be a unit.
    cited = set(re.findall(r"\[([a-z]+\d+[a-z]?)\]", text)) | set(re.findall(r"\[([a-z]\w*)\]", source[1] if source else ""))
    found += [f"{name}: [{key}] is not in docs/references.bib" for key in sorted(cited - keys)]
    if source:
        pages = re.findall(r"docs/[\w/.-]+\.md", source[1])
        found += [f"{name}: there is no {page}" for page in pages if not (ROOT / page).is_file()]
        if not pages and not re.search(r"\[[a-z]\w*\]|definition|common practice, no source", source[1]):
            found.append(f"{name}: the source is no [key], no page under docs/, no 'definition' "
                         "and not 'common practice, no source'")
    checked = re.search(r"Checked by:(.*?)(?=\n\s*[A-Z][a-z ]+:|\Z)", text, re.DOTALL)
    if checked:
        ids = re.findall(r"[A-Z][A-Z0-9]*(?:-[A-Z0-9]+)*-\d+[a-z]?", checked[1])
        suites = re.findall(r"\b([A-Z]\w+)\.([A-Z]\w+)\b", checked[1])
        if not ids and not suites:
            found.append(f"{name}: 'Checked by:' names no check (AIR-01, or Suite.Name)")
        found += [f"{name}: no test holds the check {check}" for check in ids
                  if not re.search(rf'"{check}[a-z]?[" ]', test_text)]
        found += [f"{name}: there is no test {suite}.{test}" for suite, test in suites
                  if not re.search(rf"TEST(?:_F|_P)?\(\s*{suite}\s*,\s*{test}\s*\)", test_text)]
    return found


def bib_keys() -> set[str]:
    return set(re.findall(r"^@\w+\{([^,\s]+),", (ROOT / "docs/references.bib").read_text(), re.MULTILINE))


def check_tree() -> list[str]:
    keys = bib_keys()
    test_text = "\n".join(path.read_text() for path in sorted((ROOT / "tests").rglob("*.[ch]pp")))
    found = []
    for path in sorted((ROOT / "src/physics").glob("*.hpp")):
        for line, doc, statement in declarations(path.read_text()):
            name = function_name(statement)
            if name:
                found += [f"{path.relative_to(ROOT)}:{line}: {problem}"
                          for problem in problems_of(name, doc, keys, test_text)]
    return found


EXAMPLE = """
// Moist air.
#pragma once
namespace houseleek::physics {
inline constexpr double kelvin_at_zero_c = 273.15;
struct Film {
  double h_w_per_m2_k = 0.0;
  [[nodiscard]] double member() const { return h_w_per_m2_k; }
};
enum class Surface { bare, planted };

/// Saturation vapour pressure over liquid water.
/// Equation: e = a exp(b t / (t + c))
/// Symbols:  a = 610.8 Pa
/// Shape:    scalar in, scalar out.
/// Units:    degC; Pa.
/// Valid:    -60 degC to 100 degC.
/// Errors:   ContractViolation outside.
/// Source:   [allen1998] Eq. 11.   Checked by: AIR-01, AirShape.Rises.
[[nodiscard]] double saturation_vapour_pressure_pa(double temperature_c);

/// Without labels.
template <class Lane>
[[nodiscard]] inline Lane bare_pa(Lane temperature_c) {
  if (temperature_c > 0) { return 1; }
  return {};
}
}  // namespace houseleek::physics
"""


def self_test() -> list[str]:
    found = []
    named = {function_name(statement): doc for _, doc, statement in declarations(EXAMPLE) if function_name(statement)}
    if sorted(named) != ["bare_pa", "saturation_vapour_pressure_pa"]:
        return [f"self-test: found the functions {sorted(named)}"]
    test_text = '.id = "AIR-01"  TEST(AirShape, Rises)'
    good = named["saturation_vapour_pressure_pa"]
    if problems_of("good", good, {"allen1998"}, test_text):
        found.append("self-test: a complete comment is refused")
    if len(problems_of("bare", named["bare_pa"], {"allen1998"}, test_text)) != len(LABELS):
        found.append("self-test: a missing label is not seen")
    if not problems_of("good", good, set(), test_text):
        found.append("self-test: an unknown key is not seen")
    for less in (test_text.replace("AIR-01", "AIR-02"), test_text.replace("Rises", "Falls")):
        if not problems_of("good", good, {"allen1998"}, less):
            found.append("self-test: a check that does not exist is not seen")
    return found


if __name__ == "__main__":
    problems = self_test() if sys.argv[1:] == ["--self-test"] else check_tree()
    print("\n".join(problems), file=sys.stderr, end="\n" if problems else "")
    sys.exit(1 if problems else 0)
