"""``python3 -m tests.speed.ranking``: the simulated ranking of a large library against the bare NumPy computation.

Both draw the same numbers, give every reading in every draw its worth, weigh them by the same weights and count places
and wins; the bare one does it with arrays that are ready and checks nothing.
"""

import argparse
import resource
import shutil
import statistics
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from guidegen.evaluation import measure_of
from guidegen.evaluation.robustness.acceptability import accept
from guidegen.evaluation.robustness.draws import any_weights, normals
from guidegen.evaluation.robustness.fields import Field, field_of, values_in_doubt
from guidegen.flow import evaluate_content
from guidegen.records import Anchor
from tests.invention.__main__ import write_library

ROOT = Path(__file__).parent.parent.parent
DRAWS, SEED = 10_000, 20261118
Array = NDArray[np.float64]


def fields(units: int) -> tuple[Field, ...]:
    """The brackets of a library of so many units in its home region."""
    with tempfile.TemporaryDirectory() as folder:
        content = Path(folder) / "content"
        for name in ("guide.yaml", "policy.yaml", "parts.yaml"):
            (content / name).parent.mkdir(exist_ok=True)
            shutil.copy(ROOT / "content" / name, content / name)
        write_library(content, count=units)
        assessment = evaluate_content(content)
    found = []
    for one in assessment.home:
        scored = tuple((s.candidate.id, s.candidate.score) for s in one.ranking.placed)
        if scored:
            place = {"region": one.ranking.region.id, "bracket": one.ranking.bracket.id}
            found.append(field_of(scored, assessment.library.policy, **place))
    return tuple(found)


def ours(field: Field) -> None:
    """The run with noise and weights, as publication makes it."""
    accept(field.units, values_in_doubt(field, SEED, draws=DRAWS), any_weights(SEED, tuple(field.weights), draws=DRAWS), in_pairs=True)


Ready = list[tuple[int, int, str, str, float, float, float, float, tuple[Anchor, ...]]]
"""Unit, criterion, name of the unit, finding, value, own and shared doubt, share of the criterion, anchors."""


def ready(field: Field) -> Ready:
    """The same field as bare numbers."""
    rows: Ready = []
    for i, (unit, score) in enumerate(zip(field.units, field.scores, strict=True)):
        place = 0
        for c, criterion in enumerate(score.criteria):
            for part in criterion.parts:
                if part.found is not None:
                    quantity = part.found.quantity
                    rows.append((i, c, unit, part.finding, quantity.value, quantity.own, quantity.shared,
                                 part.weight / criterion.weight, field.anchors[place]))
                place += 1
    return rows


def bare(field: Field, rows: Ready) -> None:
    """Draws, values and ranks with nothing around them."""
    common = {name: normals(SEED, "every unit", name, draws=DRAWS) for name in {measure_of(row[3]) for row in rows if row[6]}}
    values = np.zeros((len(field.units), len(field.weights), DRAWS))
    for i, c, unit, finding, value, own, shared, share, anchors in rows:
        at, worth = [a.at for a in anchors], [a.worth for a in anchors]
        if own == 0 and shared == 0:
            values[i, c] += share * np.interp(value, at, worth)
            continue
        drawn = value + own * normals(SEED, unit, finding, draws=DRAWS) + (shared * common[measure_of(finding)] if shared else 0.0)
        values[i, c] += share * np.interp(drawn, at, worth)
    weights = any_weights(SEED, tuple(field.weights), draws=DRAWS)
    scores: Array = np.einsum("ucd,cd->ud", values, weights)
    places = np.ones(scores.shape, dtype=np.uint16)
    for own_scores in scores:
        below = scores < own_scores
        places += below
        below.mean(axis=1)
    for row in places:
        np.bincount(row, minlength=len(field.units) + 1)


@dataclass(frozen=True, slots=True)
class Compared:
    """What the turns came to, in seconds of processor time."""

    placed: int
    brackets: int
    ours: tuple[float, ...]
    bare: tuple[float, ...]

    @property
    def ratios(self) -> tuple[float, ...]:
        """Ours against the bare one, turn by turn."""
        return tuple(a / b for a, b in zip(self.ours, self.bare, strict=True))


def compared(units: int, times: int) -> Compared:
    """Both computations in turns, now the one first and now the other."""
    made = fields(units)
    numbers = [ready(field) for field in made]
    taken: dict[str, list[float]] = {"ours": [], "bare": []}
    for turn in range(times):
        for name in ("ours", "bare") if turn % 2 else ("bare", "ours"):
            began = time.process_time()
            for field, rows in zip(made, numbers, strict=True):
                ours(field) if name == "ours" else bare(field, rows)
            taken[name].append(time.process_time() - began)
    return Compared(sum(len(field.units) for field in made), len(made), tuple(taken["ours"]), tuple(taken["bare"]))


def main() -> None:
    """Measures and prints."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--units", type=int, default=500)
    parser.add_argument("--times", type=int, default=5)
    asked = parser.parse_args()
    found = compared(asked.units, asked.times)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{found.placed} placed units in {found.brackets} brackets, {DRAWS} draws with noise and weights")
    print(f"ours {statistics.median(found.ours):.2f} s, bare {statistics.median(found.bare):.2f} s of processor time")
    print(f"ratio {statistics.median(found.ratios):.2f} (from {min(found.ratios):.2f} to {max(found.ratios):.2f}), at most 1.5 wanted")
    print(f"peak memory of the whole program {peak:.0f} MB, at most 400 wanted")


if __name__ == "__main__":
    main()
