"""Writes a plant of invented libraries, always the same for one seed: tools like those of the demo.

    python tests/bench/plant.py FOLDER LIBRARIES [TOOLS [SEED]]

Every library is a folder with the demo's parts; its tools are those of the demo over and over, each
set a little further out or in, or not at all.
"""

import csv
import pathlib
import random
import shutil
import sys

DEMO = pathlib.Path(__file__).parents[2] / "fixtures" / "demo"
# Of a hundred tools so many are set otherwise than in the demo, by at most so many mm.
CHANGED, FURTHEST = 30, 4.0


def rows(name):
    with open(DEMO / name, newline="", encoding="utf-8") as table:
        reader = csv.DictReader(table)
        return reader.fieldnames, list(reader)


def write(path, names, lines):
    with open(path, "w", newline="", encoding="utf-8") as table:
        writer = csv.DictWriter(table, names, lineterminator="\n")
        writer.writeheader()
        writer.writerows(lines)


def library(folder, tools, chance, tables):
    folder.mkdir(parents=True)
    for name in ("cutters.csv", "collets.csv", "nuts.csv", "holders.csv", "stock.csv"):
        shutil.copyfile(DEMO / name, folder / name)
    (names, assemblies), (job_names, operations) = tables
    made, jobs = [], []
    for number in range(1, tools + 1):
        model = assemblies[(number - 1) % len(assemblies)]
        row = dict(model, tool_number=str(number))
        if chance.randrange(100) < CHANGED and row["stick_out"].replace(".", "", 1).isdigit():
            moved = float(row["stick_out"]) + chance.uniform(-FURTHEST, FURTHEST)
            row["stick_out"] = f"{max(moved, 1):.1f}"
        made.append(row)
        own = [job for job in operations if job["tool_number"] == model["tool_number"]]
        jobs += [dict(job, tool_number=str(number)) for job in own]
    write(folder / "assemblies.csv", names, made)
    write(folder / "operations.csv", job_names, jobs)


def main(folder, libraries, tools=250, seed=1):
    folder = pathlib.Path(folder)
    tables = rows("assemblies.csv"), rows("operations.csv")
    for number in range(int(libraries)):
        chance = random.Random(f"{seed} {number}")
        cell = folder / f"hall-{number // 50:02}" / f"cell-{number:04}"
        library(cell, int(tools), chance, tables)


if __name__ == "__main__":
    main(*sys.argv[1:])
