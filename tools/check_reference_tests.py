#!/usr/bin/python3
"""Expected values of reference tests are literals with a source: never something that src/ computed.

Looks at every check_reference({...}) under tests/. An expected value may be a number, arithmetic of numbers, or a name
whose own value is that: a constant, a column of a table in the same file, a parameter that every caller fills so.
A solver judged in tests/reference must also be one that the program uses: its header has to be reachable from src/studies.
"""

import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
NUMBER = r"(?<![\w.])(?:0x[0-9a-fA-F]+|(?:\d[\d']*\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)[fFlLuU]*"
# Words that may stand in an expected value or in the table behind it. Anything else with a bracket behind it is a call.
HARMLESS_CALLS = {"double", "static_cast", "std::string", "std::string_view", "std::vector", "std::array", "std::span",
                  "std::pair", "std::tuple", "string", "sizeof"}
MAX_DEPTH = 12


def strip_comments(text: str) -> str:
    """Comments become blanks of the same length, so that offsets and lines stay."""
    pattern = re.compile(r'"(?:[^"\\\n]|\\.)*"|//[^\n]*|/\*.*?\*/', re.DOTALL)
    return pattern.sub(lambda m: m[0] if m[0][0] == '"' else re.sub(r"[^\n]", " ", m[0]), text)


def closing(text: str, start: int) -> int:
    """Offset of the bracket that closes the one at start."""
    pairs = {"(": ")", "{": "}", "[": "]"}
    stack = []
    position = start
    while position < len(text):
        character = text[position]
        if character == '"':
            position += 1
            while position < len(text) and text[position] != '"':
                position += 2 if text[position] == "\\" else 1
        elif character in pairs:
            stack.append(pairs[character])
        elif stack and character == stack[-1]:
            stack.pop()
            if not stack:
                return position
        position += 1
    return len(text)


def split_arguments(text: str) -> list[str]:
    parts, depth, start, position = [], 0, 0, 0
    while position < len(text):
        character = text[position]
        if character == '"':
            position += 1
            while position < len(text) and text[position] != '"':
                position += 2 if text[position] == "\\" else 1
        elif character in "({[":
            depth += 1
        elif character in ")}]":
            depth -= 1
        elif character == "," and depth == 0:
            parts.append(text[start:position].strip())
            start = position + 1
        position += 1
    parts.append(text[start:].strip())
    return [part for part in parts if part]


FUNCTION = re.compile(r"\b([A-Za-z_]\w*)\s*(?:=\s*\[[^\]]*\]\s*)?\(([^(){};]*)\)\s*(?:const\s*|mutable\s*)?(?:->\s*[\w:<>]+\s*)?\{")
NOT_FUNCTIONS = {"if", "for", "while", "switch", "catch", "TEST", "TEST_F", "TEST_P"}


def enclosing_parameter(text: str, offset: int, name: str):
    """(function, index of the parameter, type, place) if name is a parameter of a function or lambda around offset."""
    best = None
    for match in FUNCTION.finditer(text[:offset]):
        if match[1] in NOT_FUNCTIONS or closing(text, match.end() - 1) < offset:
            continue
        for index, parameter in enumerate(split_arguments(match[2])):
            found = re.match(rf"(.*?)\b{name}\s*(?:\[\])?\s*(?:=.*)?\Z", parameter, re.DOTALL)
            if found:
                best = (match[1], index, found[1], match.start(1))
    return best


def structs(text: str, offset: int) -> dict[str, list[tuple[str, str]]]:
    """Name -> fields in order, each with its default; the last definition before offset where several tests use one name."""
    found = {}
    for match in re.finditer(r"\bstruct\s+([A-Za-z_]\w*)\s*\{", text[:offset]):
        body = text[match.end():closing(text, match.end() - 1)]
        fields = []
        for statement in body.split(";"):
            if "(" in statement.split("=")[0]:
                continue  # a member function
            for declarator in split_arguments(statement.strip()):  # double a, b = 1.0
                field = re.search(r"([A-Za-z_]\w*)\s*(?:\[[^\]]*\])?\s*(?:=\s*(.*)|(\{.*\}))?\Z", declarator, re.DOTALL)
                if field:
                    fields.append((field[1], field[2] or field[3] or "0"))
        found[match[1]] = fields
    return found


