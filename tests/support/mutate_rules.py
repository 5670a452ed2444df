"""Does a changed rule get caught? Flips one comparison, constant or corner of the rules at a time.

    python tests/support/mutate_rules.py SCRATCH --sample 25 --seed 1 [--only contacts.cpp]

Copies the sources into the folder SCRATCH, builds `rules_cases_tests` there, then for each mutant changes one place
of cpp/src/rules, builds again and runs the cases. A mutant that no case notices is printed as
"survived", with its line: either a case is missing in tests/cases, or the change means nothing. A mutant that does
not compile counts for neither side. The sources of the project itself are never touched. Takes about half a minute
per mutant, so it is no part of `make test`.
"""

from __future__ import annotations

import argparse
import random
import re
import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
RULES = Path("cpp/src/rules")
NO_RULES = {"rule.cpp", "rule_table.cpp"}
COPIED = ("CMakeLists.txt", "cpp", "tests", "demo_catalog", "catalog_schema")

# What is looked for, and what stands there in the mutant. Spaces keep template brackets out.
FLIPS = (
    (r" >= ", " > "), (r" <= ", " < "), (r" > ", " >= "), (r" < ", " <= "), (r" == ", " != "), (r" != ", " == "),
    (r" && ", " || "), (r" \|\| ", " && "), (r"\bat_least\(", "at_most("), (r"\bat_most\(", "at_least("),
    (r"\bmin\(", "max("), (r"\bmax\(", "min("), (r"\bband_low\b", "band_high"), (r"\bband_high\b", "band_low"),
    (r"quanta\.lo\b", "quanta.hi"), (r"quanta\.hi\b", "quanta.lo"), (r" \+ ", " - "), (r" - ", " + "), (r" \* ", " / "),
    (r"Truth::holds;", "Truth::undecided;"), (r"\? Truth::fails", "? Truth::undecided"),
    (r": Truth::undecided", ": Truth::fails"), (r"return t\.not_applicable\(\)", "(void)0"), (r"!(?=[a-z])", ""),
    (r"(?<![\w.\"])(\d+\.\d+)(?![\w\"])", r"(\1 * 1.07)"), (r"(?<![\w.\"'])([2-9]\d*)(?![\w.\"'])", r"(\1 + 1)"),
)  # fmt: skip
SKIPPED = re.compile(r"^\s*(//|#|template|using|namespace|friend|static_assert|struct|RuleFunctions)|Slot\{|operator")


@dataclass(frozen=True)
class Mutant:
    file: str
    line: int  # counted from 1
    before: str
    after: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}\n    - {self.before.strip()}\n    + {self.after.strip()}"


def mutants_of(name: str, text: str) -> list[Mutant]:
    found = []
    for number, line in enumerate(text.splitlines(), 1):
        code = line.split("//")[0]
        if SKIPPED.search(line):
            continue
        for pattern, flipped in FLIPS:
            for hit in re.finditer(pattern, code):
                quotes = code[: hit.start()].count('"')
                if quotes % 2 == 0:
                    found.append(Mutant(name, number, line, line[: hit.start()] + hit.expand(flipped) + line[hit.end() :]))
    return found


def all_mutants(only: str) -> list[Mutant]:
    root = ROOT / RULES
    files = [f for f in sorted(root.rglob("*.[ch]pp")) if f.name not in NO_RULES]
    return [m for f in files if only in f.name for m in mutants_of(str(f.relative_to(root)), f.read_text())]


def copy_sources(scratch: Path) -> None:
    for name in COPIED:
        source, target = ROOT / name, scratch / name
        if source.is_dir():
            shutil.copytree(source, target, dirs_exist_ok=True, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(source, target)


def run(scratch: Path, *command: str, seconds: int = 1800) -> bool:
    try:
        done = subprocess.run(command, cwd=scratch, capture_output=True, timeout=seconds, check=False)
    except subprocess.TimeoutExpired:
        return False
    return done.returncode == 0


def build(scratch: Path) -> bool:
    return run(scratch, "cmake", "--build", "build/cpp", "--target", "rules_cases_tests")


def cases_pass(scratch: Path) -> bool:
    program = next((scratch / "build" / "cpp").rglob("rules_cases_tests"))
    return run(scratch, str(program), "--gtest_brief=1", seconds=120)


def fate(scratch: Path, mutant: Mutant) -> str:
    path = scratch / RULES / mutant.file
    original = path.read_text()
    lines = original.splitlines(keepends=True)
    lines[mutant.line - 1] = mutant.after + "\n"
    path.write_text("".join(lines))
    try:
        if not build(scratch):
            return "does not compile"
        return "survived" if cases_pass(scratch) else "killed"
    finally:
        path.write_text(original)


def main() -> int:
    ask = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    ask.add_argument("scratch", type=Path)
    ask.add_argument("--sample", type=int, default=25)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--only", default="")
    ask.add_argument("--launcher", default="ccache", help="compiler launcher; empty for none")
    given = ask.parse_args()
    chosen = all_mutants(given.only)
    print(f"{len(chosen)} mutants", flush=True)
    chosen = random.Random(given.seed).sample(chosen, min(given.sample, len(chosen)))
    copy_sources(given.scratch)
    launcher = f"-DCMAKE_CXX_COMPILER_LAUNCHER={given.launcher}"
    if not run(given.scratch, "cmake", "-S", ".", "-B", "build/cpp", "-G", "Ninja", launcher) or not build(given.scratch):
        raise SystemExit("the unchanged sources do not build")
    if not cases_pass(given.scratch):
        raise SystemExit("the unchanged sources do not pass the cases")
    fates = {}
    for mutant in chosen:
        fates[mutant] = fate(given.scratch, mutant)
        print(f"{fates[mutant]}: {mutant}", flush=True)
    for what in ("killed", "survived", "does not compile"):
        print(f"{what}: {sum(f == what for f in fates.values())}")
    return 1 if "survived" in fates.values() else 0


if __name__ == "__main__":
    raise SystemExit(main())
