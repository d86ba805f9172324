"""Compiles the jobs that are shipped, so that no command has to read their YAML.

Run: python -m tools.jobs
"""

from pathlib import Path

from gudgeon.bench.network import JOBS, compiled, texts_of

FOLDER = Path(__file__).resolve().parents[1] / "src" / "gudgeon" / "bench" / "data"


def made(name: str) -> str:
    """One job as its compiled file has to be."""
    text, bases = texts_of(name)
    return compiled(text, file=f"{name}.yaml", bases=bases)


if __name__ == "__main__":
    for name in JOBS:
        (FOLDER / f"{name}.json").write_text(made(name), encoding="utf-8", newline="\n")
