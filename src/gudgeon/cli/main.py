"""The command `gudgeon`: arguments are read here, and everything heavy is loaded only by the command that needs it."""

import argparse
import sys
from collections.abc import Sequence
from importlib import import_module

from gudgeon import __version__
from gudgeon.bench.recordable import RECORDABLES
from gudgeon.bench.recordable_inputs import MILESTONES
from gudgeon.cli.argument_types import count, port, trials
from gudgeon.cli.book_commands import add_book
from gudgeon.cli.engine_commands import Commands, add_buying, add_command, add_engine, add_running
from gudgeon.cli.label_commands import add_label
from gudgeon.cli.measure_arguments import add_arguments as add_measuring
from gudgeon.cli.planning_commands import add_planning
from gudgeon.cli.print_commands import add_printing
from gudgeon.cli.record_commands import add_arguments
from gudgeon.cli.share_command import add_sharing
from gudgeon.errors import GudgeonError

REFUSED = 2


def _common() -> argparse.ArgumentParser:
    common = argparse.ArgumentParser(add_help=False)
    common.add_argument(
        "--book",
        metavar="FILE",
        default=None,
        help="the book: a file or postgresql://… (else GUDGEON_BOOK, else the one in your data folder)",
    )
    common.add_argument(
        "--build", metavar="NAME", default=None, help="which engine, where the book holds several"
    )
    common.add_argument("--json", action="store_true", help="the answer as JSON")
    return common


def build_parser() -> argparse.ArgumentParser:
    """The whole command line."""
    parser = argparse.ArgumentParser(
        prog="gudgeon",
        description="A bench book that computes, for someone who rebuilds an engine alone.",
        epilog="The maker's current manual, local rules and licensed practice overrule this program.",
    )
    parser.add_argument("--version", action="version", version=f"gudgeon {__version__}")
    parser.add_argument(
        "--book",
        dest="book_before",
        metavar="FILE",
        default=None,
        help="the book, for a command that takes one; it may stand behind the command as well",
    )
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    common = _common()
    _questions(commands, common)
    _starting(commands, common)
    _recording(commands, common)
    _papers(commands, common)
    add_printing(commands, common)
    add_sharing(commands, common)
    _rest(commands, common)
    return parser


def _read(arguments: Sequence[str] | None) -> argparse.Namespace:
    """The arguments; a book named before the command is the one of the command."""
    parser = build_parser()
    chosen = parser.parse_args(arguments)
    before = vars(chosen).pop("book_before")
    if before is None:
        return chosen
    if not hasattr(chosen, "book"):
        parser.error("--book: this command works with no book; leave it out")
    if chosen.book not in (None, before):
        parser.error("--book names one book before the command and another behind it; name one")
    chosen.book = before
    return chosen


def _judge(commands: Commands, common: argparse.ArgumentParser) -> None:
    judge = add_command(
        commands, "judge", common, run="questions:judge", text="is it good: readings against limits"
    )
    judge.add_argument(
        "what", nargs="?", default=None, metavar="ITEM", help="a characteristic or a part (else everything)"
    )
    judge.add_argument(
        "--picture",
        default=None,
        metavar="FILE.svg",
        help="draw the face or the bores of this characteristic",
    )


def _questions(commands: Commands, common: argparse.ArgumentParser) -> None:
    asked = add_command(
        commands,
        "now",
        common,
        run="questions:now",
        text="what do I do now: in hand, ready, waiting, blocked, open",
    )
    asked.add_argument("--all", action="store_true", help="every task of the job, by its phase")
    _judge(commands, common)
    tighten = add_command(
        commands,
        "tighten",
        common,
        run="questions:tighten",
        text="what do I set: the pull list of a joint, resumed where the book says",
    )
    tighten.add_argument(
        "joint", nargs="?", default=None, help="the joint, by its key in the data sheet (else a list of all)"
    )
    tighten.add_argument(
        "--from", dest="start", type=count, default=None, metavar="PULL", help="show the list from this pull"
    )
    tighten.add_argument(
        "--loosening", action="store_true", help="how it is taken apart, where the sheet says it"
    )
    tighten.add_argument(
        "--bolts",
        dest="bolts_are",
        choices=("new", "used"),
        default="",
        help="for a program that differs for new and used bolts, as long as the book does not tell",
    )
    _bolts(commands, common)
    add_engine(commands, common)
    add_command(
        commands,
        "changes",
        common,
        run="changes:changes",
        text="what has changed: figures of sheet and kit that something in the book was made against",
    )
    ready = add_command(
        commands, "ready", common, run="questions:ready", text="may I start it: every reason why not"
    )
    ready.add_argument(
        "--for", dest="milestone", choices=MILESTONES, default="crank", help="before which milestone"
    )
    add_command(
        commands,
        "open",
        common,
        run="questions:open_lists",
        text="the four open lists: provisional, left in, plugged, left over",
    )
    add_label(commands, common)
    add_running(commands, common)
    add_planning(commands, common)
    add_buying(commands, common)