def problem_with_column(text: str, offset: int, expression: str, column, rest: list, type_text: str, depth: int) -> str:
    """As problem_with_value for one field (by name, or by position) of every row in an initialiser."""
    expression = expression.strip()
    braces = re.match(r"(?:[\w:]+(?:<[^;{}()]*>)?\s*)?\{", expression)
    if not braces:
        name = re.match(r"([A-Za-z_]\w*)((?:\[[^\]]*\])*)\Z", expression)
        if name:
            return problem_with_name(text, offset, name[1], [column, *rest], depth + 1)
        return problem_with_value(text, offset, expression, depth + 1)
    elements = split_arguments(expression[braces.end():closing(expression, braces.end() - 1)])
    if elements and all(re.match(r"(?:[\w:]+\s*)?\{", element) for element in elements):  # a list of rows
        return next(filter(None, (problem_with_column(text, offset, element, column, rest, type_text, depth + 1)
                                  for element in elements)), "")
    values = []
    if elements and elements[0].startswith("."):
        values = [found[1] for element in elements
                  if (found := re.match(rf"\.{column}\s*=\s*(.*)\Z", element, re.DOTALL))]
    if not values:
        known = structs(text, offset)
        named = [name for name in known if re.search(rf"\b{name}\b", type_text)]
        for fields in [known[name] for name in named or known]:
            names = [field for field, _ in fields]
            if isinstance(column, int) or column in names:
                index = column if isinstance(column, int) else names.index(column)
                is_positional = index < len(elements) and not elements[index].startswith(".")
                values.append(elements[index] if is_positional else fields[index][1] if index < len(fields) else "?")
        if isinstance(column, int) and not values:
            values = elements[column:column + 1]
    if not values:
        return f"no column '{column}' in this file"
    for value in values:
        problem = (problem_with_column(text, offset, value, rest[0], rest[1:], "", depth + 1) if rest
                   else problem_with_value(text, offset, value, depth + 1))
        if problem:
            return problem
    return ""


def problem_with_value(text: str, offset: int, expression: str, depth: int = 0) -> str:
    """Why an expected value is not a literal, or an empty text."""
    if depth > MAX_DEPTH:
        return "its origin is too far away to follow"
    plain = re.sub(r'"(?:[^"\\\n]|\\.)*"', '""', expression)
    for call in re.finditer(r"([A-Za-z_][\w:]*)\s*(?:<[\w\s:,]*>)?\s*\(", plain):
        if call[1] not in HARMLESS_CALLS:
            return f"it calls {call[1]}()"
    plain = re.sub(r"static_cast<[\w:\s]+>|std::\w+(?:<[^;{}()]*>)?|\b(?:double|float|int|true|false|nullptr)\b", " ", plain)
    plain = re.sub(r"\.\s*[A-Za-z_]\w*\s*=(?!=)", " ", plain)  # designators in a table
    plain = re.sub(NUMBER, " ", plain)
    for chain in re.findall(r"[A-Za-z_]\w*(?:(?:\.|->|::)\s*[A-Za-z_]\w*|\[[^\]]*\])*", plain):
        name, *fields = re.findall(r"[A-Za-z_]\w*", re.sub(r"\[[^\]]*\]", "", chain))
        problem = problem_with_name(text, offset, name, fields, depth)
        if problem:
            return f"{chain}: {problem}" if depth == 0 else problem
    return ""


def problem_of(text: str, offset: int, expression: str, fields: list, type_text: str, depth: int) -> str:
    if fields:
        return problem_with_column(text, offset, expression, fields[0], fields[1:], type_text, depth)
    return problem_with_value(text, offset, expression, depth)


