"""
The engine of levelswap: read a catalogue and a site, judge a swap, find what works instead.
"""
from __future__ import annotations
import collections.abc
import enum
import typing
__all__: list[str] = ['Alternatives', 'BlockedRemedy', 'Catalog', 'Certificate', 'DataError', 'Diagnostic', 'Difference', 'Error', 'Finding', 'LevelWalk', 'Outcome', 'Part', 'Question', 'Repair', 'Rule', 'RuledOut', 'Sheet', 'SheetCaution', 'SheetCheck', 'SheetCircuit', 'SheetLevel', 'SheetMounting', 'SheetState', 'SheetStep', 'Shift', 'Site', 'Swap', 'UsageError', 'ValvePoint', 'Verdict', 'WalkEvent', 'Work', 'alternatives', 'check', 'rules', 'sheet', 'validate']
class Diagnostic:
    """
    One problem of an input file. Lines and columns count from 1; line 0 is the file as a whole.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def __str__(self) -> str:
        ...
    @property
    def also(self) -> tuple[str, int, int] | None:
        """
        File, line and column of the other entry when two clash, or None.
        """
    @property
    def code(self) -> str:
        """
        Code of the problem, never reused, for example 'LS-D003'.
        """
    @property
    def column(self) -> int:
        """
        Column of the first character at fault, counted from 1.
        """
    @property
    def excerpt(self) -> str:
        """
        The line of the file that is at fault.
        """
    @property
    def expected(self) -> str:
        """
        What would be right; may be empty.
        """
    @property
    def file(self) -> str:
        """
        The file.
        """
    @property
    def hint(self) -> str:
        """
        What to do; may be empty.
        """
    @property
    def length(self) -> int:
        """
        Number of characters at fault.
        """
    @property
    def line(self) -> int:
        """
        Line, counted from 1; 0 is the file as a whole.
        """
    @property
    def message(self) -> str:
        """
        What was found, with the offending value.
        """
    @property
    def severity(self) -> str:
        """
        'error' or 'warning'.
        """
class Error(Exception):
    """
    Base of every error that levelswap raises.
    """
class DataError(Error, ValueError):
    """
    A catalogue, pack, site or swap file that cannot be used.
    """
    @property
    def diagnostics(self) -> tuple[Diagnostic, ...]:
        """
        Every problem found, each with file, line and column.
        """
class UsageError(Error, ValueError):
    """
    A wrong call: an unknown part id, a position that the site does not have.
    """
class Part:
    """
    A part of the catalogue: its id, kind, facts and outputs.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def about(self) -> str:
        """
        One line about it.
        """
    @property
    def facts(self) -> dict[str, str]:
        """
        Each stated fact by its name, as the file states it, with its unit.
        """
    @property
    def id(self) -> str:
        """
        Its id, in plain words.
        """
    @property
    def kind(self) -> str:
        """
        Its kind, for example 'float_head'.
        """
    @property
    def origins(self) -> dict[str, str]:
        """
        Where each stated fact comes from, by its name.
        """
    @property
    def output_origins(self) -> dict[str, dict[str, str]]:
        """
        Where each stated fact of each output comes from.
        """
    @property
    def outputs(self) -> dict[str, dict[str, str]]:
        """
        The stated facts of each output of a switch set, by the output's name.
        """
class Catalog:
    """
    All parts and rule packs of a catalogue folder.
    """
    @staticmethod
    def load(directory: str) -> Catalog:
        """
        Read a catalogue folder.
        
        Parameters
        ----------
        directory : str
            Folder with ``parts/*.yaml`` and ``packs/*.yaml``.
        
        Returns
        -------
        Catalog
        
        Raises
        ------
        DataError
            With every problem of every file.
        """
    def __contains__(self, id: str) -> bool:
        ...
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getitem__(self, id: str) -> Part:
        """
        The part with this id; raises UsageError when there is none.
        """
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __len__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def _ipython_key_completions_(self) -> list[str]:
        ...
    def part(self, id: str) -> Part:
        """
        Return one part.
        
        Parameters
        ----------
        id : str
            Its id, in plain words.
        
        Returns
        -------
        Part
        
        Raises
        ------
        UsageError
            When there is no such part; names the nearest one.
        """
    @property
    def directory(self) -> str:
        """
        The folder it was read from.
        """
    @property
    def packs(self) -> tuple[str, ...]:
        """
        The names of its rule packs, in order.
        """
    @property
    def parts(self) -> tuple[str, ...]:
        """
        The ids of its parts, in order.
        """