def _bolts(commands: Commands, common: argparse.ArgumentParser) -> None:
    reuse = add_command(
        commands, "reuse", common, run="reuse:reuse", text="which bolts of a joint may be used again"
    )
    reuse.add_argument("joint", help="the joint, by its key in the data sheet")
    clamp = add_command(
        commands,
        "clamp",
        common,
        run="clamp:clamp",
        text="what limits the clamp of a joint, and what would change it",
    )
    clamp.add_argument("joint", help="the joint, by its key in the data sheet")
    clamp.add_argument(
        "--what-if",
        action="append",
        default=[],
        metavar="WHAT",
        help="friction=A, skip=STAGE, wrench=KEY or by-eye; may stand more than once",
    )
    clamp.add_argument("--picture", default=None, metavar="FILE.svg", help="draw the band of each bolt")
    clamp.add_argument("--trials", type=trials, default=10_000, metavar="N", help="how many tightenings")
    clamp.add_argument("--seed", type=count, default=1, metavar="N", help="other chances")
    clamp.add_argument(
        "--bolts", dest="bolts_are", choices=("new", "used"), default="", help="as for `gudgeon tighten`"
    )


def _starting(commands: Commands, common: argparse.ArgumentParser) -> None:
    starting = add_command(
        commands,
        "start",
        common,
        run="recording:start",
        text="may I begin this task: it is begun, or refused with the reasons",
    )
    starting.add_argument("task", help="the task, by its title or words of it; `gudgeon now --all` names all")
    starting.add_argument(
        "--override", metavar="WHY", default="", help="begin it all the same, for this reason; shown for ever"
    )
    starting.add_argument("--by", metavar="NAME", default="", help="who answers for the override")


def _recording(commands: Commands, common: argparse.ArgumentParser) -> None:
    record = commands.add_parser(
        "record", help="write into the book", description="Write one entry into the book."
    )
    kinds = record.add_subparsers(title="what to record", metavar="WHAT", required=True)
    for one in RECORDABLES:
        made = add_command(kinds, one.name, common, run="recording:record", text=one.help)
        made.set_defaults(kind=one.kind)
        add_arguments(made, one)
    text = "measure a part, place after place; or take over a filled table, or a scanned face"
    add_measuring(add_command(commands, "measure", common, run="measuring:measure", text=text))
    strike = add_command(
        commands,
        "strike",
        common,
        run="recording:strike",
        text="strike a wrong entry: it stays legible and no longer counts",
    )
    strike.add_argument("entry", help="the entry, by its number or the first letters of its id")
    strike.add_argument("--why", required=True, metavar="TEXT", help="the reason")
    begin = add_command(commands, "begin", common, run="recording:begin", text="begin an engine in the book")
    begin.add_argument("name", help="a name for this build")
    begin.add_argument("--sheet", required=True, metavar="FILE", help="its data sheet")
    begin.add_argument("--kit", required=True, metavar="FILE", help="your kit")
    begin.add_argument(
        "--job", metavar="NAME", default="", help="how far the job goes, by its name (else: Top end)"
    )
    add_command(
        commands,
        "photos",
        common,
        run="photos:photos",
        text="the photos in the book, each file read to its end",
    )


