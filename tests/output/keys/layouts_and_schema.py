#!/usr/bin/env python3
"""Layouts against the schema and against the reader, by a validator that is not ours (python3-jsonschema).

    layouts_and_schema.py RAKELIGHT SCENES SCHEMA

- The schema is one of draft 2020-12, and the file made at build is what the program prints.
- Shipped layouts, and layouts that together use every key of every table, are taken by both.
- Broken layouts are refused by both, or by the reader alone with a reason why a schema cannot see it.

YAML is read as version 1.2 does (yaml.org/spec/1.2.2, chapter 10.3, core schema), which editors take it for.
"""
import json
import pathlib
import re
import subprocess
import sys
import tempfile

import jsonschema
import yaml

from every_key import FILES, LAYOUTS


class Core(yaml.SafeLoader):
    """YAML 1.2: only true and false are booleans, and there are no dates."""


Core.yaml_implicit_resolvers = {}
for tag, pattern, first in [
    ("bool", r"^(?:true|True|TRUE|false|False|FALSE)$", "tTfF"),
    ("int", r"^[-+]?[0-9]+$", "-+0123456789"),
    ("float", r"^[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$", "-+0123456789."),
    ("null", r"^(?:~|null|Null|NULL|)$", ["~", "n", "N", ""]),
]:
    Core.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(pattern), list(first))
Core.add_constructor("tag:yaml.org,2002:int", lambda loader, node: int(node.value))
Core.add_constructor("tag:yaml.org,2002:float", lambda loader, node: float(node.value))


def as_json(value):
    """Keys as texts, as JSON has them."""
    if isinstance(value, dict):
        return {str(key): as_json(each) for key, each in value.items()}
    return [as_json(each) for each in value] if isinstance(value, list) else value


def loaded(text):
    return as_json(yaml.load(text, Loader=Core))


# What the schema and the reader both see: a change of BASE (or of a scene), then what it becomes.
BASE = """
panel: {size: [300, 200], frame: {material: oak, width: 14}}
stock:
  lagoon: {like: deep-teal, thickness: 2}
tints:
  joint: {base: white-cement, pigments: {PB28: 4 %}}
fields:
  - {name: sea, opus: musivum, guides: [[[0, 60], [300, 80]]], piece: [11, 8], joint: 1.4, mix: {lagoon: 60 %, aqua: 40 %}, bed: white, grout: joint}
stones:
  - {material: pumice, at: [60, 40], size: [44, 34, 26], turn: 20, proud: 14}
room: {size: [5000, 6000, 3000], lean: 2 deg}
lamps:
  - {name: spot, at: [-800, 2900, 1100], aim: [0, 1450, 0], lumen: 700, beam angle: 24}
viewpoints:
  - {name: straight, distance: 1500, height: 1500}
pictures:
  - {name: a, viewpoint: straight, size: [120, 90], exposure: grey-card}
board: {test piece: {size: 60}, columns: {grout: [white, sand]}}
glare: {bright ratio: 12}
portfolio: {print: 100, dpi: 60}
take-off: {hand: usual, bag: 5 kg}
zones: {water: 25 %}
hanging: {safety factor: 4}
"""

