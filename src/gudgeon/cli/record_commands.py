"""What can be recorded from the terminal: one table of commands, each naming an entry kind."""

from dataclasses import dataclass
from typing import Any

MILESTONES = ("crank", "fire", "drive", "handover")


@dataclass(frozen=True, slots=True)
class Argument:
    """One argument of a command: its flags (or its place), and how argparse takes it."""

    flags: tuple[str, ...]
    options: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Command:
    """A command of `gudgeon record`."""

    name: str
    kind: str
    help: str
    arguments: tuple[Argument, ...]


def _arg(*flags: str, help: str, **options: Any) -> Argument:
    return Argument(flags, {"help": help, **options})


def _text(flag: str, help: str, *, required: bool = False, default: str | None = "") -> Argument:
    extra: dict[str, Any] = {"required": True} if required else {"default": default}
    return _arg(flag, help=help, metavar="TEXT", **extra)


_ITEM = _arg("item", help="its short name or number on the list")
_JOINT = _arg("joint", help="the joint, by its key in the data sheet")
_DUE = _arg(
    "--before",
    help="due before: crank, fire, drive or handover",
    choices=MILESTONES,
    default="crank",
    dest="due_before",
)
_WHY = _text("--why", "the reason", required=True)

COMMANDS: tuple[Command, ...] = (
    Command(
        "identity",
        "identity-read",
        "the engine code as read off the engine",
        (
            _arg("code", help="the code, as stamped"),
            _text("--read-from", "where it was read"),
            _arg(
                "--why",
                help="why this sheet serves, when the code is another one",
                metavar="TEXT",
                dest="why_not",
                default=None,
            ),
        ),
    ),
    Command(
        "reading",
        "reading",
        "a measured value, with its unit",
        (
            _arg("item", help="the characteristic, by its key in the data sheet"),
            _arg(
                "place",
                help="where, like `1 top across`; leave out when there is only one place",
                nargs="?",
                default="",
            ),
            _arg("value", help="the value with its unit, like `81.65 mm`", nargs="?", default=None),
            _arg(
                "--enters",
                help="the blade that enters, like `0.05 mm`",
                metavar="VALUE",
                dest="low",
                default=None,
            ),
            _arg(
                "--stops",
                help="the blade that does not enter, like `0.06 mm`",
                metavar="VALUE",
                dest="high",
                default=None,
            ),
            _arg(
                "--gauge",
                help="the gauge, by its key in the kit",
                metavar="KEY",
                dest="instrument",
                default="",
            ),
            _arg(
                "--as-left",
                help="measured after the work (else: as found)",
                dest="condition",
                action="store_const",
                const="as left",
                default="as found",
            ),
            _text("--note", "anything worth keeping"),
            _arg("--sure", help="keep it although it is far from what the sheet says", action="store_true"),
        ),
    ),
    Command(
        "pull",
        "pull",
        "one action on one bolt; without --bolt and --stage the next one of the list",
        (
            _JOINT,
            _arg(
                "outcome",
                help="what happened",
                choices=("clicked", "at-once", "angle-reached", "stopped", "done", "doubtful"),
            ),
            _arg("--bolt", help="the bolt, when it is not the next one", default=None),
            _arg("--stage", help="the stage, when it is not the next one", type=int, default=None),
            _arg("--pass", help="which pass of a repeated stage", type=int, default=None, dest="round"),
            _arg(
                "--angle", help="degrees reached, when it stopped on the way", dest="angle_deg", default=None
            ),
            _arg("--tool", help="the wrench, when it is not the one of the list", default=None),
            _text("--setting", "the setting read off its scale", default=None),
            _text("--why", "what was odd about it"),
        ),
    ),
    Command(
        "marked",
        "joint-marked",
        "a joint marked as finished, bolt by bolt",
        (_JOINT, _text("--how", "how it is marked", default="paint line on every bolt")),
    ),
    Command(
        "disturbed",
        "joint-disturbed",
        "a joint slackened or taken apart again: it starts anew",
        (_JOINT, _WHY),
    ),
    Command(
        "provisional",
        "provisional-made",
        "something left loose on purpose",
        (
            _ITEM,
            _text("--name", "what it is", required=True),
            _arg("--joint", help="the joint it belongs to", default=None),
            _WHY,
            _text("--due", "the work at which it becomes final", required=True, default=None),
            _DUE,
        ),
    ),
    Command(
        "cleared",
        "provisional-cleared",
        "something provisional made final",
        (_ITEM, _text("--how", "how", required=True)),
    ),
    Command(
        "left-in",
        "left-in",
        "a temporary thing put in: pin, lock, rag",
        (
            _ITEM,
            _text("--name", "what it is", required=True),
            _text("--where", "where it is", required=True),
            _DUE,
        ),
    ),
    Command("taken-out", "taken-out", "a temporary thing taken out again", (_ITEM,)),
    Command(
        "plugged",
        "plugged",
        "an opening closed",
        (
            _ITEM,
            _text("--name", "which opening", required=True),
            _text("--where", "where it is", required=True),
            _DUE,
        ),
    ),
    Command("opened", "opened", "a closed opening opened again", (_ITEM,)),
    Command(
        "off",
        "taken-off",
        "something taken off that has to go back",
        (
            _arg(
                "group",
                help="what kind of thing",
                choices=("connector", "hose", "strap", "bracket", "bolt", "cover", "part"),
            ),
            _ITEM,
            _text("--name", "what it is", required=True),
            _text("--place", "its place number", default=None),
            _DUE,
        ),
    ),
    Command(
        "refitted",
        "refitted",
        "something back in its place",
        (_ITEM, _text("--place", "the place number read there", default=None)),
    ),
    Command(
        "hold",
        "hold-proved",
        "a hold proved with the value seen",
        (
            _arg("hold", help="the hold, as `gudgeon ready` names it"),
            _arg("value", help="the value seen, never a bare `ok`"),
        ),
    ),
    Command("void", "hold-voided", "a hold that no longer stands", (_arg("hold", help="the hold"), _WHY)),
    Command(
        "timer",
        "timer-started",
        "a wait that runs: sealant, cool-down, bleed-down",
        (
            _arg("timer", help="its short name"),
            _arg("minutes", help="how long, in minutes", type=int),
            _text("--name", "what waits", required=True),
            _text("--task", "the work that has to wait", required=True),
            _DUE,
            _text("--why", "what the time rests on"),
        ),
    ),
    Command(
        "timer-ended",
        "timer-ended",
        "a wait ended before its time",
        (_arg("timer", help="its short name"), _text("--how", "why it is over", required=True)),
    ),
    Command(
        "part",
        "part-disposition",
        "what becomes of a part",
        (
            _arg("part", help="the part"),
            _arg("decision", help="what becomes of it", choices=("reuse", "rework", "renew", "accept")),
            _WHY,
        ),
    ),
    Command(
        "received",
        "part-received",
        "a part that came, compared with the old one or not",
        (
            _arg("part", help="the part"),
            _arg("--compared", help="laid against the old one", action="store_true"),
            _text("--note", "what was seen"),
        ),
    ),
    Command(
        "shop-out",
        "shop-out",
        "a part given to the machine shop",
        (
            _arg("part", help="the part"),
            _text("--shop", "which shop", required=True),
            _text("--ordered", "what was ordered", required=True),
            _text("--most-off", "the most that may be cut off, like `0.10 mm`", default=None),
        ),
    ),
    Command(
        "shop-back",
        "shop-back",
        "a part back from the machine shop",
        (_arg("part", help="the part"), _text("--found", "what was found", required=True)),
    ),
    Command(
        "accepted",
        "accepted",
        "something outside its limit accepted by a named person",
        (_arg("what", help="what is accepted"), _text("--by", "who accepts it", required=True), _WHY),
    ),
    Command(
        "pause",
        "paused",
        "a stop: what is in the hand, and what comes next",
        (
            _text("--hand", "what is in the hand, how it is set", required=True),
            _text("--next", "the next action", required=True),
        ),
    ),
    Command("note", "note", "anything else worth keeping", (_arg("text", help="the note"),)),
)

OUTCOMES = {
    "clicked": "clicked while turning",
    "at-once": "clicked at once",
    "angle-reached": "angle reached",
    "stopped": "stopped at",
    "done": "done",
    "doubtful": "doubtful",
}

RENAMED = {"due": "due_task", "next": "next_action"}
"""Options whose field in the entry has a longer name."""
