"""The page of words in an archive: for whoever opens it without the program, in years."""

import json
from collections.abc import Sequence

from gudgeon.book.store import Chain

_WORDS = """\
This is a copy of a bench book kept with Gudgeon: what was found and done while an engine was rebuilt.
It can be read without the program, and checked without it.

What is in it
-------------
{builds}
Each build has a folder:
  entries.jsonl   every entry, one a line, in the order in which they were written. This is the record itself.
  tables/*.csv    the same entries as tables, to read in a spreadsheet. They follow from entries.jsonl.
Beside the builds:
  sheets/, kits/  the data sheets and kits that entries were made against, each under the SHA-256 of its text.
  photos/         the photos that entries name, each under the SHA-256 of its file.
  book.json       builds, numbers of entries and heads, for programs.
  checksums.txt   the SHA-256 of every other file.
{missing}
The tables
----------
Comma-separated (RFC 4180), UTF-8, the first row holds the headings. A figure stands alone in its cell, as it was
written, and its unit in the column after it. An entry that was struck later says so in the column "struck".
A spreadsheet may take a text that begins with = + - or @ as a formula and run it. So a text that begins like
that, or with an apostrophe, has one apostrophe put before it: take the first apostrophe away, and you have what was
written. Plain numbers, like -0.02, are never touched. entries.jsonl has everything exactly as it was written.

To check it by hand
-------------------
1. The files:  sha256sum -c checksums.txt
2. An entry: a line of entries.jsonl is {{"entry":TEXT,"hash":"HASH"}}. HASH is the SHA-256 of TEXT, byte for byte:
     sed -n 1p build-1/entries.jsonl | sed -E 's/^.{{9}}(.*),"hash":"[0-9a-f]{{64}}"}}$/\\1/' | tr -d '\\n' | sha256sum
3. The chain: "prev" in each TEXT is the HASH of the line before it; in the first line it is empty. "number" counts
   from 1. So no entry can be changed, taken out or put in without changing every HASH after it.
4. The end: a chain cannot show that its last entries were cut off. Compare the head above, which is the last HASH,
   with one that was noted elsewhere. It is at the foot of every page that was printed from the book.
"""


def page_of_words(chains: Sequence[Chain], *, missing: Sequence[str]) -> str:
    """What lies in the archive, how the tables are read, how the chain is checked by hand."""
    builds = "".join(
        f"  build-{number}: {_one_line(chain.build)} ({_one_line(_engine(chain))}), {len(chain.rows)} entries\n"
        f"           head {chain.head}\n"
        for number, chain in enumerate(chains, start=1)
    )
    gone = (
        "\nPhotos that entries name and that are NOT in it, because they were missing or altered when it was written:\n"
        + "".join(f"  {sha}\n" for sha in missing)
        if missing
        else ""
    )
    return _WORDS.format(builds=builds, missing=gone)


def _engine(chain: Chain) -> str:
    """What the first entry calls the engine."""
    return str(json.loads(chain.rows[0][2])["body"].get("engine", ""))


def _one_line(name: str) -> str:
    """A name without signs that would begin a new line or turn the text around."""
    return "".join(mark if mark.isprintable() else "·" for mark in name)
