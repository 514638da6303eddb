#!/usr/bin/python3
"""Puts the rows that the reference tests wrote into docs/validation.md, sorted by id.

usage: merge_validation.py FOLDER_WITH_ROWS PAGE
Fails on no rows, on an id used twice, and on a source that is nothing of: a key of docs/references.bib, a page of docs/,
"recomputed" by other means than this program, a definition, "common practice, no source".
"""

import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
COLUMNS = ["id", "what", "source", "expected", "got", "tolerance", "reason", "function", "place", "within", "sees_1_percent"]

HEAD = """# Validation

Written by `./do test`; do not edit. Each row is one published, exact or independently recomputed value, what this program
computed, and the tolerance with its reason. Keys in brackets are those of [references.bib](references.bib); "from memory"
means that the text was not at hand. The last column says whether the tolerance is narrow enough that an answer wrong by 1 %
(of the expected value, or of the stated size of the quantity) would have been seen.

"""


def sort_key(row: dict) -> list:
    return [int(part) if part.isdigit() else part for part in re.split(r"(\d+)", row["id"])]


def read_rows(folder: Path) -> list[dict]:
    rows = []
    for path in sorted(folder.glob("rows-*.tsv")):
        for line in path.read_text().splitlines():
            cells = line.split("\t")
            if len(cells) != len(COLUMNS):
                sys.exit(f"{path}: a row of {len(cells)} cells instead of {len(COLUMNS)}: {line}")
            rows.append(dict(zip(COLUMNS, cells)))
    return sorted(rows, key=sort_key)


def read_facts(folder: Path) -> list[list[str]]:
    facts = []
    for path in sorted(folder.glob("facts-*.tsv")):
        for line in path.read_text().splitlines():
            cells = line.split("\t")
            if len(cells) != 5:
                sys.exit(f"{path}: a fact of {len(cells)} cells instead of 5: {line}")
            facts.append(cells)
    facts.sort()
    for before, fact in zip(facts, facts[1:]):
        if before[0] == fact[0]:
            sys.exit(f"the fact {fact[0]} is reported twice")
    return facts


def problems_of(rows: list[dict]) -> list[str]:
    keys = set(re.findall(r"^@\w+\{([^,\s]+),", (ROOT / "docs/references.bib").read_text(), re.MULTILINE))
    found = []
    for before, row in zip(rows, rows[1:]):
        if before["id"] == row["id"]:
            found.append(f"{row['id']} is used twice: {before['place']} and {row['place']}")
    for row in rows:
        cited = re.findall(r"\[([a-z]\w*)\]", row["source"])
        pages = re.findall(r"docs/[\w/.-]+\.md", row["source"])
        found += [f"{row['id']} ({row['place']}): [{key}] is not in docs/references.bib" for key in cited if key not in keys]
        found += [f"{row['id']} ({row['place']}): there is no {page}" for page in pages if not (ROOT / page).is_file()]
        if not cited and not pages and not re.search(r"recomputed|definition|common practice, no source", row["source"]):
            found.append(f"{row['id']} ({row['place']}): the source is no [key], no page of docs/, neither recomputed nor a "
                         f"definition, and not 'common practice, no source': {row['source']}")
    return found


def page_of(rows: list[dict], facts: list[list[str]]) -> str:
    def cell(text: str) -> str:
        return text.replace("|", "\\|")

    n_blind = sum(row["sees_1_percent"] == "no" for row in rows)
    n_outside = sum(row["within"] == "no" for row in rows)
    lines = [HEAD + f"{len(rows)} checks, {n_outside} outside their tolerance, {n_blind} too wide to see an error of 1 %.\n",
             "| id | what | source | expected | got | tolerance | reason | function | test | within | sees 1 % |",
             "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |"]
    for row in rows:
        place = row["place"].rsplit(":", 1)[0]  # a line number would change this page with every edit of a test
        cells = [row["id"], row["what"], row["source"], row["expected"], row["got"], row["tolerance"], row["reason"],
                 f"`{row['function']}`", place, row["within"], row["sees_1_percent"]]
        lines.append("| " + " | ".join(cell(text) for text in cells) + " |")
    if facts:
        lines += ["", "## Facts reported whichever way they fall", "",
                  "What is commonly said of such roofs beside what the program gives for a case whose inputs were fixed before it ran. "
                  "Nothing here can fail.", "",
                  "| id | case | commonly | found | agrees |", "| --- | --- | --- | --- | --- |"]
        lines += ["| " + " | ".join(cell(text) for text in fact) + " |" for fact in facts]
    return "\n".join(lines) + "\n"


def main() -> None:
    folder, page = Path(sys.argv[1]), Path(sys.argv[2])
    rows = read_rows(folder)
    if not rows:
        sys.exit(f"no reference test wrote a row into {folder}")
    text = page_of(rows, read_facts(folder))
    if not page.is_file() or page.read_text() != text:
        page.write_text(text)
    problems = problems_of(rows)
    if problems:
        sys.exit("\n".join(problems))
    print(f"{page}: {len(rows)} checks")


if __name__ == "__main__":
    main()
