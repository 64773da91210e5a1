#!/usr/bin/env python3
"""Include test: every #include of a file of ours names a file of its own room or of one above it in tests/rooms. And the rule of
one definition: no two headers define a type of the same name in the project's own namespace.

    tests/rooms_test.py [CHECKOUT]

Prints file:line of each offence, of each file that stands in no room, and of each room with too many files.
"""
import pathlib
import re
import sys

MOST_FILES = 45  # in one room

root = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else ".").resolve()
lines = (root / "tests/rooms").read_text().splitlines()
rooms = [line for line in lines if line and not line.startswith("#")]
floor = {room: number for number, room in enumerate(rooms)}


def room_of(path):
    """The innermost room that a path from the root lies in, or None."""
    for folder in pathlib.PurePosixPath(path).parents:
        if str(folder) in floor:
            return str(folder)
    return None


offences = []
defined = {}
OWN_PROGRAMS = {"output/encode_clip"}  # linked with no other room's types
files_of = {room: 0 for room in rooms}
for layer in dict.fromkeys(room.split("/")[0] for room in rooms):
    for file in sorted((root / layer).rglob("*")):
        path = file.relative_to(root).as_posix()
        if file.suffix not in {".h", ".cpp"}:
            continue
        here = room_of(path)
        if here is None:
            offences.append(f"{path}:1: stands in no room of tests/rooms")
            continue
        files_of[here] += 1
        namespace = ""
        for number, line in enumerate(file.read_text().splitlines(), 1):
            opened = re.match(r"namespace (\w+)? ?\{", line)
            if opened:
                namespace = opened[1] or f"{path}"
            type_here = re.match(r"(?:struct|class|enum class) (\w+)(?: final)?(?: : [^;]*)? \{", line)
            if type_here and file.suffix == ".h" and namespace == "rakelight" and here not in OWN_PROGRAMS:
                if type_here[1] in defined:
                    offences.append(f"{path}:{number}: {type_here[1]} is defined in {defined[type_here[1]]} as well")
                defined[type_here[1]] = f"{path}:{number}"
            found = re.match(r'\s*#\s*include\s+"([^"]+)"', line)
            if not found:
                continue
            there = room_of(found[1])
            if there is None or not (root / found[1]).exists():
                offences.append(f"{path}:{number}: {found[1]} is no file of a room, named from the root")
            elif floor[there] > floor[here]:
                offences.append(f"{path}:{number}: {here} may not include {there} ({found[1]})")

for room, count in files_of.items():
    if count > MOST_FILES:
        offences.append(f"{room}: {count} files, more than {MOST_FILES}")
    if count == 0:
        offences.append(f"{room}: no files")

print("\n".join(offences) or f"{sum(files_of.values())} files in {len(rooms)} rooms include only upwards")
sys.exit(bool(offences))