BOTH = [
    ("panel: {size", "panel: {sise"),
    ("size: [300, 200]", "size: [300]"),
    ("size: [300, 200]", "size: [300, 200 kg]"),
    ("size: [300, 200]", "size: [3, 200]"),
    ("width: 14", "width: wide"),
    ("thickness: 2}", "thickness: 2, kind: glass}"),
    ("{like: deep-teal, thickness: 2}", "{thickness: 2}"),
    ("PB28: 4 %", "PB28: 4 mm"),
    ("white-cement", "white-cemment"),
    ("name: sea, ", ""),
    ("opus: musivum", "opus: musivun"),
    ("guides: [[[0, 60], [300, 80]]]", "guides: [{smoth: [[0, 60], [300, 80]]}]"),
    ("guides: [[[0, 60], [300, 80]]]", "guides: [{smooth: [[0, 60], [300, 80]], straight: [[0, 0], [1, 1]]}]"),
    ("[[0, 60], [300, 80]]", "[[0, 60, 5], [300, 80]]"),
    ("joint: 1.4", "joint: -1.4"),
    ("joint: 1.4", "joint: 1,4"),
    ("joint: 1.4", "joint: 1.4 mn"),
    ("joint: 1.4", "joint: [1.4]"),
    ("piece: [11, 8]", "piece: [11, 8, 6]"),
    ("joint: 1.4", "joint: 1.4, recess: 1, fill: 50 %"),
    ("joint: 1.4", "joint: 1.4, halo: 1.5"),
    ("mix: {lagoon: 60 %, aqua: 40 %}", "mix: [lagoon, aqua]"),
    ("mix: {lagoon: 60 %, aqua: 40 %}", "mix: {shades: [lagoon, aqua], along: 1, across: 1}"),
    ("turn: 20", "turn: 20 mm"),
    ("proud: 14", "prowd: 14"),
    ("lean: 2 deg", "lean: 45"),
    ("lumen: 700", "lumen: 700, candela: 300"),
    ("lumen: 700, ", ""),
    ("lumen: 700", "lumen: 700, form: spott"),
    ("lumen: 700", "lumen: 700, temperature: 3000, illuminant: A"),
    ("lumen: 700", "lumen: 700, honeycomb: {cell: 6}"),
    ("distance: 1500, height: 1500", "distance: 1500, height: 1500, eyes: seated"),
    ("exposure: grey-card", "exposure: grey-card, ev: 7"),
    ("size: [120, 90]", "size: [120, 9]"),
    ("test piece: {size: 60}", "test piece: {size: 60}, around: sea"),
    ("{bright ratio: 12}", "{hto: 12}"),
    ("print: 100", "print: 100 kg"),
    ("hand: usual", "hand: left"),
    ("water: 25 %", "water: 2500"),
    ("hanging: {safety factor: 4}", "hanging: {safety factor: 4}\ngrout: black"),
]

# What the reader alone sees, and why.
ALONE = [
    ("joint: 1.4", "joint: 3 in", "a schema cannot reckon with numbers behind units"),
    ("lean: 2 deg", "lean: 45 deg", "a schema cannot reckon with numbers behind units"),
    ("aqua: 40 %", "aqua: 30 %", "a schema cannot add up shares"),
    ("like: deep-teal", "like: deep-tael", "a schema does not know the stock"),
    ("grout: joint", "grout: jiont", "a schema does not know names of the file"),
    ("viewpoint: straight", "viewpoint: strait", "a schema does not know names of the file"),
    ("at: [60, 40]", "at: [600, 40]", "a schema does not know the panel's size"),
    ("at: [-800, 2900, 1100]", "at: [-800, 3900, 1100]", "a schema does not know the room"),
    ("joint: 1.4", "joint: 1.4, fan: 90", "which opus takes which key is said in words, not by the schema"),
    ("guides: [[[0, 60], [300, 80]]]", "outline: [[0, 0], [300, 200], [300, 0], [0, 200]]",
     "a schema cannot see that an outline crosses itself"),
]