def problem_with_name(text: str, offset: int, name: str, fields: list, depth: int) -> str:
    if depth > MAX_DEPTH:
        return "its origin is too far away to follow"
    # What is nearest around the use wins: a loop over rows, a definition, a parameter.
    loops = [loop for loop in re.finditer(rf"\bfor\s*\(([^;:()]*?[\s&\[,]{name}\b[^;:()]*):(?!:)", text[:offset])
             if closing_of_loop(text, loop.start()) > offset]
    parameter = enclosing_parameter(text, offset, name)
    definitions = list(re.finditer(rf"(?<![.\w>]){name}\s*(?:\[[^\]]*\])*\s*(=(?![=])|\{{)", text[:offset]))
    if loops and (not parameter or loops[-1].start() > parameter[3]):
        declared = loops[-1][1]
        bound = re.search(r"\[(.*)\]", declared, re.DOTALL)
        column = [[part.strip() for part in bound[1].split(",")].index(name)] if bound else []
        end = closing(text, text.index("(", loops[-1].start()))
        return problem_of(text, loops[-1].start(), text[loops[-1].end():end], column + fields, declared, depth + 1)
    if parameter and not (definitions and definitions[-1].start() > parameter[3]):
        function, index, type_text, place = parameter
        calls = [m for m in re.finditer(rf"\b{function}\s*\(", text) if m.start() != place]
        if not calls:
            return f"nothing calls {function}()"
        for call in calls:
            arguments = split_arguments(text[call.end():closing(text, call.end() - 1)])
            if index < len(arguments):
                problem = problem_of(text, call.start(), arguments[index], fields, type_text, depth + 1)
                if problem:
                    return f"given to {function}(): {problem}"
        return ""
    if not definitions:
        return "no definition of it with a value in this file"
    found = definitions[-1]
    if found[1] == "{":
        expression = text[found.end() - 1:closing(text, found.end() - 1) + 1]
    else:
        end = found.end()
        while end < len(text) and text[end] not in ";,)":
            if text[end] == '"':
                end = text.index('"', end + 1)
            elif text[end] in "({[":
                end = closing(text, end)
            end += 1
        expression = text[found.end():end]
    before = text[text.rfind(";", 0, found.start()) + 1:found.start()]
    return problem_of(text, found.start(), expression, fields, before, depth + 1)


def closing_of_loop(text: str, start: int) -> int:
    """Where the body of the loop that starts here ends."""
    head = closing(text, text.index("(", start))
    body = re.compile(r"\s*\{").match(text, head + 1)
    if body:
        return closing(text, body.end() - 1)
    end = head
    while end < len(text) and text[end] != ";":
        end = closing(text, end) + 1 if text[end] in "({[" else end + 1
    return end


def problems_in(text: str) -> list[tuple[int, str]]:
    text = strip_comments(text)
    found = []
    for match in re.finditer(r"\bcheck_reference\s*\(\s*(?:[\w:]+\s*)?\{", text):
        line = text.count("\n", 0, match.start()) + 1
        body = text[match.end():closing(text, match.end() - 1)]
        fields = {}
        for part in split_arguments(body):
            field = re.match(r"\.(\w+)\s*=\s*(.*)\Z", part, re.DOTALL)
            if field:
                fields[field[1]] = field[2]
        for name in ("id", "source", "expected", "tolerance", "reason"):
            if name not in fields or fields[name].strip() == '""':
                found.append((line, f"no .{name}"))
        for name in ("expected", "tolerance"):
            if name in fields:
                problem = problem_with_value(text, match.start(), fields[name])
                if problem:
                    found.append((line, f".{name} is not a literal: {problem}"))
    for match in re.finditer(r"\bcheck_reference\s*\(\s*(?!\s*(?:[\w:]+\s*)?\{)", text):
        if not re.match(r"\s*const\s+ReferenceCheck", text[match.end():]):
            found.append((text.count("\n", 0, match.start()) + 1, "write the fields out: check_reference({.id = ...})"))
    return found


def includes(path: Path) -> set[str]:
    return set(re.findall(r'^\s*#\s*include\s*"([^"]+)"', path.read_text(), re.MULTILINE))


def reachable_from(paths: list[Path]) -> set[str]:
    """Headers that these files include, directly or by way of others; a header brings its .cpp along."""
    seen: set[str] = set()
    todo = list(paths)
    while todo:
        for header in includes(todo.pop()) - seen:
            seen.add(header)
            for path in (ROOT / "src" / header, (ROOT / "src" / header).with_suffix(".cpp")):
                if path.is_file():
                    todo.append(path)
    return seen


def check_tree() -> list[str]:
    found = []
    for path in sorted((ROOT / "tests").rglob("*.[ch]pp")):
        place = path.relative_to(ROOT)
        if place.parts[1] in ("support", "support_self"):
            continue
        found += [f"{place}:{line}: {problem}" for line, problem in problems_in(path.read_text())]
    studies = sorted((ROOT / "src/studies").glob("*.cpp"))
    if studies:
        used = reachable_from(studies)
        for path in sorted((ROOT / "tests/reference").glob("*.cpp")):
            for header in sorted(includes(path)):
                if (ROOT / "src" / header).is_file() and header.startswith("simulation/") and header not in used:
                    found.append(f"{path.relative_to(ROOT)}: judges {header}, which the program does not use")
    return found