def _papers(commands: Commands, common: argparse.ArgumentParser) -> None:
    sheet = commands.add_parser(
        "sheet", help="write and check a data sheet", description="Write and check a data sheet."
    )
    parts = sheet.add_subparsers(title="what to do", metavar="WHAT", required=True)
    blank = add_command(
        parts, "blank", run="papers:sheet_blank", text="write a commented blank sheet for a layout"
    )
    blank.add_argument("file", help="the file to write; it must not exist")
    blank.add_argument(
        "--layout",
        default="inline",
        choices=("single", "inline", "vee", "flat"),
        help="layout of the cylinders",
    )
    blank.add_argument("--cylinders", type=int, default=None, help="how many cylinders")
    blank.add_argument(
        "--drive", default="belt", choices=("belt", "chain", "gears"), help="what turns the camshaft"
    )
    blank.add_argument(
        "--valves", default="shims", choices=("shims", "screws", "hydraulic"), help="how the valves are set"
    )
    blank.add_argument("--cooling", default="liquid", choices=("liquid", "air"), help="how it is cooled")
    add = add_command(
        parts,
        "add",
        run="papers:sheet_add",
        text="write one figure after the other into a sheet, asking for value, unit and page",
    )
    add.add_argument("file", help="the data sheet")
    add.add_argument("path", nargs="?", default=None, help="which figure, like cylinder.bore (else it asks)")
    add.add_argument("--value", default=None, help="the figure with its unit")
    add.add_argument("--again", default=None, help="a critical figure once more")
    add.add_argument("--source", default=None, help="key of the source and page, like `manual p. 41`")
    check = add_command(
        parts, "check", run="papers:sheet_check", text="load a sheet, proof-read it, list its gaps"
    )
    check.add_argument("file", help="the data sheet")
    check.add_argument("--json", action="store_true", help="the answer as JSON")
    settle = add_command(
        parts, "settle", run="papers:sheet_settle", text="write what was decided about a finding of the check"
    )
    settle.add_argument("file", help="the data sheet")
    settle.add_argument("key", help="the key of the finding, as the check prints it")
    decided = settle.add_mutually_exclusive_group(required=True)
    for word, text in (
        ("kept", "the figure stays as it is printed"),
        ("asked", "somebody was asked; it no longer counts"),
        ("corrected", "it will be corrected; it counts until the figure is written"),
    ):
        decided.add_argument(f"--{word}", dest="decision", action="store_const", const=word, help=text)
    settle.add_argument("--why", required=True, metavar="TEXT", help="the reason, or who was asked")
    _photo_and_schema(parts)
    _kit(commands)


def _photo_and_schema(parts: Commands) -> None:
    photo = add_command(
        parts, "photo", run="papers:sheet_photo", text="keep a photo of a page of a source beside the sheet"
    )
    photo.add_argument("file", help="the data sheet")
    photo.add_argument("source", help="key of the source, like `manual`")
    photo.add_argument("page", help="the page as figures cite it, like `p. 49`")
    photo.add_argument("image", help="the photo: JPEG, PNG or WebP of at most 30 MB")
    schema = add_command(parts, "schema", run="papers:schema", text="print the JSON Schema that editors use")
    schema.add_argument("--of", default="sheet", choices=("sheet", "kit"), help="of which file")


def _kit(commands: Commands) -> None:
    kit = commands.add_parser("kit", help="write and check a kit", description="Write and check a kit.")
    kits = kit.add_subparsers(title="what to do", metavar="WHAT", required=True)
    kit_blank = add_command(kits, "blank", run="papers:kit_blank", text="write a commented blank kit")
    kit_blank.add_argument("file", help="the file to write; it must not exist")
    kit_check = add_command(
        kits,
        "check",
        run="papers:kit_check",
        text="load a kit, say which checks are due and which torques none of it measures",
    )
    kit_check.add_argument("file", help="the kit")
    kit_check.add_argument(
        "--sheet", metavar="FILE", default=None, help="a data sheet: what of it no wrench of yours measures"
    )
    kit_check.add_argument("--json", action="store_true", help="the answer as JSON")


