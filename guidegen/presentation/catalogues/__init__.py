"""The catalogues: every text of the interface by its name, one TOML file a language."""

import json
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from string import Formatter

from guidegen.errors import Fault, nearest_name
from guidegen.origins import Origin
from guidegen.records import GuideRecord


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """The texts of the interface in one language."""

    language: str
    """Language, such as ``en`` (BCP 47)."""
    texts: Mapping[str, str]
    """Texts by name, such as ``bracket.choices``; a name in braces stands for a value."""

    def say(self, name: str, **values: str | float) -> str:
        """The text of a name with its values; an unknown name, or a value that the text lacks or misses, is an error.

        >>> words_in("en").say("unit.numbers", count=3)
        'All 3 numbers'
        """
        if name not in self.texts:
            nearest = nearest_name(name, tuple(self.texts))
            hint = f"; did you mean {nearest}?" if nearest else ""
            raise LookupError(f"came the text {name!r}, expected one of the catalogue {self.language}.toml{hint}")
        text = self.texts[name]
        if fields_of(text) != values.keys():
            raise LookupError(f"came the values {sorted(values)} for {name!r}, expected {sorted(fields_of(text))}")
        return text.format(**values)

    def as_json(self, *groups: str) -> str:
        """The texts of some groups for a script, as JSON by their names."""
        known = {name.partition(".")[0] for name in self.texts}
        if not known.issuperset(groups):
            raise LookupError(f"came the groups {list(groups)}, expected groups of the catalogue {self.language}.toml")
        chosen = {name: text for name, text in self.texts.items() if name.partition(".")[0] in groups}
        return json.dumps(chosen, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


@cache
def fields_of(text: str) -> frozenset[str]:
    """The names in braces in a text.

    >>> sorted(fields_of("Sorted by {column}, {way}."))
    ['column', 'way']
    """
    return frozenset(field for _, field, _, _ in Formatter().parse(text) if field is not None)


@cache
def languages() -> tuple[str, ...]:
    """The languages there are.

    >>> languages()
    ('de', 'en')
    """
    names = (one.name for one in files(__name__).iterdir())
    return tuple(sorted(name.removesuffix(".toml") for name in names if name.endswith(".toml")))


@cache
def words_in(language: str) -> Words:
    """The texts in a language that there is."""
    groups = tomllib.loads(files(__name__).joinpath(f"{language}.toml").read_text(encoding="utf-8"))
    texts = {f"{group}.{name}": text for group, named in groups.items() for name, text in named.items()}
    return Words(language=language, texts=texts)


def unknown_language(guide: GuideRecord) -> tuple[Fault, ...]:
    """The fault of a language that has no catalogue, or nothing."""
    known = languages()
    if guide.language in known:
        return ()
    return (
        Fault(
            origin=Origin("guide.yaml", ("language",)), came=guide.language,
            expected=f"a language of the interface, one of {', '.join(known)}",
            nearest=nearest_name(guide.language, known), rule="language",
        ),
    )
