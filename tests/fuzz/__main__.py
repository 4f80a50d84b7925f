"""Try mutated inputs of every kind and print what became of them; faults are kept in a folder. Ends with 1 when there are any."""

from __future__ import annotations

import argparse
import json
import os
import signal
import subprocess
import sys
import threading
import time
from collections import Counter, defaultdict
from pathlib import Path
from typing import Any, TextIO

from folders import ROOT

from .kinds import SHARES
from .outcome import SOUND


class Figures:
    """What became of all inputs so far."""

    def __init__(self, kept: Path) -> None:
        self.outcomes: dict[str, Counter[str]] = defaultdict(Counter)
        self.depths: dict[str, Counter[str]] = defaultdict(Counter)
        self.slowest: dict[str, float] = defaultdict(float)
        self.memory: dict[str, int] = defaultdict(int)
        self.faults: dict[str, list[int]] = defaultdict(list)
        self._kept, self._lock = kept, threading.Lock()

    def add(self, kind: str, told: dict[str, Any]) -> None:
        name, detail, depth = told["outcome"]
        with self._lock:
            self.outcomes[kind][name] += 1
            self.depths[kind][depth] += 1
            self.slowest[kind] = max(self.slowest[kind], told.get("took", 0))
            self.memory[kind] = max(self.memory[kind], told.get("memory", 0))
            if name not in SOUND:
                same = f"{kind}: {name}: {detail}"
                self.faults[same].append(told["number"])
                if len(self.faults[same]) == 1:
                    self._kept.mkdir(parents=True, exist_ok=True)
                    path = self._kept / f"{told['number']}.json"
                    path.write_text(json.dumps(told, indent=1), encoding="utf-8")

    def print(self) -> None:
        bad = sorted({name for found in self.outcomes.values() for name in found} - {*SOUND})
        names = [*SOUND, *bad]
        heads = ["kind", "inputs", *names, "concluded", "rendered", "slowest s", "memory MB"]
        print("".join(f"{head:>13}" for head in heads))
        for kind in [kind for kind in SHARES if kind in self.outcomes]:
            found, depths = self.outcomes[kind], self.depths[kind]
            cells = [kind, found.total(), *(found[name] for name in names)]
            cells += [depths["concluded"] + depths["rendered"], depths["rendered"]]
            cells += [f"{self.slowest[kind]:.2f}", f"{self.memory[kind] / 2**20:.0f}"]
            print("".join(f"{cell!s:>13}" for cell in cells))
        total = sum(found.total() for found in self.outcomes.values())
        print(f"{total} inputs, {sum(map(len, self.faults.values()))} faults")
        for same, numbers in sorted(self.faults.items(), key=lambda found: -len(found[1])):
            print(f"{len(numbers):>6} {same}\n       runs {numbers[:5]}")


def main() -> None:
    parser = argparse.ArgumentParser(prog="make fuzz", description=__doc__)
    parser.add_argument("--runs", type=int, default=2000, help="how many inputs (default: 2000)")
    parser.add_argument("--seed", type=int, default=1, help="another seed, other inputs")
    parser.add_argument("--begin", type=int, default=0, help="number of the first input")
    parser.add_argument("--kinds", nargs="+", choices=SHARES, default=[], help="only these kinds")
    parser.add_argument(
        "--rendered", type=float, default=0.05, help="share of those that pass that is rendered"
    )
    parser.add_argument(
        "--seconds",
        type=int,
        default=20,
        help="longest that one may take of the processor; eight times that on the shipped catalog",
    )
    parser.add_argument(
        "--minutes", type=float, default=1e6, help="end after so long, whatever is left"
    )
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1, help="processes")
    parser.add_argument(
        "--keep", type=Path, default=ROOT / ".venv" / "fuzz", help="folder for faults"
    )
    args = parser.parse_args()
    figures, begun = Figures(args.keep), time.perf_counter()
    threads = [
        threading.Thread(target=_work, args=(args, begin, figures))
        for begin in range(args.begin, args.begin + args.jobs)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    figures.print()
    print(
        f"seed {args.seed}, runs {args.begin} to {args.begin + args.runs - 1}, {time.perf_counter() - begun:.0f} s"
    )
    sys.exit(1 if figures.faults else 0)


def _work(args: argparse.Namespace, begin: int, figures: Figures) -> None:
    """Let one process after the other try every ``jobs``-th input, each from behind the one that ended the last."""
    end, stop = args.begin + args.runs, time.monotonic() + 60 * args.minutes
    while begin < end and time.monotonic() < stop:
        asked = [args.seed, begin, end, args.jobs, args.seconds, args.rendered, args.kinds]
        process = subprocess.Popen(
            [sys.executable, "-m", "fuzz.worker", json.dumps(asked)],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, encoding="utf-8",
            env={**os.environ, "OPENBLAS_NUM_THREADS": "1"},
        )  # fmt: skip
        assert process.stdout and process.stderr
        errors: list[str] = []
        reader = threading.Thread(target=_read, args=(process.stderr, errors))
        reader.start()
        open_: dict[str, Any] | None = None
        for line in process.stdout:
            told = json.loads(line)
            if "outcome" in told and open_:
                figures.add(open_["kind"], told)
                begin, open_ = told["number"] + args.jobs, None
                if time.monotonic() > stop:
                    process.kill()
                    break
            else:
                open_ = told
        status = process.wait()
        reader.join()
        if open_:
            # The thread that tries stands last, its innermost call first.
            main = errors[0].rpartition("most recent call first")[2]
            last = [line.strip() for line in main.splitlines() if line.startswith("  File")][:6]
            name = "hang" if status == -signal.SIGPROF or "Timeout" in errors[0] else "crash"
            detail = " < ".join(last) or f"ended with {status}: {errors[0][-300:]}"
            figures.add(open_["kind"], {**open_, "outcome": [name, detail, "read"]})
            begin = open_["number"] + args.jobs
        elif status and time.monotonic() < stop:
            raise SystemExit(f"a process ended with {status}:\n{errors[0]}")


def _read(stream: TextIO, into: list[str]) -> None:
    into.append(stream.read())


if __name__ == "__main__":
    main()