def _rest(commands: Commands, common: argparse.ArgumentParser) -> None:
    calc = add_command(commands, "calc", run="sums:calc", text="list and run the calculators")
    calc.add_argument("name", nargs="?", default=None, help="the calculator (else a list of all)")
    calc.add_argument("inputs", nargs="*", metavar="key=value", help="its inputs, like torque='40 N·m'")
    calc.add_argument("--json", action="store_true", help="the answer as JSON")
    money = add_command(
        commands, "money", common, run="costs:money",
        text="what it will cost, as a range: expected, agreed, spent; the ceiling; 1 while it is above that",
    )  # fmt: skip
    money.add_argument("--closing", action="store_true", help="the closing account before it is handed over")
    money.add_argument("--picture", default=None, metavar="FILE.svg", help="draw the estimate at each point")
    add_book(commands, common)
    demo = add_command(
        commands, "demo", run="demo:demo", text="open a fresh copy of the invented job in a folder"
    )
    demo.add_argument("--folder", default=None, help="where to put it (else a folder in your data folder)")
    demo.add_argument("--show", action="store_true", help="answer every question of it at once")
    demo.add_argument("--json", action="store_true", help="the answer as JSON")
    serve = add_command(
        commands,
        "serve",
        run="serve:serve",
        text="the same answers and forms as pages, for this machine alone or for your own network",
    )
    serve.add_argument("--book", metavar="FILE", default=None, help="the book (as for the questions)")
    serve.add_argument(
        "--build", metavar="NAME", default=None, help="which engine, where the book holds several"
    )
    serve.add_argument("--port", type=port, default=None, help="the port (else 8765, or the next free one)")
    serve.add_argument(
        "--open", action=argparse.BooleanOptionalAction, default=True, help="open the browser at once"
    )
    serve.add_argument("--demo", action="store_true", help="serve a fresh copy of the invented job")
    serve.add_argument("--folder", default=None, help="where to put the invented job (as for `gudgeon demo`)")
    serve.add_argument(
        "--lan",
        action="store_true",
        help="listen to the network too, so that a phone reaches it; prints its address and a code to let it in",
    )
    serve.add_argument(
        "--https",
        action="store_true",
        help="encrypt the line, with a certificate of this machine's own that devices can trust",
    )
    _devices(commands)


def _devices(commands: Commands) -> None:
    devices = add_command(
        commands, "devices", run="devices:devices", text="the devices that may write: list, let in, take off"
    )
    either = devices.add_mutually_exclusive_group()
    either.add_argument(
        "--invite", action="store_true", help="print a code that lets another device in, once"
    )
    either.add_argument(
        "--remove", metavar="NAME", default=None, help="take a device off the list, by its name or its key"
    )
    devices.add_argument(
        "--at",
        metavar="ADDRESS",
        default=None,
        help="with a code: the address of the server, to print it as a picture for the camera of a phone",
    )
    devices.add_argument("--json", action="store_true", help="the answer as JSON")


def run(chosen: argparse.Namespace) -> int:
    """Load the module of the chosen command, and carry it out."""
    module, _, function = chosen.run.partition(":")
    code: int = getattr(import_module(f"gudgeon.cli.{module}"), function)(chosen)
    return code


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; 0 done or yes, 1 the answer is no, 2 refused, 3 yes with something accepted."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    try:
        chosen = _read(arguments)
    except GudgeonError as error:
        print(error, file=sys.stderr)
        return REFUSED
    try:
        code = run(chosen)
        sys.stdout.flush()
    except GudgeonError as error:
        print(error, file=sys.stderr)
        return REFUSED
    except KeyboardInterrupt:
        print(
            "\nStopped. What was recorded before is in the book; what was being written is there whole, or not at all.",
            file=sys.stderr,
        )
        return REFUSED
    except BrokenPipeError:
        sys.stderr.close()
        return REFUSED
    except OSError as error:
        name = f"{error.filename}: " if error.filename else ""
        print(
            f"{name}{error.strerror or error}. Nothing was written; check the disk and the rights of the folder.",
            file=sys.stderr,
        )
        return REFUSED
    finally:
        getattr(chosen, "done", lambda: None)()
    return code


if __name__ == "__main__":
    raise SystemExit(main())
