"""Addresses that were published once: each must lead somewhere for ever, and none may ever lead to something else."""

from collections.abc import Collection, Iterator

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin
from guidegen.presentation.addresses import LOST, bench_beside
from guidegen.records import PAGE, SITE, FrozenEdition, GuideRecord, Library

RULE = "permanence"
"""Rule of these faults."""


def broken_promises(library: Library, pages: Collection[str], led_on: Collection[str]) -> Iterator[Fault]:
    """Every published address that is neither a page nor ``led_on`` to one, and every one given to another unit."""
    yield from _moved(library.guide, pages)
    lost: dict[str, FrozenEdition] = {}
    for edition in library.editions:
        yield from _reused(library, edition)
        for address in edition.pages:
            if address not in pages and address not in led_on:
                lost.setdefault(address, edition)
    with_their_unit = {bench_beside(address) for address in lost}
    yield from (_gone(edition, address, tuple(pages)) for address, edition in lost.items() if address not in with_their_unit)


def _gone(edition: FrozenEdition, address: str, pages: tuple[str, ...]) -> Fault:
    """A page that an edition published and the guide has no more."""
    line = 1 + [one.path for one in edition.files].index(f"{SITE}{address}{PAGE}")
    kind, _, rest = address.partition("/")
    unit, year = edition.record.unit(rest.removesuffix("/")), edition.record.name
    if kind == "unit" and unit is not None:
        return Fault(
            origin=Origin(f"units/{unit.id}/unit.yaml"), came="no such unit", rule="file",
            expected=f"the unit {unit.name}, whose address was published in edition {year} "
                     f"({edition.sums}:{line}): keep it with withdrawn, or lead its address on with moved in guide.yaml",
        )
    return Fault(
        origin=Origin(edition.sums), line=line, came=f"the address {address}, which the guide has no more", rule=RULE,
        expected=f"a page there, or moved in guide.yaml to lead on: it was published in edition {year}",
        nearest=nearest_name(address, pages),
    )


def _reused(library: Library, edition: FrozenEdition) -> Iterator[Fault]:
    """Units that go by an identifier of another."""
    for unit in library.units:
        frozen = edition.record.unit(unit.id)
        if frozen is not None and frozen.name != unit.name:
            field = "maker" if frozen.maker != unit.record.maker else "model"
            yield Fault(
                origin=Origin(unit.file, (field,)), came=unit.name, rule=RULE,
                expected=f"{frozen.name}, as edition {edition.record.name} published it under this identifier; an identifier is "
                         "never used again, another unit takes a folder of its own",
            )


def _moved(guide: GuideRecord, pages: Collection[str]) -> Iterator[Fault]:
    seen: set[str] = set()
    for place, one in enumerate(guide.moved):
        at = Origin("guide.yaml", ("moved", place))
        if one.from_address in pages:
            yield Fault(origin=at.at("from_address"), came=one.from_address, expected="an address without a page of its own", rule=RULE)
        elif one.from_address in seen or not _is_fit(one.from_address):
            again, closed = one.from_address in seen, f"{one.from_address}/"
            came = f"{one.from_address} a second time" if again else one.from_address
            expected = "each former address once, such as unit/old-name/" if again else "a former address of a page, such as unit/old-name/"
            slash = "" if again or one.from_address.endswith("/") or not _is_fit(closed) else closed
            yield Fault(origin=at.at("from_address"), came=came, expected=expected, nearest=slash, rule=RULE)
        if one.to_address not in pages or one.to_address == LOST:
            example = next((page for page in sorted(pages) if page.startswith("unit/")), "unit/new-name/")
            yield Fault(
                origin=at.at("to_address"), came=f"{one.to_address}, which is no page of the guide",
                expected=f"the address of one, such as {example}", nearest=nearest_name(one.to_address, tuple(pages)), rule=RULE,
            )
        seen.add(one.from_address)


def _is_fit(address: str) -> bool:
    """Whether an address is one that a page of the guide may have had.

    >>> [_is_fit(one) for one in ("unit/old-name/", "unit/old", "/unit/", "../x/", "archive/2025/")]
    [True, False, False, False, False]
    """
    parts = address.split("/")
    named = all(part and part.replace("-", "").replace("_", "").replace(".", "").isalnum() and part[0].isalnum() for part in parts[:-1])
    return len(parts) > 1 and parts[-1] == "" and named and address.isascii() and parts[0] != "archive"
