#!/usr/bin/python3
"""Counts the figures of the catalogue by table and by how they are known, for docs/catalogue.md.

Prints the table; with --write puts it into docs/catalogue.md between its two marks. tests/catalogue/docs_test.cpp counts
anew by the program's own reader and fails where the page differs.
"""
import pathlib
import sys
import tomllib

ROOT = pathlib.Path(__file__).resolve().parent.parent
CERTAINTIES = ["by_definition", "text_seen", "recomputed", "from_memory", "estimate", "invented"]
TABLES = ["material", "part", "group", "plant", "raising", "finish", "rivals", "price", "tariff"]
BEGIN, END = "<!-- counts: tools/count_catalogue.py --write -->", "<!-- end of counts -->"


def figures(row):
    """Figures of a row: tables with a likely value."""
    return [value for value in row.values() if isinstance(value, dict) and "likely" in value]


def count():
    rows = {table: 0 for table in TABLES}
    counts = {table: {word: 0 for word in CERTAINTIES} for table in TABLES}
    for path in sorted((ROOT / "catalogue").glob("*.toml")):
        document = tomllib.loads(path.read_text(encoding="utf-8"))
        for table in TABLES:
            entries = document.get(table, [])
            for row in entries if isinstance(entries, list) else [entries]:
                rows[table] += 1
                for figure in figures(row):
                    counts[table][figure["certainty"]] += 1
    return rows, counts


def page_table():
    rows, counts = count()
    lines = ["| table | rows | " + " | ".join(CERTAINTIES) + " | figures |", "| --- |" + " --- |" * (len(CERTAINTIES) + 2)]
    for table in TABLES:
        numbers = [counts[table][word] for word in CERTAINTIES]
        lines.append(f"| {table} | {rows[table]} | " + " | ".join(map(str, numbers)) + f" | {sum(numbers)} |")
    totals = [sum(counts[table][word] for table in TABLES) for word in CERTAINTIES]
    lines.append(f"| all | {sum(rows.values())} | " + " | ".join(map(str, totals)) + f" | {sum(totals)} |")
    return "\n".join(lines)


def main():
    table = page_table()
    if sys.argv[1:] == ["--write"]:
        page = ROOT / "docs" / "catalogue.md"
        text = page.read_text(encoding="utf-8")
        before, rest = text.split(BEGIN)
        after = rest.split(END)[1]
        page.write_text(f"{before}{BEGIN}\n{table}\n{END}{after}", encoding="utf-8")
    elif sys.argv[1:]:
        print("usage: tools/count_catalogue.py [--write]", file=sys.stderr)
        return 2
    else:
        print(table)
    return 0


if __name__ == "__main__":
    sys.exit(main())
