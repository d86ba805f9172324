"""The wish not to be scaled, set in a PDF that is made already.

A viewer that keeps to it has "actual size" chosen when the file is printed; nothing forces it, so a line to measure
stands on the pages as well. The wish is an entry of the catalog, and the typesetter knows no way to write it: the file
is extended by an incremental update, in which the catalog stands once more with the wish in it. No byte before it
changes.

Source: ISO 32000-1:2008, 7.5.6 (incremental updates) and table 150 (PrintScaling).
"""

import re

WISH = b"/PrintScaling/None"
_ROOT = re.compile(rb"/Root\s+(\d+)\s+(\d+)\s+R")
_SIZE = re.compile(rb"/Size\s+(\d+)")
_KEPT = (re.compile(rb"/Info\s+\d+\s+\d+\s+R"), re.compile(rb"/ID\s*\[[^\]]*\]"))
_START = re.compile(rb"startxref\s+(\d+)\s+%%EOF\s*$")
_PREFERENCES = re.compile(rb"/ViewerPreferences\s*<<")


class NotExtendable(Exception):
    """A file that our typesetter never makes: a bug of ours, not of the person who prints."""


def unscaled(pdf: bytes) -> bytes:
    """The same pages with the wish that no printer scales them; a file that has the wish comes back as it is.

    Reads files with a plain table of cross references, as the typesetter writes them; raises NotExtendable for any
    other.
    """
    start = _START.search(pdf)
    at = pdf.rfind(b"trailer")
    trailer = pdf[at : start.start()] if start and at >= 0 else b""
    root, size = _ROOT.search(trailer), _SIZE.search(trailer)
    if start is None or root is None or size is None:
        raise NotExtendable("no plain table of cross references")
    number, generation = int(root[1]), int(root[2])
    catalog = _dictionary(pdf, number, generation)
    if WISH in catalog:
        return pdf
    anew = b"%d %d obj\n%s\nendobj\n" % (number, generation, _with_wish(catalog))
    before = pdf if pdf.endswith(b"\n") else pdf + b"\n"
    table = len(before) + len(anew)
    kept = b"".join(found[0] for one in _KEPT if (found := one.search(trailer)))
    return before + anew + (
        b"xref\n%d 1\n%010d %05d n \n" % (number, len(before), generation)
        + b"trailer\n<</Size %s/Root %d %d R/Prev %s" % (size[1], number, generation, start[1])
        + kept
        + b">>\nstartxref\n%d\n%%%%EOF\n" % table
    )  # fmt: skip


def _dictionary(pdf: bytes, number: int, generation: int) -> bytes:
    """The dictionary of an object as it stands in the file, last written last."""
    found = pdf.rfind(b"\n%d %d obj" % (number, generation))
    end = pdf.find(b"endobj", found)
    body = pdf[pdf.find(b"<<", found) : end].strip()
    if found < 0 or end < 0 or not body.endswith(b">>"):
        raise NotExtendable("no catalog where the trailer says it is")
    return body


def _with_wish(catalog: bytes) -> bytes:
    """The catalog with the wish among what it says already of viewing."""
    if _PREFERENCES.search(catalog):
        return _PREFERENCES.sub(lambda found: found[0] + WISH, catalog, count=1)
    return catalog[:-2] + b"/ViewerPreferences<<" + WISH + b">>" + b">>"
