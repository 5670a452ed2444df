"""May this part replace that one here, why not, and what instead?

For boiler water-level controls. The smallest use::

    import levelswap as ls

    catalog = ls.Catalog.load("demo_catalog")
    swap = ls.Swap.load("demo_catalog/swaps/example.yaml")
    site = swap.load_site(catalog)
    verdict = ls.check(catalog, site, put=swap.put)
    verdict.outcome  # Outcome.FITS, Outcome.DOES_NOT_FIT or Outcome.CANNOT_TELL

Texts carry their units: inch and psi for ``units="us"``, mm and bar for ``units="si"``.
Every error that the package raises derives from `Error`.
"""

from ._core import (
    Alternatives,
    BlockedRemedy,
    Catalog,
    DataError,
    Diagnostic,
    Error,
    Finding,
    LevelWalk,
    Outcome,
    Part,
    Question,
    Repair,
    Rule,
    RuledOut,
    Sheet,
    SheetCaution,
    SheetCheck,
    SheetCircuit,
    SheetLevel,
    SheetMounting,
    SheetState,
    SheetStep,
    Site,
    Swap,
    UsageError,
    ValvePoint,
    Verdict,
    WalkEvent,
    __version__,
    alternatives,
    check,
    rules,
    sheet,
    validate,
)

__all__ = [
    "Alternatives",
    "BlockedRemedy",
    "Catalog",
    "DataError",
    "Diagnostic",
    "Error",
    "Finding",
    "LevelWalk",
    "Outcome",
    "Part",
    "Question",
    "Repair",
    "Rule",
    "RuledOut",
    "Sheet",
    "SheetCaution",
    "SheetCheck",
    "SheetCircuit",
    "SheetLevel",
    "SheetMounting",
    "SheetState",
    "SheetStep",
    "Site",
    "Swap",
    "UsageError",
    "ValvePoint",
    "Verdict",
    "WalkEvent",
    "__version__",
    "alternatives",
    "check",
    "rules",
    "sheet",
    "validate",
]