class Site:
    """
    What is installed at one vessel, and what it must do.
    """
    @staticmethod
    def load(path: str, catalog: Catalog) -> Site:
        """
        Read a site file.
        
        Parameters
        ----------
        path : str
            The site file.
        catalog : Catalog
            The catalogue that knows the parts it holds.
        
        Returns
        -------
        Site
        
        Raises
        ------
        DataError
            With every problem of the file.
        """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getitem__(self, position: str) -> str:
        """
        The part at a position now, or 'nothing'.
        """
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def _ipython_key_completions_(self) -> list[str]:
        ...
    @property
    def file(self) -> str:
        """
        The file it was read from.
        """
    @property
    def holds(self) -> dict[str, str]:
        """
        The part at each position now, or 'nothing'.
        """
    @property
    def name(self) -> str:
        """
        Its name.
        """
    @property
    def positions(self) -> tuple[str, ...]:
        """
        The names of its positions.
        """
class Swap:
    """
    What is proposed at a site.
    """
    @staticmethod
    def load(path: str) -> Swap:
        """
        Read a swap file.
        
        Parameters
        ----------
        path : str
            The swap file.
        
        Returns
        -------
        Swap
        
        Raises
        ------
        DataError
            With every problem of the file.
        """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def load_site(self, catalog: Catalog) -> Site:
        """
        Read the site that the swap names, and check the swap against it.
        
        Parameters
        ----------
        catalog : Catalog
            The catalogue that knows the parts.
        
        Returns
        -------
        Site
        
        Raises
        ------
        DataError
            With every problem of the site file; when it has none, with every position, part or kind
            of part in the swap file that is wrong.
        """
    @property
    def about(self) -> str:
        """
        One line on what it shows.
        """
    @property
    def file(self) -> str:
        """
        The file it was read from.
        """
    @property
    def old_may_return(self) -> bool:
        """
        Whether alternatives may use the parts that the swap takes out.
        """
    @property
    def put(self) -> dict[str, str]:
        """
        The proposed part, or 'nothing', by position.
        """
    @property
    def site_file(self) -> str:
        """
        The site file as written, relative to the swap file.
        """
    @property
    def site_path(self) -> str:
        """
        The path of the site file.
        """
class Work:
    """
    What changing one position asks of the works.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def consumables(self) -> tuple[str, ...]:
        """
        What is used up.
        """
    @property
    def cool(self) -> str:
        """
        What to let cool.
        """
    @property
    def drain(self) -> str:
        """
        What to drain.
        """
    @property
    def isolate(self) -> str:
        """
        What to isolate and lock out.
        """
    @property
    def note(self) -> str:
        """
        On firing while the part is off; may be empty.
        """
    @property
    def position(self) -> str:
        """
        The position.
        """
class Repair:
    """
    Positions to change, and the parts that work there.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def more(self) -> int:
        """
        How many more there are beyond those shown.
        """
    @property
    def outage(self) -> str:
        """
        What has to be shut down for it.
        """
    @property
    def positions(self) -> tuple[str, ...]:
        """
        The positions that change.
        """
    @property
    def question(self) -> str:
        """
        The measurement that would settle it; empty when it is known to work.
        """
    @property
    def tuples(self) -> tuple[tuple[str, ...], ...]:
        """
        Part ids for the positions, best first; at most 20.
        """
    @property
    def work(self) -> tuple[Work, ...]:
        """
        What each of its changes, and of the swap's, asks of the works.
        """
class BlockedRemedy:
    """
    A part that would cure the fault but cannot go in.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def cures(self) -> str:
        """
        What it would cure.
        """
    @property
    def part(self) -> str:
        """
        The part id.
        """
    @property
    def position(self) -> str:
        """
        Where it would go.
        """
    @property
    def reason(self) -> str:
        """
        Why it does not work here.
        """
class RuledOut:
    """
    How the candidates of a position were ruled out.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def nearest_miss(self) -> str:
        """
        The candidate that came nearest.
        """
    @property
    def position(self) -> str:
        """
        The position.
        """
    @property
    def removed_by(self) -> tuple[tuple[str, int], ...]:
        """
        Rule ids with how many candidates each removed.
        """
