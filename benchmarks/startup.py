"""How soon gudgeon answers: the help, the server, and every page of the demo.

    python benchmarks/startup.py [JOB]

Wall-clock times on this machine, the median of several runs. The first call of each command warms the file cache and is not
counted. A page's time is from request to last byte over the loopback, once the job's answers are worked out.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from pathlib import Path

RUNS = 5
PAGES = (
    "", "findings", "doubtful", "bench", "bench/cylinders?block=0", "remedies", "orders", "plan", "parts", "record", "outline",
)  # fmt: skip
COMMAND = (sys.executable, "-m", "gudgeon.cli")
SETTLE = 40


def seconds(*words: str) -> float:
    """One run of a command."""
    started = time.perf_counter()
    subprocess.run([*COMMAND, *words], check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - started


def answered(address: str) -> float:
    """Seconds until an address answers whole."""
    started = time.perf_counter()
    with urllib.request.urlopen(address, timeout=120) as answer:
        answer.read()
    return time.perf_counter() - started


def ready(job: Path, port: int) -> tuple[float, subprocess.Popen[bytes]]:
    """Seconds from the command until the server answers its door, and the server."""
    started = time.perf_counter()
    words = ("serve", str(job), "--no-open", "--port", str(port))
    server = subprocess.Popen([*COMMAND, *words], stdout=subprocess.DEVNULL)
    while True:
        try:
            answered(f"http://127.0.0.1:{port}/static/gudgeon.css")
            return time.perf_counter() - started, server
        except (urllib.error.URLError, ConnectionError):
            time.sleep(0.01)


def main(job: Path) -> None:
    """Measure and print."""
    seconds("--help")
    print(f"gudgeon --help         {statistics.median(seconds('--help') for _ in range(RUNS)):6.3f} s")
    times = []
    for run in range(RUNS + 1):
        spent, server = ready(job, 8901 + run)
        times.append(spent)
        if run < RUNS:
            server.terminate()
            server.wait()
    print(f"server ready           {statistics.median(times[1:]):6.3f} s")
    base = f"http://127.0.0.1:{8901 + RUNS}/job/{job.name}/"
    print(f"first view of the job  {answered(base):6.3f} s")
    time.sleep(SETTLE)
    for page in PAGES:
        answered(base + page)
        print(f"  /{page:30s} {1000 * statistics.median(answered(base + page) for _ in range(9)):6.1f} ms")
    server.terminate()


if __name__ == "__main__":
    if len(sys.argv) > 1:
        main(Path(sys.argv[1]).resolve())
    else:
        with tempfile.TemporaryDirectory() as folder:
            from gudgeon.demo import build

            build(Path(folder) / "demo")
            main(Path(folder) / "demo")
