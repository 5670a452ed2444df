"""Times the engine beside its peers in one run, and prints ratios.

    python cpp/bench/peers.py build/bench/cpp/bench/levelswap_bench [arguments for that program]

All times are processor time on one core. The run ends with an error if a peer's answers differ from the engine's;
no time is asserted. How to read the table: docs/bench.md.
"""

from __future__ import annotations

import csv
import json
import os
import platform
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import clingo
import numpy

import levelswap as ls

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "tests" / "oracles"))

from brute_force import Model  # noqa: E402
from peers_clingo import Repairer, Repairs, Tables  # noqa: E402
from peers_model import candidates, questions, site_models, site_name, write_files  # noqa: E402
from peers_numpy import NumpyJudge  # noqa: E402
from peers_plain import PlainJudge  # noqa: E402

SITES = 160
MORE = 10  # times as many sites, for what numpy does best
AT_LEAST = 0.5  # seconds of processor time for one figure
Answers = dict[tuple[str, str, str], bool]


@dataclass
class Row:
    what: str
    seconds: float  # of one item
    note: str = ""


def seconds_of(work: Callable[[], object], items: int) -> float:
    """Processor time of one item; repeated until there is enough to be read."""
    work()
    start, rounds = time.process_time(), 0
    while (spent := time.process_time() - start) < AT_LEAST:
        work()
        rounds += 1
    return spent / rounds / items


def run_engine(program: str, folder: Path, arguments: list[str]) -> tuple[dict, list[dict]]:
    """The benchmark program's own report on this machine, and its rows."""
    report = folder / "report.json"
    command = [program, f"--benchmark_out={report}", "--benchmark_out_format=json", "--benchmark_min_time=0.2", *arguments]
    done = subprocess.run(command, env={**os.environ, "LEVELSWAP_PEER_MODEL": str(folder)}, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"error: the benchmark program failed\n{done.stdout}{done.stderr}")
    found = json.loads(report.read_text())
    return found["context"], found["benchmarks"]


def seconds(row: dict) -> float:
    """Of one item where the benchmark counts items, else of one round."""
    if "items_per_second" in row:
        return 1 / row["items_per_second"]
    return row["cpu_time"] * {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1}[row["time_unit"]]


def compiler(program: str) -> str:
    for parent in Path(program).resolve().parents:
        for file in parent.glob("CMakeFiles/*/CMakeCXXCompiler.cmake"):
            known = dict(re.findall(r'set\(CMAKE_CXX_COMPILER_(ID|VERSION) "([^"]*)"\)', file.read_text()))
            return f"{known['ID']} {known['VERSION']}"
    return "an unknown compiler"


# ---- what is compared


def engine_answers(folder: Path) -> Answers:
    """Written by the benchmark program while it judged the model."""
    with (folder / "answers.csv").open() as file:
        return {(site, position, part): fits == "1" for site, position, part, fits in csv.reader(file)}


def plain_answers(judges: list[PlainJudge]) -> Answers:
    return {(site_name(n), q, part): judge.fits({**judge.model.holds, q: part})
            for n, judge in enumerate(judges) for q, part in questions(judge.model)}  # fmt: skip