class Alternatives:
    """
    What works instead, and why the rest does not.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def to_json(self) -> str:
        """
        Return a JSON document that ``catalog_schema/v1/answer.schema.json`` describes.
        """
    def to_text(self) -> str:
        """
        Return the text that the command line shows.
        """
    @property
    def blocked(self) -> tuple[BlockedRemedy, ...]:
        """
        Parts that would cure the fault but cannot go in.
        """
    @property
    def checks(self) -> int:
        """
        How many combinations were judged.
        """
    @property
    def complete_up_to(self) -> int:
        """
        Every repair of up to this many changes is listed.
        """
    @property
    def fits_as_it_was(self) -> bool:
        """
        Whether it fits as it was before the swap; what is taken out is a repair only where it may return.
        """
    @property
    def keep(self) -> tuple[Repair, ...]:
        """
        Repairs that keep the proposed parts.
        """
    @property
    def keep_blockers(self) -> tuple[tuple[str, ...], ...]:
        """
        Smallest sets of positions that bar every repair that keeps the proposed parts while they stay as they are; empty unless the search went to full depth.
        """
    @property
    def keep_searched(self) -> bool:
        """
        Whether repairs that keep the proposed parts were looked for.
        """
    @property
    def needed(self) -> bool:
        """
        Whether a repair is needed: not when the swap fits, or does once the site work is done.
        """
    @property
    def release(self) -> tuple[Repair, ...]:
        """
        Repairs that give up the proposed parts.
        """
    @property
    def release_blockers(self) -> tuple[tuple[str, ...], ...]:
        """
        The same when every part may be given up.
        """
    @property
    def release_searched(self) -> bool:
        """
        Whether repairs that give up the proposed parts were looked for.
        """
    @property
    def ruled_out(self) -> tuple[RuledOut, ...]:
        """
        By position, what removed the candidates.
        """
    @property
    def undecided(self) -> tuple[Repair, ...]:
        """
        Repairs that hang on an open question.
        """
class Outcome(enum.Enum):
    """
    What is known of a swap.
    """
    CANNOT_TELL = 2
    DOES_NOT_FIT = 1
    FITS = 0
class Finding:
    """
    One comparison that decides something, with its numbers.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def available(self) -> str:
        """
        What there is, with its unit.
        """
    @property
    def before(self) -> bool:
        """
        Whether it was already so before the swap.
        """
    @property
    def facts(self) -> tuple[str, ...]:
        """
        The facts it rests on, each with its origin.
        """
    @property
    def level(self) -> str:
        """
        How strongly the rule binds.
        """
    @property
    def margin(self) -> str:
        """
        What is to spare, with its unit; negative when short.
        """
    @property
    def notes(self) -> tuple[str, ...]:
        """
        What was worked out on the way.
        """
    @property
    def positions(self) -> tuple[str, ...]:
        """
        The positions it concerns.
        """
    @property
    def quantity(self) -> str:
        """
        The quantity that is compared.
        """
    @property
    def required(self) -> str:
        """
        What is required, with its unit.
        """
    @property
    def rule(self) -> str:
        """
        Id of the rule.
        """
    @property
    def source(self) -> str:
        """
        Where the requirement comes from.
        """
    @property
    def state(self) -> str:
        """
        'fails', 'undecided' or 'holds'.
        """
    @property
    def subject(self) -> str:
        """
        What is judged.
        """
    @property
    def title(self) -> str:
        """
        What the rule is about.
        """
    @property
    def used(self) -> tuple[str, ...]:
        """
        Further facts behind the figures; the rule fails whatever each of them is.
        """
    @property
    def why(self) -> str:
        """
        One sentence on why it matters.
        """
class Question:
    """
    A measurement that would settle an open rule.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def fact(self) -> str:
        """
        What to find out.
        """
    @property
    def how(self) -> str:
        """
        Who can find it out, and how.
        """
    @property
    def rule(self) -> str:
        """
        Id of the rule that is open.
        """
    @property
    def subject(self) -> str:
        """
        Where the rule stands, as in a finding.
        """
    @property
    def threshold(self) -> str:
        """
        The value that settles it, with its unit.
        """
class Shift:
    """
    How cooler water in an outside column shifts an output.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def condition(self) -> str:
        """
        What is assumed of the water in the column.
        """
    @property
    def direction(self) -> str:
        """
        What that means, and on which side it lies.
        """
    @property
    def level(self) -> str:
        """
        Where it acts in the column, above the water connection.
        """
    @property
    def output(self) -> str:
        """
        The function and its output.
        """
    @property
    def shift(self) -> str:
        """
        How much higher the boiler's water then stands, with unit.
        """
