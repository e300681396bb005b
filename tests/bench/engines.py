"""Twelve plain checks by general table engines, beside the program with all its rules.

    python -m venv v && v/bin/pip install -r tests/bench/requirements.txt
    v/bin/python tests/bench/engines.py target/release/shankwise 100000 1000000

The same generated folder is read by each in one run: 45 columns a row, and a table of collets.
An engine reads the file and counts the rows that violate each check; all must count the same.
The program reads it, judges all its rules and writes JSON. Shown is the best of three runs,
wall time in seconds, on as many cores as each takes by itself.
"""

import os
import random
import subprocess
import sys
import tempfile
import time

import duckdb
import pandas
import pandera.pandas as pandera
import polars

RUNS = 3
COLLETS = [f"c32-{bore}" for bore in (6, 8, 10, 12, 16, 20)]
# A sound tool; lengths in mm, torques in N.m.
ROW = {
    "tool_number": 0, "description": '"end mill, 12"', "machine": "mill-1", "pot": 1, "unit": "mm",
    "cutter_kind": "end mill", "cutter_material": "carbide", "cutting_diameter": 12,
    "corner_radius": 0, "helix_angle": 40, "flute_count": 4, "depth_of_cut_max": 26,
    "chip_flute_length": 32, "shank_diameter": 12, "shank_length": 45, "shank_form": "HA",
    "overall_length": 83, "cutter_speed_max": 12000, "hand": "right", "collet": "c32-12",
    "collet_size": 32, "bore_diameter": 12, "collet bore_diameter_min": 11, "bore_length": 40,
    "collet_length": 40, "collet torque_recommended": 100, "nut_style": "standard",
    "nut_outer_diameter": 50, "face_setback": 0, "nut torque_max": 130, "nut_speed_max": 12000,
    "clamping_kind": "taper collet", "gauge_length": 70, "insertion_depth_max": 70,
    "wrench_torque_max": 150, "holder_speed_max": 15000, "stick_out": 43,
    "protruding_length": 113, "nut_torque": 100, "reach": 35, "clearance": 2, "axial_depth": 5,
    "feed_per_tooth": 0.05, "feed_per_revolution": 0.2, "spindle_speed": 6000,
}
# What one row in a hundred gets instead, for each check in turn.
SLIPS = [
    {"bore_diameter": ""},
    {"stick_out": 60, "protruding_length": 130},
    {"tool_number": 7},
    {"collet": "c40-12"},
    {"stick_out": 75, "protruding_length": 145},
    {"spindle_speed": 12500},
    {"spindle_speed": 15500},
    {"protruding_length": 113.5},
    {"shank_diameter": 0},
    {"chip_flute_length": 90},
    {"unit": "cm"},
    {"feed_per_revolution": 0.25},
]
# The checks, in SQL; the columns that they need are `known`.
CHECKS = {
    "missing bore diameter": "bore_diameter IS NULL",
    "grip below 2/3 of the bore": "overall_length - stick_out - face_setback < bore_length * 2 / 3",
    "tool number twice": "count(*) OVER (PARTITION BY tool_number) > 1",
    "collet not in the table": "collet NOT IN (SELECT collet FROM collets)",
    "stick-out over diameter above 6": "stick_out / cutting_diameter > 6",
    "above the cutter's speed": "spindle_speed > cutter_speed_max",
    "above the holder's speed": "spindle_speed > holder_speed_max",
    "gauge length and stick-out against LPR": "abs(gauge_length + stick_out - protruding_length) > 0.05",
    "shank diameter not positive": "shank_diameter <= 0",
    "flute length above overall length": "chip_flute_length > overall_length",
    "unit not mm or inch": "unit NOT IN ('mm', 'inch')",
    "feed against fz and z by 5 %": "abs(feed_per_revolution - feed_per_tooth * flute_count) > 0.05 * feed_per_tooth * flute_count",
}


