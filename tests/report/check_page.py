#!/usr/bin/python3
"""Judges a report page against the JSON document it was made of: check_page.py PAGE.html ANSWER.json

Prints what is wrong, one line each; ends with 1 where anything is.
"""

import json
import re
import sys
import xml.etree.ElementTree as ET

VOID_HREF = re.compile(r"^#[\w-]+$")


def resolve(document, pointer: str):
    node = document
    for part in pointer.split("/")[1:]:
        node = node[int(part)] if isinstance(node, list) else node[part]
    return node


def shown_number(text: str) -> tuple[float, float]:
    """A printed number and half of its last digit."""
    text = text.replace("\u2212", "-")
    mantissa = text.split("e")[0]
    decimals = len(mantissa.split(".")[1]) if "." in mantissa else 0
    power = float("1e" + text.split("e")[1]) if "e" in text else 1.0
    return float(text), 0.5 * 10.0**-decimals * power


def check_figures(root, document, least: int) -> list[str]:
    problems = []
    figures = list(root.iter("data"))
    if len(figures) < least:
        problems.append(f"only {len(figures)} figures on the page")
    for figure in figures:
        pointer = figure.get("data-at")
        text = "".join(figure.itertext())
        try:
            of_document = resolve(document, pointer)
        except (KeyError, IndexError, ValueError, TypeError):
            problems.append(f"{pointer}: the document has no such place")
            continue
        if isinstance(of_document, bool) or not isinstance(of_document, (int, float)):
            problems.append(f"{pointer}: no number in the document")
        elif float(figure.get("value")) != of_document:
            problems.append(f"{pointer}: {figure.get('value')} on the page, {of_document} in the document")
        else:
            scale = 100.0 if figure.get("data-form") == "percent" else 1.0
            shown, half_digit = shown_number(text)
            if abs(shown - scale * of_document) > half_digit * (1.0 + 1e-9):
                problems.append(f"{pointer}: {text} is not {scale * of_document} in short")
    return problems


def check_shape(root) -> list[str]:
    problems = []
    ids = [element.get("id") for element in root.iter() if element.get("id") is not None]
    problems += [f"id {one} is there twice" for one in sorted(set(ids)) if ids.count(one) > 1]
    if len(list(root.iter("h1"))) != 1:
        problems.append("not one h1")
    if root.get("lang") is None:
        problems.append("no language")
    for element in root.iter():
        for key, value in element.attrib.items():
            if key in ("href", "src", "srcset", "data", "action", "poster", "style", "xlink:href") and not (
                key == "href" and VOID_HREF.match(value)
            ):
                problems.append(f'<{element.tag} {key}="{value}">')
            if key.startswith("on"):
                problems.append(f"<{element.tag}> has a script in {key}")
            if re.search(r"url\((?!#)|javascript:", value):
                problems.append(f"<{element.tag} {key}> names an address")
        if element.tag in ("script", "link", "iframe", "object", "embed", "img", "base"):
            problems.append(f"<{element.tag}> is there")
        if element.get("href", "#").startswith("#") and element.get("href", "")[1:] not in ids + [""]:
            problems.append(f"{element.get('href')} leads nowhere")
        for one in element.get("aria-labelledby", "").split():
            if one not in ids:
                problems.append(f"label {one} is missing")
    style = "".join(one.text or "" for one in root.iter("style"))
    if re.search(r"url\((?!#)|@import|https?:", style):
        problems.append("the style sheet names an address")
    return problems


def check_charts(root) -> list[str]:
    problems = []
    figures = [one for one in root.iter("figure") if one.get("class") == "chart"]
    if not figures:
        problems.append("no charts")
    for figure in figures:
        name = figure.get("id")
        drawings = [one for one in figure.iter("svg") if one.get("role") == "img"]
        if not drawings:
            problems.append(f"{name}: no drawing")
        for drawing in drawings:
            for tag in ("title", "desc"):
                words = drawing.find(tag)
                if words is None or not (words.text or "").strip():
                    problems.append(f"{name}: a drawing without <{tag}>")
            if not list(drawing.iter("rect")):
                problems.append(f"{name}: nothing to point at")
        if "nan" in "".join(ET.tostring(one, encoding="unicode") for one in drawings).lower().replace("nance", ""):
            problems.append(f"{name}: a place that is no number")
        tables = [table for details in figure.iter("details") for table in details.iter("table")]
        n_columns = [len(list(row)) for table in tables for row in table.iter("tr")]
        if len(tables) != 1 or len(n_columns) < 2 or len(set(n_columns)) != 1:
            problems.append(f"{name}: no table behind it, or rows of different lengths")
        caption = figure.find("figcaption")
        if caption is None or caption.find("strong") is None:
            problems.append(f"{name}: no words above it")
    return problems


def check_cautions(root, document) -> list[str]:
    page = " ".join("".join(root.itertext()).split())
    expected = [caution["id"] for caution in document["cautions"] if page.count(caution["text"].replace("degC", "\u00b0C")[:25]) < 2]
    return [f"caution {one} does not stand both first and beside its figure" for one in expected]


def check_words(root) -> list[str]:
    body = root.find("body")
    text = "".join(body.itertext())
    return [f"the word {word!r}" for word in re.findall(r"(?i)\b(?:safe|safely|ok|okay|pass|passes|passed)\b", text)]


def main(page_path: str, answer_path: str, kind: str = "whole") -> int:
    with open(answer_path, encoding="utf-8") as file:
        document = json.load(file)
    try:
        root = ET.parse(page_path).getroot()
    except ET.ParseError as error:
        print(f"not well formed: {error}")
        return 1
    problems = check_figures(root, document, 100 if kind == "whole" else 40) + check_shape(root) + check_charts(root) + check_words(root)
    if kind == "whole":  # a page for one trade has only its own cautions
        problems += check_cautions(root, document)
    print("\n".join(problems))
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
