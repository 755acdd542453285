"""What changed since the last edition that was kept: one page for all, and a stretch on each bracket's and unit's page."""

from html import escape

from guidegen.presentation.addresses import CHANGES, relative, unit_address
from guidegen.presentation.changes import ToldChanges
from guidegen.presentation.feeds import NewUnit
from guidegen.presentation.formatting import day
from guidegen.presentation.pages.context import Context, short_description, short_title
from guidegen.presentation.pieces import Link, Section, Since
from guidegen.presentation.sheets import ProseSheet


def changed_sheet(context: Context, told: ToldChanges) -> ProseSheet:
    """The page "What changed": the policy, then every bracket in which anything differs."""
    words, guide = context.words, context.assessment.library.guide
    parts = (("policy", words.say("changes.policy"), told.policy), *((f"watts-{name}", title, one.lines) for name, title, one in told.brackets))
    sections = tuple(Section(id=name, title=title, html=_list(context, lines)) for name, title, lines in parts if lines)
    told_by = (
        words.say("changes.other_home", region=told.region, edition=told.edition, home=told.own_home) if told.own_home
        else words.say("changes.by", region=told.region)
    )
    lead = words.say("changes.lead" if sections else "changes.none", edition=told.edition, printing=str(told.printing), day=day(told.day))
    return ProseSheet(
        kind="prose", address=CHANGES, title=short_title(words.say("changes.heading"), guide.title),
        heading=words.say("changes.heading"), description=short_description(lead),
        breadcrumbs=(Link(text=guide.title, address=""), Link(text=words.say("changes.heading"), address=CHANGES, worded=True)),
        lead=f"<p>{escape(lead)} {escape(told_by)}</p>", sections=sections,
    )


def since_bracket(context: Context, bracket: str) -> Since | None:
    """What changed in a bracket, or nothing."""
    return _since(context, context.changes.of_bracket(bracket) if context.changes else ())


def since_unit(context: Context, unit: str) -> Since | None:
    """What changed about a unit, or nothing."""
    return _since(context, context.changes.of_unit(unit) if context.changes else ())


def new_units(context: Context) -> tuple[NewUnit, ...]:
    """The units that the last edition did not have, for the feeds."""
    if context.changes is None:
        return ()
    found = (context.assessment.library.unit(name) for name in context.changes.new)
    return tuple(NewUnit(name=unit.name, address=unit_address(unit), lines=context.changes.of_unit(unit.id)) for unit in found if unit is not None)


def _since(context: Context, lines: tuple[str, ...]) -> Since | None:
    if context.changes is None or not lines:
        return None
    told = context.changes
    edition, printing = told.edition, str(told.printing)
    title = (
        context.words.say("changes.since_elsewhere", edition=edition, printing=printing, region=told.region, home=told.own_home)
        if told.own_home else context.words.say("changes.since", edition=edition, printing=printing)
    )
    return Since(title=title, lines=lines,
                 more=Link(text=context.words.say("changes.all"), address=CHANGES, worded=True))


def _list(context: Context, lines: tuple[str, ...]) -> str:
    items = "".join(f"<li>{_linked(context, line)}</li>" for line in lines)
    return f"<ul>{items}</ul>"


def _linked(context: Context, line: str) -> str:
    """The sentence as HTML, the unit that it names first as a link where the unit still has its page."""
    named = (unit for unit in context.assessment.library.units if unit.name in line)
    first = min(named, key=lambda unit: (line.index(unit.name), -len(unit.name)), default=None)
    text = escape(line, quote=False)
    if first is None:
        return text
    name = escape(first.name, quote=False)
    return text.replace(name, f'<a href="{relative(CHANGES, unit_address(first))}">{name}</a>', 1)