def generate(folder, rows):
    """Writes the folder: one row in a hundred has a slip, each of them in turn."""
    random.seed(12)
    with open(os.path.join(folder, "assemblies.csv"), "w", encoding="utf-8") as file:
        file.write(",".join(ROW) + "\n")
        for number in range(1, rows + 1):
            row = dict(ROW, tool_number=number, pot=random.randrange(60))
            if number % 100 == 50:
                row |= SLIPS[number // 100 % len(SLIPS)]
            file.write(",".join(map(str, row.values())) + "\n")
    with open(os.path.join(folder, "collets.csv"), "w", encoding="utf-8") as file:
        file.write("collet,collet_size\n" + "".join(f"{name},32\n" for name in COLLETS))
    return os.path.join(folder, "assemblies.csv")


def by_duckdb(path):
    with duckdb.connect() as base:
        base.execute("CREATE TABLE collets AS SELECT unnest(?) AS collet", [COLLETS])
        counts = ", ".join(f"count(*) FILTER (c{at})" for at in range(len(CHECKS)))
        checks = ", ".join(f"{check} AS c{at}" for at, check in enumerate(CHECKS.values()))
        source = f"read_csv('{path}', header = true)"
        return list(base.execute(f"SELECT {counts} FROM (SELECT {checks} FROM {source})").fetchone())


def by_polars(path):
    c = polars.col
    feed = c("feed_per_tooth") * c("flute_count")
    grip = c("overall_length") - c("stick_out") - c("face_setback")
    checks = [
        c("bore_diameter").is_null(),
        grip < c("bore_length") * 2 / 3,
        c("tool_number").is_duplicated(),
        ~c("collet").is_in(COLLETS),
        c("stick_out") / c("cutting_diameter") > 6,
        c("spindle_speed") > c("cutter_speed_max"),
        c("spindle_speed") > c("holder_speed_max"),
        (c("gauge_length") + c("stick_out") - c("protruding_length")).abs() > 0.05,
        c("shank_diameter") <= 0,
        c("chip_flute_length") > c("overall_length"),
        ~c("unit").is_in(["mm", "inch"]),
        (c("feed_per_revolution") - feed).abs() > 0.05 * feed,
    ]
    counts = [check.sum().alias(name) for name, check in zip(CHECKS, checks)]
    # All of the file tells whether a column is of whole numbers, as for the other engines.
    table = polars.scan_csv(path, infer_schema_length=None).select(counts).collect()
    return list(table.row(0))


def masks(table):
    """The checks as columns of yes and no, for pandas."""
    t = table
    feed = t.feed_per_tooth * t.flute_count
    grip = t.overall_length - t.stick_out - t.face_setback
    return [
        t.bore_diameter.isna(),
        grip < t.bore_length * 2 / 3,
        t.tool_number.duplicated(keep=False),
        ~t.collet.isin(COLLETS),
        t.stick_out / t.cutting_diameter > 6,
        t.spindle_speed > t.cutter_speed_max,
        t.spindle_speed > t.holder_speed_max,
        (t.gauge_length + t.stick_out - t.protruding_length).abs() > 0.05,
        t.shank_diameter <= 0,
        t.chip_flute_length > t.overall_length,
        ~t.unit.isin(["mm", "inch"]),
        (t.feed_per_revolution - feed).abs() > 0.05 * feed,
    ]


def by_pandas(path):
    return [int(mask.sum()) for mask in masks(pandas.read_csv(path))]


def by_pandera(path):
    """Says which rows violate a check, not only how many."""

    def check(at):
        return pandera.Check(lambda table: ~masks(table)[at], name=str(at))

    schema = pandera.DataFrameSchema(checks=[check(at) for at in range(len(CHECKS))])
    table = pandas.read_csv(path)
    try:
        schema.validate(table, lazy=True)
    except pandera.errors.SchemaErrors as found:
        rows = found.failure_cases.drop_duplicates(["check", "index"])
        each = rows.check.astype(str).value_counts()
        return [int(each.get(str(at), 0)) for at in range(len(CHECKS))]
    return [0] * len(CHECKS)


def best(work):
    """The best time of a few runs, and what the last one gave."""
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        result = work()
        times.append(time.perf_counter() - start)
    return min(times), result


def main():
    program, *sizes = sys.argv[1:]
    program = os.path.abspath(program)
    engines = {
        "polars": by_polars, "duckdb": by_duckdb, "pandas": by_pandas, "pandera": by_pandera,
    }
    print(f"{'rows':>9} {'MB':>5} " + "".join(f"{name:>10}" for name in [*engines, "program"]))
    for rows in map(int, sizes or ["100000"]):
        with tempfile.TemporaryDirectory() as folder:
            path = generate(folder, rows)
            counts = None
            line = f"{rows:>9} {os.path.getsize(path) / 1e6:>5.0f} "
            for name, engine in engines.items():
                took, found = best(lambda: engine(path))
                assert counts in (None, found), f"{name} counts {found}, others {counts}"
                counts = found
                line += f"{took:>10.2f}"
            with open(os.devnull, "wb") as away:
                lint = [program, "lint", folder, "--as", "json"]
                took, _ = best(lambda: subprocess.run(lint, stdout=away, check=False))
            print(line + f"{took:>10.2f}")
    print("\nrows that violate each check:")
    for name, count in zip(CHECKS, counts):
        print(f"{count:>9} {name}")


if __name__ == "__main__":
    main()
