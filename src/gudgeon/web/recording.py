"""Recording: a form for everything that can be recorded, made from one table, and what happens when it is sent."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import timedelta
from typing import Any
from urllib.parse import quote, urlencode, urlsplit

from starlette.responses import Response

from gudgeon.bench.acts import loosened_fields, pull_fields, reading_fields
from gudgeon.bench.asking import NAMED_BY_ITSELF, choices, hold_asks, short_name
from gudgeon.bench.context import Bench
from gudgeon.bench.gone import EMPTY_LISTS, not_offered
from gudgeon.bench.photos import Sent, record_with_photo
from gudgeon.bench.record import Recorded, record
from gudgeon.bench.recordable import RECORDABLES, recordable
from gudgeon.bench.recordable_inputs import Input, Recordable
from gudgeon.bench.sent_before import seen_through
from gudgeon.bench.typed import with_a_point
from gudgeon.errors import GudgeonError, InputError, short
from gudgeon.web import joints, measuring
from gudgeon.web.desk import Address, Asked, Desk, go, own_address
from gudgeon.web.pin_rows import MOST_FIELDS, pins_in, rows_of
from gudgeon.web.scripted import in_the_book, turned_down
from gudgeon.web.security import UPLOAD_BYTES
from gudgeon.web.whole import MOST_SIGNS, whole
from gudgeon.web.wording import worded

LONGEST_WAIT = timedelta(days=90)
PULLS = {"pull": "", "bolt-loosened": "/loosening"}
"""Kinds whose form is the page of a joint, and where that page stands."""


class FieldMissing(InputError):
    """Something that has to be said was left empty."""

    def __init__(self, label: str) -> None:
        super().__init__(f"“{label}” is empty: fill it in.")


class NotWhole(InputError):
    """A number that is not a whole one."""

    def __init__(self, label: str, said: str) -> None:
        super().__init__(
            f"“{label}” takes a whole number of at most {MOST_SIGNS} figures; `{short(said)}` is none."
        )


class WaitedTooLong(InputError):
    """An entry that says it waited longer than any can."""

    def __init__(self, said: str) -> None:
        super().__init__(
            f"The entry says that it waited `{said[:40]}` on its device; whole seconds are taken, at most "
            f"{LONGEST_WAIT.days} days. Nothing was recorded. Write it anew, with the day on which it was done."
        )


def everything(desk: Desk, asked: Asked) -> Response:
    """Everything that can be recorded."""
    with desk.bench() as bench:
        return desk.page("record.html", bench=bench, asked=asked, recordables=RECORDABLES)


def one_form(desk: Desk, asked: Asked) -> Response:
    """The form of one kind; readings and pulls have theirs on the pages of their questions."""
    of = recordable(asked.path["name"])
    if of.kind == "reading":
        return go(f"/good/{quote(asked.query['item'])}#record" if "item" in asked.query else "/good")
    if of.kind in PULLS:
        return go(f"/set/{quote(asked.query['joint'])}{PULLS[of.kind]}" if "joint" in asked.query else "/set")
    with desk.bench() as bench:
        return _form(desk, asked, bench, of)


def write(desk: Desk, asked: Asked) -> Response:
    """Record what a form says, and go back to where it was asked; a refusal is shown above the form."""
    return _write(desk, asked, recordable(asked.path["name"]))


def write_photo(desk: Desk, asked: Asked) -> Response:
    """Keep a photo beside the book, and record what it shows."""
    return _write(desk, asked, recordable("photo"))


def write_hold(desk: Desk, asked: Asked) -> Response:
    """Record that a hold is proved, with the value seen or with a photo of it."""
    return _write(desk, asked, recordable("hold"))


def _write(desk: Desk, asked: Asked, of: Recordable) -> Response:
    with desk.bench() as bench:
        try:
            done = _written(at_the_time(bench, asked.form), of, asked)
        except GudgeonError as error:
            if asked.by_script:
                return turned_down(worded(str(error), name=of.name), error=error)
            return _again(desk, asked, bench, of, error)
        desk.said.keep(done)
        then = back_to(asked.form.get("back", ""), entry=done.entry)
        return in_the_book(bench, done, then=then) if asked.by_script else go(then)


def at_the_time(bench: Bench, form: Mapping[str, str]) -> Bench:
    """The bench at the hour at which a form was filled in: `ago` says how many seconds it waited on its device.

    A device says how long ago it was and not when: its clock may be wrong.
    """
    ago = form.get("ago", "").strip()
    if not ago:
        return bench
    seconds = whole(ago)
    if seconds is None or seconds > LONGEST_WAIT.total_seconds():
        raise WaitedTooLong(ago)
    return replace(bench, now=bench.now - timedelta(seconds=seconds))


def seen_basis(bench: Bench, form: Mapping[str, str]) -> str | None:
    """What the sender of a form had seen; `knew` names the entries that he had written besides."""
    basis, knew = form.get("basis"), form.get("knew", "").split()
    return seen_through(bench, basis, own=frozenset(knew)) if basis and knew else basis


def _written(bench: Bench, of: Recordable, asked: Asked) -> Recorded:
    fields = fields_of(bench, of, asked.form)
    ids = {"entry_id": asked.form.get("entry") or None, "basis": seen_basis(bench, asked.form)}
    file = next((one.field for one in of.inputs if one.shape == "photo"), "")
    if not file:
        return record(bench, of.kind, fields, **ids)
    fields.pop(file)
    upload = asked.uploads.get(file)
    chosen = upload is not None and bool(upload.name or upload.content)
    sent = Sent(upload.name, upload.content) if upload is not None and chosen else None
    return record_with_photo(bench, of.kind, fields, sent=sent, pins=pins_in(asked.form), **ids)


def _again(desk: Desk, asked: Asked, bench: Bench, of: Recordable, error: GudgeonError) -> Response:
    """The form once more, with what was refused above it and the input kept."""
    if of.kind == "reading" and asked.form.get("item") in bench.sheet.characteristics:
        return measuring.reading_page(desk, asked, bench, item=asked.form["item"], error=error)
    if of.kind in PULLS and asked.form.get("joint") in bench.sheet.joints:
        return joints.joint_page(
            desk, asked, bench, joint=asked.form["joint"], error=error, loosening=of.kind == "bolt-loosened"
        )
    if of.kind in ("reading", *PULLS):
        raise error
    if of.kind == "looked" and asked.form.get("joint") in bench.sheet.joints:
        return joints.joint_page(desk, asked, bench, joint=asked.form["joint"], error=error)
    return _form(desk, asked, bench, of, error=error)


def _form(
    desk: Desk, asked: Asked, bench: Bench, of: Recordable, *, error: GudgeonError | None = None
) -> Response:
    said = asked.form if asked.posted else asked.query
    own = NAMED_BY_ITSELF.get(of.kind, "")
    ask, value = hold_asks(bench, said.get("hold", "")) if of.kind == "hold-proved" else ("", "")
    offered = {one.field: choices(bench, kind=of.kind, field=one.field) for one in of.inputs}
    return desk.page(
        "record_one.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        of=of,
        inputs=[one for one in of.inputs if one.field not in (own, "screen")],
        offered=offered,
        gone={
            one.field: not_offered(
                bench, kind=of.kind, field=one.field, said=_named(one, said), offered=offered[one.field]
            )
            for one in of.inputs
        },
        nothing={
            field: words
            for field, offer in offered.items()
            if not offer and (words := EMPTY_LISTS.get((of.kind, field)))
        },
        kept=said,
        back=own_address(said.get("back", ""), otherwise="/record"),
        ask=ask,
        value=value,
        error=error,
        uploaded=any(one.name for one in asked.uploads.values()),
        pin_rows_said=rows_of(asked.form) if of.kind == "photo" else (),
    )


def _named(one: Input, said: Mapping[str, str]) -> str:
    """What a form, or its address, says of a field."""
    return said.get(one.named, "") or said.get(one.field, "")


def fields_of(bench: Bench, of: Recordable, form: Mapping[str, str]) -> dict[str, Any]:
    """From the texts of a form to the fields of an entry."""
    fields = {one.field: _field(one, form) for one in of.inputs}
    own = NAMED_BY_ITSELF.get(of.kind)
    if own is not None and not fields[own]:
        fields[own] = short_name(bench, kind=of.kind, name=str(fields["name"]))
    asked_for = (one for one in of.inputs if one.required and one.shape != "photo")
    missing = next((one for one in asked_for if fields[one.field] in ("", None)), None)
    if missing is not None:
        raise FieldMissing(missing.label)
    if of.kind == "reading":
        if not form.get("condition", "").strip():
            raise FieldMissing("When")
        return reading_fields({**_typed(bench, fields, form), "unit": form.get("unit", "")})
    if of.kind == "paused" and not fields["screen"]:
        here = own_address(form.get("back", ""), otherwise="")
        return {**fields, "screen": "" if here == "/record" else here}
    if of.kind not in PULLS:
        return fields
    said = [form.get(name, "").strip() for name in ("with_what", "reason")]
    fields["why"] = "; ".join(filter(None, [*said, fields["why"]]))
    return pull_fields(bench, fields) if of.kind == "pull" else loosened_fields(bench, fields)


def _typed(bench: Bench, fields: Mapping[str, Any], form: Mapping[str, str]) -> dict[str, Any]:
    """The figures of a reading, as a gauge or a phone types them."""
    item = bench.sheet.characteristics.get(str(fields["item"]))
    if item is None:
        return dict(fields)
    own = {"kind": item.kind, "unit": form.get("unit", "")}
    typed = {name: with_a_point(fields[name], **own) for name in ("value", "low", "high") if fields[name]}
    return {**fields, **typed}


def _field(one: Input, form: Mapping[str, str]) -> Any:
    said = form.get(one.named, "").strip()
    if one.shape == "yes":
        return one.value_when_yes if said in ("yes", one.value_when_yes) else one.default
    if one.shape == "several":
        return [part for part in (said, *form.get(f"{one.field}_more", "").split(",")) if part.strip()]
    if not said:
        return one.default
    if one.shape == "whole":
        number = whole(said)
        if number is None:
            raise NotWhole(one.label, said)
        return number
    return said


def back_to(address: str, *, entry: str) -> str:
    """An address of ours, with the entry that was just recorded; anything else is the first page."""
    split = urlsplit(own_address(address, otherwise="/"))
    kept = [part for part in split.query.split("&") if part and not part.startswith("recorded=")]
    query = "&".join([*kept, urlencode({"recorded": entry})])
    return f"{split.path}?{query}" + (f"#{split.fragment}" if split.fragment else "")


ADDRESSES = (
    Address("/record", everything),
    Address("/record/{name}", one_form),
    Address(
        "/record/photo", write_photo, methods=("POST",), most_bytes=UPLOAD_BYTES, most_fields=MOST_FIELDS
    ),
    Address("/record/hold", write_hold, methods=("POST",), most_bytes=UPLOAD_BYTES),
    Address("/record/{name}", write, methods=("POST",)),
)
