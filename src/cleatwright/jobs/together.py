"""Building many parts at once, in several processes."""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace

from cleatwright.base.errors import CleatwrightError
from cleatwright.base.progress import Progress, tracked
from cleatwright.base.stages.run import Run
from cleatwright.design.building import build
from cleatwright.design.recipe import AnyRecipe, recipe_from_json
from cleatwright.kernels.mesh import MeshKernel
from cleatwright.pack.partfiles import PART_3MF, part_file_names

# fewer parts are done before a second process is up
ALONE = 24
CHUNK = 8


@dataclass(frozen=True)
class MadePart:
    """One part of many: its file and its facts, or its fault."""

    mark: str = ""
    file: str = ""
    data: bytes = b""
    size_mm: tuple[float, float, float] = (0.0, 0.0, 0.0)
    volume_mm3: float = 0.0
    failing: tuple[str, ...] = ()
    fault: str = ""


def made_together(recipes: Sequence[AnyRecipe], *, progress: Progress) -> tuple[MadePart, ...]:
    """Return the 3MF file of each recipe, in order; a recipe that fails gives its fault."""
    workers = min(os.cpu_count() or 1, len(recipes) // ALONE)
    if workers < 2:
        kernel = MeshKernel()
        return tuple(_made(recipe, kernel) for recipe in tracked(recipes, "making parts", progress))
    texts = [recipe.to_json() for recipe in recipes]
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(workers, mp_context=context, initializer=_deaf) as pool:
        try:
            return tuple(_counted(pool.map(_from_text, texts, chunksize=CHUNK), texts, progress))
        except BaseException:
            pool.shutdown(wait=True, cancel_futures=True)
            raise


def _counted(
    parts: Iterator[MadePart], texts: Sequence[str], progress: Progress
) -> Iterator[MadePart]:
    for _ in tracked(texts, "making parts", progress):
        yield next(parts)


def _deaf() -> None:
    """Leave an interrupt to the process that a person talks to."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _from_text(text: str) -> MadePart:
    return _made(recipe_from_json(text, where="the series"), MeshKernel())


def _made(recipe: AnyRecipe, kernel: MeshKernel) -> MadePart:
    try:
        built = build(recipe, kernel)
        file, data = part_file_names(built)[0], Run().need(PART_3MF, built)
    except CleatwrightError as error:
        return MadePart(fault=error.marked)
    return MadePart(
        mark=built.mark,
        file=file,
        data=data,
        size_mm=built.body.facts.size_mm,
        volume_mm3=built.body.facts.volume_mm3,
        failing=tuple(
            replace(check, note="").sentence for check in built.checks if not check.holds
        ),
    )
