"""Adds up JUnit reports and prints one closing line; exit 1 unless all ran and passed."""

import sys
from pathlib import Path
from xml.etree import ElementTree


def count(report: Path) -> tuple[int, int, int]:
    """Passed, failed and skipped test cases of one report."""
    passed = failed = skipped = 0
    for case in ElementTree.parse(report).iter("testcase"):
        if case.find("failure") is not None or case.find("error") is not None:
            failed += 1
        elif case.find("skipped") is not None:
            skipped += 1
        else:
            passed += 1
    return passed, failed, skipped


def main(reports: list[Path]) -> int:
    totals = [0, 0, 0]
    complete = True
    for report in reports:
        if not report.exists():
            print(f"{report} was not written: its tests did not run")
            complete = False
            continue
        counts = count(report)
        print(f"{report.stem}: {counts[0]} passed, {counts[1]} failed, {counts[2]} skipped")
        complete = complete and sum(counts) > 0
        totals = [total + part for total, part in zip(totals, counts)]
    print(f"tests: {totals[0]} passed, {totals[1]} failed, {totals[2]} skipped")
    return 0 if complete and totals[1] == 0 and totals[0] > 0 else 1


if __name__ == "__main__":
    sys.exit(main([Path(name) for name in sys.argv[1:]]))
