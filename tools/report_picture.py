#!/usr/bin/python3
"""Draws the picture of README.md from a report page: report_picture.py REPORT.html PICTURE.svg

Two charts of the page side by side and one below, with the page's own style sheet, and the mark that it is invented.
"""

import re
import sys
import xml.etree.ElementTree as ET

PIECES = [("chart-membrane-warm", 20, 78, 420), ("chart-ceiling-warm", 460, 78, 420), ("map-ceiling", 20, 370, 860)]
WIDTH, HEIGHT = 900, 560
WORDS = [
    (20, 30, "heading", "Terrace house (invented): the roof in its warmest days, and its ceiling through the year"),
    (20, 50, "tick", "Left: membrane. Right: ceiling. Bare, under planted modules, and under the plain rivals."),
    (20, 356, "tick", "Below: the ceiling with the modules as laid out, minus bare. Darker: cooler; hatched: warmer."),
]


def light_rules(css: str) -> str:
    """The rules that drawings need, on light paper: pictures elsewhere are not told what the reader prefers."""
    root = re.search(r":root\{color-scheme:[^;]*;([^}]*)\}", css)[1]
    names = dict(re.findall(r"--([\w-]+):(#[0-9a-f]{6});", root))
    without_media = re.sub(r"@media[^{]*\{(?:[^{}]*\{[^}]*\})*\s*\}", "", css)
    rules = re.findall(r"[^{}]+\{[^}]*\}", without_media)
    wanted = r"svg text|svg \.|\.(grid|leader|line|squares|hatch|ramp)\b|\.(ramp|hatch)\d"
    kept = "".join(rule.strip() + "\n" for rule in rules if re.search(wanted, rule.split("{")[0]))
    return re.sub(r"var\(--([\w-]+)\)", lambda match: names[match[1]], kept)


def main(report_path: str, picture_path: str) -> None:
    page = ET.parse(report_path).getroot()
    css = light_rules("".join(style.text or "" for style in page.iter("style")))
    by_id = {element.get("id"): element for element in page.iter() if element.get("id")}
    picture = ET.Element("svg", {"xmlns": "http://www.w3.org/2000/svg", "viewBox": f"0 0 {WIDTH} {HEIGHT}",
                                 "width": str(WIDTH), "height": str(HEIGHT), "role": "img"})
    ET.SubElement(picture, "title").text = WORDS[0][3]
    ET.SubElement(picture, "style").text = "text{font-family:system-ui,sans-serif}\n" + css
    picture.extend(element for element in page.iter("defs"))
    ET.SubElement(picture, "rect", {"width": str(WIDTH), "height": str(HEIGHT), "class": "hatch-paper"})
    for x, y, css_class, words in WORDS:
        ET.SubElement(picture, "text", {"x": str(x), "y": str(y), "class": css_class}).text = words
    for name, x, y, width in PIECES:
        drawing = by_id[name]
        _, _, own_width, own_height = (float(part) for part in drawing.get("viewBox").split())
        piece = ET.SubElement(picture, "svg", {"x": str(x), "y": str(y), "width": str(width),
                                               "height": f"{width * own_height / own_width:.0f}",
                                               "viewBox": drawing.get("viewBox")})
        # Nothing can be pointed at in a picture.
        piece.extend(part for part in drawing if part.get("class") != "hit" and part.tag not in ("title", "desc"))
    ET.ElementTree(picture).write(picture_path, encoding="utf-8")


if __name__ == "__main__":
    main(*sys.argv[1:])