class Certificate:
    """
    What something simpler can check the outcome by.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def facts(self) -> tuple[tuple[str, str], ...]:
        """
        Pairs of an open fact and its value in that world, with unit.
        """
    @property
    def kind(self) -> str:
        """
        "setting sheet" of a fit, "conflict" of a refusal, "world" of a "cannot tell", or "none".
        """
    @property
    def rules(self) -> tuple[str, ...]:
        """
        Rules that fail, alone or together.
        """
    @property
    def settings(self) -> tuple[tuple[str, str], ...]:
        """
        Pairs of setting and one value of its window, with unit.
        """
    @property
    def wiring(self) -> tuple[tuple[str, str], ...]:
        """
        Pairs of duty and the position and output that performs it.
        """
class Difference:
    """
    What a function does otherwise after the swap.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def after(self) -> str:
        """
        How it will be, with unit.
        """
    @property
    def before(self) -> str:
        """
        How it was, with unit.
        """
    @property
    def function(self) -> str:
        """
        The function.
        """
    @property
    def moved(self) -> str:
        """
        By how much, with unit; empty when it is no number.
        """
    @property
    def what(self) -> str:
        """
        What differs.
        """
class Verdict:
    """
    The judgement of a swap, with everything that carries it.
    """
    def __bool__(self) -> bool:
        ...
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def __str__(self) -> str:
        ...
    def _repr_html_(self) -> str:
        ...
    def to_json(self, alternatives: Alternatives | None = None) -> str:
        """
        Return a JSON document that ``catalog_schema/v1/answer.schema.json`` describes.
        """
    def to_text(self, alternatives: Alternatives | None = None) -> str:
        """
        Return the text that the command line shows, with the alternatives if given.
        """
    @property
    def answer(self) -> str:
        """
        The answer in one line.
        """
    @property
    def ask_always(self) -> tuple[str, ...]:
        """
        Questions that belong to every replacement.
        """
    @property
    def assumptions(self) -> tuple[str, ...]:
        """
        What that outcome assumes.
        """
    @property
    def before(self) -> Outcome:
        """
        The outcome for what is installed now.
        """
    @property
    def cautions(self) -> tuple[str, ...]:
        """
        What to heed before work starts.
        """
    @property
    def certificate(self) -> Certificate:
        """
        What something simpler can check the outcome by.
        """
    @property
    def changes(self) -> tuple[str, ...]:
        """
        What changes, by position.
        """
    @property
    def differences(self) -> tuple[Difference, ...]:
        """
        What each function does otherwise afterwards, also where both are allowed.
        """
    @property
    def findings(self) -> tuple[Finding, ...]:
        """
        What fails, then what is open; the one nearest to the change first.
        """
    @property
    def if_assumed(self) -> Outcome | None:
        """
        The outcome under the assumptions, or None.
        """
    @property
    def once_measured(self) -> bool:
        """
        Whether every world has settings that do, though no one setting is right in all of them.
        """
    @property
    def once_site_work_is_done(self) -> Outcome | None:
        """
        The outcome once those faults are cured, or None.
        """
    @property
    def outcome(self) -> Outcome:
        """
        Fits, does not fit, or cannot tell.
        """
    @property
    def packs(self) -> tuple[str, ...]:
        """
        The rule packs that apply.
        """
    @property
    def proved(self) -> bool:
        """
        Whether the outcome is proved for every case it covers.
        """
    @property
    def questions(self) -> tuple[Question, ...]:
        """
        Measurements that would settle what is open.
        """
    @property
    def reason(self) -> str:
        """
        The reason in one sentence.
        """
    @property
    def remarks(self) -> tuple[str, ...]:
        """
        Remarks.
        """
    @property
    def settings(self) -> tuple[tuple[str, str], ...]:
        """
        Pairs of setting and its window, with unit.
        """
    @property
    def shifts(self) -> tuple[Shift, ...]:
        """
        How cooler water in an outside column shifts each output; reported, never judged.
        """
    @property
    def site_work(self) -> tuple[Finding, ...]:
        """
        Faults before the swap that touch no changed position.
        """
    @property
    def wiring(self) -> tuple[tuple[str, str], ...]:
        """
        Pairs of duty and the output that performs it.
        """
    @property
    def work(self) -> tuple[Work, ...]:
        """
        What each change asks of the works.
        """
    @property
    def works(self) -> tuple[str, ...]:
        """
        What still works.
        """
