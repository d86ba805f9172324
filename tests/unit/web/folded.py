"""What a browser without scripts shows of a page: what stands in a closed part is not seen."""

from html.parser import HTMLParser

_EMPTY = frozenset(("area", "br", "hr", "img", "input", "link", "meta", "col", "source", "wbr"))


class Folds(HTMLParser):
    """The ids of a page, each with the closed parts that it stands in; an id of a closed part stands in that part."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.behind: dict[str, list[str]] = {}
        self._open: list[tuple[str, str]] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note what is begun, and which closed parts it stands in."""
        said = dict(attrs)
        name = said.get("id") or ""
        closed = (name or "a part without a name") if tag == "details" and "open" not in said else ""
        if tag not in _EMPTY:
            self._open.append((tag, closed))
        if name:
            self.behind[name] = [one for _, one in self._open if one]

    def handle_endtag(self, tag: str) -> None:
        """Note what is ended, with all in it that ends of itself."""
        if tag in [one for one, _ in self._open]:
            while self._open.pop()[0] != tag:
                pass