def numpy_answers(judge: NumpyJudge) -> Answers:
    answers = {}
    for q in judge.first.holds:
        options = candidates(judge.first, q)
        for n, fits in enumerate(judge.rows(q).fits()):
            answers[site_name(n // len(options)), q, options[n % len(options)]] = bool(fits)
    return answers


def must_agree(peer: str, found: object, engine: object) -> None:
    if found != engine:
        sys.exit(f"error: {peer} and the engine answer differently: the times mean nothing")


def as_sets(repairs: tuple[ls.Repair, ...]) -> Repairs:
    found = set()
    for repair in repairs:
        order = sorted(range(len(repair.positions)), key=lambda i: repair.positions[i])
        tuples = frozenset(tuple(t[i] for i in order) for t in repair.tuples)
        found.add((tuple(repair.positions[i] for i in order), tuples))
    return found


# ---- the peers


def verdict_rows(models: list[Model], engine: Answers) -> list[Row]:
    judges = [PlainJudge(m) for m in models]
    must_agree("plain Python", plain_answers(judges), engine)
    many = NumpyJudge(models)
    must_agree("numpy", numpy_answers(many), engine)
    rows = [many.rows(q) for q in models[0].holds]
    at_best, alone = NumpyJudge(models * MORE), NumpyJudge(models[:1])
    best, one = ([judge.rows(q) for q in models[0].holds] for judge in (at_best, alone))
    return [
        Row("plain Python", seconds_of(lambda: plain_answers(judges), len(engine))),
        Row(f"numpy, {MORE * len(models)} sites at once", seconds_of(lambda: [r.fits() for r in best], MORE * len(engine))),
        Row(f"numpy, {len(models)} sites at once", seconds_of(lambda: [r.fits() for r in rows], len(engine))),
        Row("numpy, one site at a time", seconds_of(lambda: [r.fits() for r in one], len(engine) // len(models))),
    ]


def repair_rows(folder: Path, model: Model, swaps: list[tuple[str, str]]) -> tuple[list[Row], int, int]:
    catalog = ls.Catalog.load(str(folder))
    site = ls.Site.load(str(folder / "sites" / f"{site_name(0)}.yaml"), catalog)
    tables = Tables(model)
    repairers = [Repairer(tables, {q: part}) for q, part in swaps]
    sets = tuples = 0
    for (q, part), repairer in zip(swaps, repairers):
        found = as_sets(ls.alternatives(catalog, site, put={q: part}).keep)
        must_agree(f"clingo on {part} at {q}", repairer.repairs(), found)
        sets, tuples = sets + len(found), tuples + sum(len(t) for _, t in found)
    grounded = [r.grounded() for r in repairers]
    for repairer, control in zip(repairers, grounded):
        must_agree("clingo asked again", repairer.minimal_sets(control), repairer.minimal_sets(control))
    rows = [
        Row("clingo", seconds_of(lambda: [r.repairs() for r in repairers], len(swaps)), "grounding, sets, parts of each set"),
        Row("clingo, no grounding", seconds_of(lambda: [Repairer.minimal_sets(c) for c in grounded], len(swaps)), "sets only"),
        Row("the package: alternatives", seconds_of(lambda: [ls.alternatives(catalog, site, put={q: p}) for q, p in swaps], len(swaps)),
            "also releases the new part, and gives reasons"),
        Row("the package: check", seconds_of(lambda: [ls.check(catalog, site, put={q: p}) for q, p in swaps], len(swaps)),
            "one full verdict with its reasons"),
    ]  # fmt: skip
    return rows, sets, tuples


# ---- the table


def shown(value: float) -> str:
    for unit, size in (("s", 1), ("ms", 1e-3), ("us", 1e-6)):
        if value >= size:
            return f"{value / size:.3g} {unit}"
    return f"{value / 1e-9:.3g} ns"


def print_rows(title: str, rows: list[Row], engine: float) -> None:
    print(f"\n{title}")
    print(f"  {'':<68}{'time':>10}{'a second':>12}{'ratio':>10}")
    for row in rows:
        ratio = row.seconds / engine
        print(f"  {row.what:<68}{shown(row.seconds):>10}{1 / row.seconds:>12,.0f}{ratio:>10{',.0f' if ratio >= 100 else '.3g'}}  {row.note}".rstrip())


def print_aims(engine_rows: list[dict], judging: list[Row], engine: float) -> None:
    def line(aim: str, found: str, met: bool, by: str = "") -> None:
        print(f"  {aim:<48}{found:>18}   {'met' if met else 'not met':<8} {by}".rstrip())

    print("\naims")
    quick = [r for r in engine_rows if "fast_verdicts" in r["name"]] or [r for r in engine_rows if "every_candidate" in r["name"]]
    for row in quick:
        per_second = 1 / seconds(row)
        line("500 000 fast verdicts a second on one core", f"{per_second:,.0f} a second", per_second >= 500_000, row["name"])
    plain = next(row for row in judging if row.what == "plain Python").seconds
    line("100 times plain Python", f"{plain / engine:.3g} times", plain / engine >= 100)
    for row in engine_rows:
        if "among_many" in row["name"] and re.search(r"\b10000\b", row["name"]):
            line("alternatives at 10 000 parts under 10 ms", shown(seconds(row)), seconds(row) < 10e-3, row["name"])


def main(program: str, arguments: list[str]) -> None:
    models = site_models(SITES)
    judge = PlainJudge(models[0])
    swaps = [(q, part) for q, part in questions(models[0]) if not judge.fits({**models[0].holds, q: part})]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_files(folder, models, swaps)
        context, rows = run_engine(program, folder, arguments)
        answers = engine_answers(folder)
        judging = verdict_rows(models, answers)
        repairing, sets, tuples = repair_rows(folder, models[0], swaps)
    of_model = [r for r in rows if r["name"].endswith("the_peer_model")]
    repairs = next(r for r in of_model if r["name"].startswith("repair"))
    if (repairs["sets"], repairs["tuples"]) != (sets, tuples):
        sys.exit("error: the search alone and the package find different repairs")
    judged = sorted((Row(f"engine: {r['name']}", seconds(r)) for r in of_model if r is not repairs), key=lambda row: row.seconds)
    engine = judged[0].seconds

    cores, megahertz, load = context["num_cpus"], context["mhz_per_cpu"], context["load_avg"][0]
    print(f"one run, {date.today():%d %B %Y}, on one of {cores} cores at {megahertz} MHz, load {load:.1f}; {compiler(program)},")
    print(f"Python {platform.python_version()}, numpy {numpy.__version__}, clingo {clingo.__version__}; processor time")
    title = f"one verdict: {len(answers)} assemblies of {SITES} sites, {len(models[0].parts)} parts; {sum(answers.values())} fit; all answers equal"
    print_rows(title, judged + judging, engine)
    title = f"all minimal repairs of one swap: {len(swaps)} swaps, {sets} sets, {tuples} tuples of parts; all answers equal"
    print_rows(title, [Row(f"engine: {repairs['name']}", seconds(repairs)), *repairing], seconds(repairs))
    others = [Row(" ".join([r["name"], r.get("label", "")]).strip(), seconds(r)) for r in rows if r not in of_model]
    print_rows("the engine on the demo catalogue; ratios to a verdict above", others, engine)
    print_aims(rows, judging, engine)


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2:])