class Rule:
    """
    One row of the table of rules.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def family(self) -> str:
        """
        The family it belongs to.
        """
    @property
    def figure(self) -> str:
        """
        The figure of a rule pack that it uses; may be empty.
        """
    @property
    def id(self) -> str:
        """
        Its id, for example 'travel.slide_wire'.
        """
    @property
    def level(self) -> str:
        """
        How strongly it binds.
        """
    @property
    def protects(self) -> str:
        """
        What it protects against.
        """
    @property
    def reads(self) -> tuple[str, ...]:
        """
        The facts it reads.
        """
    @property
    def source(self) -> str:
        """
        Where it comes from.
        """
    @property
    def title(self) -> str:
        """
        What it is about.
        """
class WalkEvent:
    """
    Something that happens as the water falls, while it is low, or as it rises.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def duty(self) -> str:
        """
        The duty that is performed, 'primary_cut_off' for example.
        """
    @property
    def effect(self) -> str:
        """
        What follows for burner, pump or alarm.
        """
    @property
    def event(self) -> str:
        """
        What happens.
        """
    @property
    def highest(self) -> float:
        """
        Highest level over all tolerances, m.
        """
    @property
    def in_glass(self) -> str:
        """
        Whether the glass shows it: 'yes', 'no', 'perhaps', 'unknown' or 'no glass'.
        """
    @property
    def level(self) -> str:
        """
        Level above the vessel datum, with unit: most likely, then the range.
        """
    @property
    def lowest(self) -> float:
        """
        Lowest level over all tolerances, m.
        """
    @property
    def nominal(self) -> float:
        """
        Most likely level, m above the vessel datum.
        """
    @property
    def phase(self) -> str:
        """
        'working', 'falling', 'low' or 'rising'.
        """
class ValvePoint:
    """
    How far the feed valve is open at a level.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def level(self) -> str:
        """
        Level above the vessel datum, with unit.
        """
    @property
    def opening(self) -> str:
        """
        Opening of the valve, in percent.
        """
class LevelWalk:
    """
    An assembly taken through a fall and a rise of the water.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def events(self) -> tuple[WalkEvent, ...]:
        """
        The events, in the order in which they happen.
        """
    @property
    def faults(self) -> tuple[str, ...]:
        """
        What goes wrong on the way, in plain words.
        """
    @property
    def glass(self) -> str:
        """
        What the gauge glass shows, with unit; empty when not known.
        """
    @property
    def valve(self) -> tuple[ValvePoint, ...]:
        """
        The feed valve against the level; empty without a slide-wire.
        """
    @property
    def valve_band(self) -> str:
        """
        What the slide-wire reaches, in words.
        """
class SheetLevel:
    """
    Where one output acts, above the vessel datum.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def duty(self) -> str:
        """
        What the output does.
        """
    @property
    def falling(self) -> str:
        """
        Level as the water falls, with unit: most likely, then the range.
        """
    @property
    def in_glass(self) -> str:
        """
        Whether the glass shows the falling level.
        """
    @property
    def old_falling(self) -> str:
        """
        Falling level of the output that performs the duty now.
        """
    @property
    def old_rising(self) -> str:
        """
        Rising level of the output that performs the duty now.
        """
    @property
    def output(self) -> str:
        """
        The output, by position.
        """
    @property
    def part(self) -> str:
        """
        Id of the part that has it.
        """
    @property
    def rising(self) -> str:
        """
        Level as the water rises.
        """
class SheetMounting:
    """
    The mounting of one column.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def action(self) -> str:
        """
        What is to be done.
        """
    @property
    def now(self) -> str:
        """
        Elevation of its face centre now, with unit.
        """
    @property
    def station(self) -> str:
        """
        Name of the station.
        """
    @property
    def window(self) -> str:
        """
        Where it may stand whatever the tolerances do; empty without a choice.
        """