class Check:
    def __init__(self, program, folder):
        self.program, self.folder, self.failures = program, folder, 0
        self.schema = json.loads(self.run("keys", "--schema").stdout)
        jsonschema.Draft202012Validator.check_schema(self.schema)
        self.validator = jsonschema.Draft202012Validator(self.schema)
        self.sections = {s["section"]: s for s in json.loads(self.run("keys", "--json").stdout)["sections"]}
        self.seen = set()

    def run(self, *words):
        return subprocess.run([self.program, *words], cwd=self.folder, capture_output=True, text=True)

    def fail(self, text):
        self.failures += 1
        print("FAIL:", text)

    def by_schema(self, text):
        """What the validator finds, or nothing."""
        error = jsonschema.exceptions.best_match(self.validator.iter_errors(loaded(text)))
        return error and f"{error.json_path}: {error.message[:200]}"

    def taken(self, name, text):
        if found := self.by_schema(text):
            self.fail(f"{name}: the schema refuses it: {found}")
        done = self.run("check", name)
        if done.returncode != 0:
            self.fail(f"{name}: the reader refuses it: {done.stderr.strip()}")
        self.note("layout", loaded(text))

    def refused(self, text, why, reason):
        (self.folder / "broken.yaml").write_text(text)
        done = self.run("check", "broken.yaml")
        if done.returncode != 2 or not re.search(r"broken.yaml:\d+:\d+: .*(found|expected)", done.stderr):
            self.fail(f"{why}: the reader ends with {done.returncode}: {done.stderr.strip()}")
        found = self.by_schema(text)
        if reason and found:
            self.fail(f"{why}: the schema can see it ({found}), though it is said that {reason}")
        if not reason and not found:
            self.fail(f"{why}: the schema takes it; the reader: {done.stderr.strip()}")

    # Which rows of the tables a layout uses.
    def row(self, section, key):
        for row in section["keys"]:
            if row["key"] == key:
                return row
        for row in section["keys"]:
            if row.get("stands_for_names") and (not row["key"][0].islower() or key.startswith("transmittance at ")):
                return row
        return None

    def note(self, name, value):
        section = self.sections[name]
        for key, each in value.items():
            if row := self.row(section, key):
                self.seen.add((name, row["key"]))
                self.note_value(row["takes"], each)

    def note_value(self, takes, value):
        if isinstance(value, list):
            for shape in takes:
                if shape["form"] == "list":
                    inner = shape.get("each") or [{"form": "mapping", "section": shape["section"]}]
                    for each in value:
                        self.note_value(inner, each)
        elif isinstance(value, dict):
            names = [shape["section"] for shape in takes if shape["form"] == "mapping"]
            good = [n for n in names if all(self.row(self.sections[n], key) for key in value)]
            strict = [n for n in good if not self.sections[n]["keys"][0].get("stands_for_names")]
            for n in (strict or good)[:1]:
                self.note(n, value)


def main(program, scenes, schema_file):
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        for name, data in FILES.items():
            (folder / name).write_bytes(data)
        check = Check(program, folder)
        if pathlib.Path(schema_file).read_text() != check.run("keys", "--schema").stdout:
            check.fail(f"{schema_file} is not what the program prints")

        for scene in sorted(pathlib.Path(scenes).glob("*.yaml")):
            check.taken(str(scene), scene.read_text())
        bare = LAYOUTS["laid.yaml"].replace("pieces: pieces.csv\n", "")
        (folder / "bare.yaml").write_text(bare)
        check.run("lay", "bare.yaml", "--into", ".")
        for found in list(folder.rglob("pieces.csv"))[:1]:
            if found.parent != folder:
                found.rename(folder / "pieces.csv")
        for name, text in LAYOUTS.items():
            (folder / name).write_text(text)
            check.taken(name, text)
        for name, section in check.sections.items():
            for row in section["keys"]:
                if (name, row["key"]) not in check.seen:
                    check.fail(f"no layout here uses the key {row['key']} of {name}")

        (folder / "base.yaml").write_text(BASE)
        check.taken("base.yaml", BASE)
        for old, new, *reason in [*BOTH, *ALONE]:
            if BASE.count(old) < 1:
                check.fail(f"the base has no {old}")
            check.refused(BASE.replace(old, new, 1), f"{old} -> {new}", reason and reason[0])
        print(f"{len(BOTH)} layouts refused by both, {len(ALONE)} by the reader alone, "
              f"{len(check.seen)} keys in use, {check.failures} failures")
        return check.failures > 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]).resolve(), sys.argv[2], sys.argv[3]))
