"""Compare two ways of doing one thing, fairly: in turns, in one process, by their least times.

Absolute times differ from machine to machine, so a benchmark asserts a ratio and prints
both times beside it. Each way's least time is what it costs when nothing else runs; higher
ones tell of the machine, not of the way (the documentation of Python's timeit says so). The
ratio of the medians is printed too.
"""

import gc
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass

__all__ = ["Ratio", "ratio"]


@dataclass(frozen=True)
class Ratio:
    """Least times of both ways, in seconds."""

    named_s: float
    ours_s: float

    @property
    def times_faster(self) -> float:
        """How many times our way is faster than the named one."""
        return self.named_s / self.ours_s

    def __str__(self) -> str:
        return (
            f"named {self.named_s * 1e3:.3f} ms, ours {self.ours_s * 1e3:.3f} ms: "
            f"{self.times_faster:.1f} times faster"
        )


def ratio(
    named: Callable[[], object], ours: Callable[[], object], *, rounds: int = 9, label: str = ""
) -> Ratio:
    """Time both ways in turns and print the least times.

    Parameters
    ----------
    named, ours : callable
        The alternative that the benchmark names, and the project's own way.
    rounds : int
        Turns of each, after one turn that is not counted.
    label : str
        What is measured, for the printed line.

    Notes
    -----
    Work far below a millisecond should be repeated inside the callables. The garbage
    collector rests meanwhile.
    """
    named()
    ours()
    times: tuple[list[float], list[float]] = ([], [])
    collecting = gc.isenabled()
    gc.disable()
    try:
        for _ in range(rounds):
            for way, spent in zip((named, ours), times, strict=True):
                start = time.perf_counter()
                way()
                spent.append(time.perf_counter() - start)
    finally:
        if collecting:
            gc.enable()
    result = Ratio(min(times[0]), min(times[1]))
    middle = Ratio(statistics.median(times[0]), statistics.median(times[1]))
    print(f"\n{label or 'ratio'}: {result} (by medians {middle.times_faster:.1f})")
    return result