RIGHT = [
    'check_reference({.id = "A-1", .source = "[x]", .expected = 3.4, .got = f(1), .tolerance = 1e-3, .reason = "r"});',
    'check_reference({.id = "A-1", .source = "[x]", .expected = -(3.4 + 2.0) / 3, .got = f(1), .tolerance = 0.5 * 1e-3, .reason = "r"});',
    """struct Row { double ra_mj; };
    constexpr Row rows[] = {{.ra_mj = 3.4}, {.ra_mj = 4.5}};
    TEST(A, B) { for (const Row& row : rows) {
      check_reference({.id = row.id, .source = "[x]", .expected = row.ra_mj, .got = f(1), .tolerance = 1e-3, .reason = "r"}); } }""",
    """void check(const std::string& id, double expected, double got) {
      check_reference({.id = id, .source = "[x]", .expected = expected, .got = got, .tolerance = 1e-3, .reason = "r"}); }
    TEST(A, B) { check("A-1", 3.4, physics::air(1.0, 2.0)); check("A-2", 3.5, 1); }""",
    """TEST(A, B) { constexpr double expected_c = 33.958; const double got = physics::f(1);
      check_reference({.id = "A", .source = "[x]", .expected = expected_c, .got = got, .tolerance = 1e-3, .reason = "r"}); }""",
]
RIGHT += [
    """struct Row { const char* id; double expected; double got; double tolerance = 1e-3; };
    void check_rows(const std::string& source, std::initializer_list<Row> rows) { for (const Row& row : rows) {
      check_reference({.id = row.id, .source = source, .expected = row.expected, .got = row.got,
                       .tolerance = row.tolerance, .reason = "r"}); } }
    TEST(A, B) { check_rows("[x]", {{"A-1", 3.4, physics::f({1, 2})}, {"A-2", 3.5, physics::f(2), 1e-4}}); }""",
    """struct Place { const char* name; Moment moment; double elevation_deg; };
    constexpr Place places[] = {{"Berlin", {2021, 6}, 59.286}};
    TEST(A, B) { for (const Place& row : places) {
      const auto check = [&](const char* id, double expected, double got) {
        check_reference({.id = id, .source = "[x]", .expected = expected, .got = got, .tolerance = 1e-3, .reason = "r"}); };
      check("A-1", row.elevation_deg, physics::sun(row.moment)); } }""",
    """TEST(A, B) { for (const auto& [kt, expected] : {std::pair{0.1, 0.99}, std::pair{0.2, 0.98}}) {
      check_reference({.id = "A", .source = "[x]", .expected = expected, .got = f(kt), .tolerance = 1e-3, .reason = "r"}); } }""",
]
WRONG = [
    RIGHT[0].replace(".expected = 3.4", ".expected = physics::air(1.0)"),
    RIGHT[0].replace(".expected = 3.4", ".expected = kelvin_from_celsius(3.4)"),
    RIGHT[0].replace(".expected = 3.4", ".expected = unknown"),
    RIGHT[0].replace('.source = "[x]", ', ""),
    RIGHT[0].replace('.reason = "r"', '.reason = ""'),
    RIGHT[0].replace(".tolerance = 1e-3, ", ""),
    RIGHT[0].replace(".tolerance = 1e-3", ".tolerance = std::abs(f(1))"),
    RIGHT[2].replace("{.ra_mj = 4.5}", "{.ra_mj = physics::ra(1)}"),
    RIGHT[3].replace("3.5, 1)", "physics::air(2.0, 1.0), 1)"),
    RIGHT[4].replace("= 33.958", "= physics::f(2)"),
    "check_reference(made_elsewhere);",
    RIGHT[5].replace("3.5, physics", "physics::g(3), physics"),
    RIGHT[5].replace("f(2), 1e-4", "f(2), physics::h(1)"),
    RIGHT[6].replace("59.286", "physics::sun(1)"),
    RIGHT[6].replace("row.elevation_deg, physics", "physics::sun(2), physics"),
    RIGHT[7].replace("0.98", "f(3)"),
]


def self_test() -> list[str]:
    found = [f"self-test: refused: {text}: {problems_in(text)}" for text in RIGHT if problems_in(text)]
    return found + [f"self-test: not refused: {text}" for text in WRONG if not problems_in(text)]


if __name__ == "__main__":
    problems = self_test() if sys.argv[1:] == ["--self-test"] else check_tree()
    print("\n".join(problems), file=sys.stderr, end="\n" if problems else "")
    sys.exit(1 if problems else 0)