class SheetCircuit:
    """
    One output in its circuit, from the contact to the load.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def circuit(self) -> str:
        """
        Name of the circuit.
        """
    @property
    def contact(self) -> str:
        """
        What the contact does as the water falls.
        """
    @property
    def duty(self) -> str:
        """
        What the output does.
        """
    @property
    def load(self) -> str:
        """
        What hangs on the contact, with units.
        """
    @property
    def output(self) -> str:
        """
        The output, by position.
        """
    @property
    def protection(self) -> str:
        """
        What protects the load.
        """
    @property
    def rating(self) -> str:
        """
        What the contact is rated for, with units.
        """
    @property
    def supply(self) -> str:
        """
        Its supply, with units.
        """
    @property
    def terminals(self) -> str:
        """
        Terminals, to be filled in; empty for what has no wires.
        """
class SheetState:
    """
    What an output is in each state.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def after_power_loss(self) -> str:
        """
        What a power failure does to a lockout.
        """
    @property
    def dry(self) -> str:
        """
        With the water gone.
        """
    @property
    def duty(self) -> str:
        """
        What the output does.
        """
    @property
    def float_stuck(self) -> str:
        """
        With the float stuck.
        """
    @property
    def float_sunk(self) -> str:
        """
        With the float sunk.
        """
    @property
    def held_reset(self) -> str:
        """
        What a held reset button does while the water is low.
        """
    @property
    def reset(self) -> str:
        """
        'automatic' or 'manual'.
        """
    @property
    def unpowered(self) -> str:
        """
        Without its supply.
        """
    @property
    def wet(self) -> str:
        """
        With the water up.
        """
    @property
    def wire_open(self) -> str:
        """
        With a broken wire.
        """
    @property
    def wire_shorted(self) -> str:
        """
        With a shorted wire.
        """
class SheetCheck:
    """
    Something to look at while proving.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def blank(self) -> str:
        """
        What is written down by hand: 'level', 'count', 'reading', 'reason', 'name', 'date'.
        """
    @property
    def expected(self) -> str:
        """
        What must be seen; empty when the text says it.
        """
    @property
    def text(self) -> str:
        """
        What is done and looked at.
        """
class SheetStep:
    """
    A step of the proving test.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def checks(self) -> tuple[SheetCheck, ...]:
        """
        Its checks, in order.
        """
    @property
    def number(self) -> int:
        """
        Number of the step.
        """
    @property
    def title(self) -> str:
        """
        Title of the step.
        """
class SheetCaution:
    """
    What to heed in one kind of work.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    @property
    def text(self) -> str:
        """
        The caution.
        """
    @property
    def work(self) -> str:
        """
        Kind of work.
        """
class Sheet:
    """
    How a swap that fits is set up and proved; for any other, what is wrong or missing.
    """
    def __eq__(self, other: typing.Any) -> bool:
        ...
    def __getstate__(self) -> tuple[typing.Any, ...]:
        ...
    def __hash__(self) -> int:
        ...
    def __repr__(self) -> str:
        ...
    def __setstate__(self, arg0: tuple[typing.Any, ...]) -> None:
        ...
    def __str__(self) -> str:
        ...
    def _repr_html_(self) -> str:
        ...
    def html(self) -> str:
        """
        Return the sheet as one HTML page that stands alone and prints in black and white.
        """
    def text(self) -> str:
        """
        Return the sheet as text of at most 80 columns.
        """
    @property
    def abort_rule(self) -> str:
        """
        When the test is over.
        """
    @property
    def adjustments(self) -> tuple[str, ...]:
        """
        What else is set or cut: pressures, signals, delays, rods.
        """
    @property
    def answer(self) -> str:
        """
        The answer in one line.
        """
    @property
    def cautions(self) -> tuple[SheetCaution, ...]:
        """
        Cautions by kind of work.
        """
    @property
    def changes(self) -> tuple[str, ...]:
        """
        What changes, by position.
        """
    @property
    def consumables(self) -> tuple[str, ...]:
        """
        What the work uses up, by position.
        """
    @property
    def datum(self) -> str:
        """
        What levels are measured from.
        """
    @property
    def differences(self) -> tuple[str, ...]:
        """
        What acts otherwise than before.
        """
    @property
    def fixed(self) -> tuple[str, ...]:
        """
        What its maker has set.
        """
    @property
    def json(self) -> str:
        """
        The JSON document that ``catalog_schema/v1/sheet.schema.json`` describes.
        """
    @property
    def levels(self) -> tuple[SheetLevel, ...]:
        """
        Where each output acts.
        """
    @property
    def mountings(self) -> tuple[SheetMounting, ...]:
        """
        The mounting of each column.
        """
    @property
    def outcome(self) -> Outcome:
        """
        Fits, does not fit, or cannot tell.
        """
    @property
    def packs(self) -> tuple[str, ...]:
        """
        The rule packs that apply, with their editions.
        """
    @property
    def questions(self) -> tuple[Question, ...]:
        """
        Measurements that would settle what is open.
        """
    @property
    def reason(self) -> str:
        """
        The reason in one sentence; empty when it fits.
        """
    @property
    def site(self) -> str:
        """
        Name of the site.
        """
    @property
    def states(self) -> tuple[SheetState, ...]:
        """
        What each output is in each state.
        """
    @property
    def steps(self) -> tuple[SheetStep, ...]:
        """
        The proving test; empty unless it fits.
        """
    @property
    def walk(self) -> LevelWalk:
        """
        The assembly taken through a fall and a rise of the water.
        """
    @property
    def wiring(self) -> tuple[SheetCircuit, ...]:
        """
        Each output in its circuit.
        """
    @property
    def wrong(self) -> tuple[str, ...]:
        """
        What fails or is open, with the numbers.
        """
def alternatives(catalog: Catalog, site: Site, *, put: collections.abc.Mapping[str, str], max_changes: typing.SupportsInt | typing.SupportsIndex = 3, old_may_return: bool = False, units: str = 'us', which: str = 'both') -> Alternatives:
    """
    Find all minimal repairs of a swap.
    
    Parameters
    ----------
    catalog : Catalog
        The parts to choose from.
    site : Site
        Read against the same catalogue.
    put : mapping of str to str
        The proposed part id, or 'nothing', by position.
    max_changes : int
        At most so many positions change in one repair.
    old_may_return : bool
        Whether parts that the swap takes out may be used again.
    units : {'us', 'si'}
        Units of the numbers in the texts: inch and psi, or mm and bar.
    which : {'both', 'keep', 'release'}
        Look for repairs that keep the proposed parts, that give one up, or both.
    
    Returns
    -------
    Alternatives
    
    Raises
    ------
    UsageError
        For an unknown position or part, or a part of the wrong kind; names the nearest.
    """
def check(catalog: Catalog, site: Site, *, put: collections.abc.Mapping[str, str], units: str = 'us') -> Verdict:
    """
    Judge a swap.
    
    Parameters
    ----------
    catalog : Catalog
        The parts.
    site : Site
        Read against the same catalogue.
    put : mapping of str to str
        The proposed part id, or 'nothing', by position.
    units : {'us', 'si'}
        Units of the numbers in the texts: inch and psi, or mm and bar.
    
    Returns
    -------
    Verdict
        A swap that does not fit is a result, not an error.
    
    Raises
    ------
    UsageError
        For an unknown position or part, or a part of the wrong kind; names the nearest.
    """
def rules() -> tuple[Rule, ...]:
    """
    Return the table of rules.
    
    Returns
    -------
    tuple of Rule
    """
def sheet(catalog: Catalog, site: Site, *, put: collections.abc.Mapping[str, str], units: str = 'us') -> Sheet:
    """
    Make the setting and proving sheet of a swap.
    
    Parameters
    ----------
    catalog : Catalog
        The parts.
    site : Site
        Read against the same catalogue.
    put : mapping of str to str
        The proposed part id, or 'nothing', by position.
    units : {'us', 'si'}
        Units of the numbers in the texts: inch and psi, or mm and bar.
    
    Returns
    -------
    Sheet
        Without settings and steps unless the swap fits.
    
    Raises
    ------
    UsageError
        For an unknown position or part, or a part of the wrong kind; names the nearest.
    """
def validate(path: str, catalog: Catalog | None = None) -> tuple[Diagnostic, ...]:
    """
    Find every problem of the files below a path.
    
    Parameters
    ----------
    path : str
        A catalogue folder, or one site, swap, pack or parts file.
    catalog : Catalog, optional
        The parts that a site may hold, when `path` has none.
    
    Returns
    -------
    tuple of Diagnostic
        Empty when the files are sound.
    """
__version__: str = '0.1.0'
