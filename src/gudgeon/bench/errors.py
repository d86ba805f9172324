"""What the bench refuses, one class per cause."""

from collections.abc import Iterable

from gudgeon.bench.codes import in_a_command
from gudgeon.errors import InputError, RecordError, short


def _list(names: Iterable[str]) -> str:
    return ", ".join(names) or "none"


class EngineNotRead(RecordError):
    """Torques and limits stay locked until the code has been read off the engine."""

    def __init__(self, codes: Iterable[str], where: str) -> None:
        super().__init__(
            f"Figures are locked: the engine code has not been read off the engine. The sheet is for {_list(codes)}.\n"
            f"Read it ({where}) and record it: gudgeon record identity CODE --read-from WHERE"
        )


class EngineDiffers(RecordError):
    """The code read is not one of the sheet's, and nobody has said why the sheet serves."""

    def __init__(self, code: str, codes: Iterable[str]) -> None:
        super().__init__(
            f"Figures are locked: `{code}` was read off the engine, the sheet is for {_list(codes)}.\n"
            "Use the sheet of this engine, or say why this one serves: "
            f"gudgeon record identity {in_a_command(code)} --why REASON"
        )


class NoLoosening(InputError):
    """A joint whose sheet does not say how it is taken apart."""

    def __init__(self, joint: str) -> None:
        super().__init__(
            f"The sheet states no loosening program for {joint}. If the manual gives one, write it: "
            "`loosening:` with lines like `- loosen: 90°`."
        )


class NoBook(InputError):
    """There is no book yet."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"There is no book at {path}. Begin one with `gudgeon begin NAME --sheet FILE --kit FILE`, "
            "or look at the invented job with `gudgeon demo`."
        )


class WhichBuild(InputError):
    """The book holds several engines and none was named."""

    def __init__(self, builds: Iterable[str]) -> None:
        super().__init__(f"The book holds several builds: {_list(builds)}. Say which with --build NAME.")


class NoSuchBuild(InputError):
    """The book does not hold this engine."""

    def __init__(self, build: str, builds: Iterable[str]) -> None:
        super().__init__(f"There is no build `{build}` in this book. It holds: {_list(builds)}.")


class BuildExists(InputError):
    """A build of this name is there already."""

    def __init__(self, build: str) -> None:
        super().__init__(
            f"The build `{build}` is in this book already. Choose another name, or go on with it."
        )


class Unknown(InputError):
    """A name that the sheet, the kit or the lists do not know."""

    def __init__(self, what: str, name: str, known: Iterable[str]) -> None:
        super().__init__(f"`{short(name)}` is no {what} here. Known: {_list(known)}.")


class NotOpen(RecordError):
    """Something is to be closed that is not on its list."""

    def __init__(self, what: str, item: str, open_items: Iterable[str]) -> None:
        super().__init__(f"`{item}` is not on the list of what is {what}. On it: {_list(open_items)}.")


class NothingNamed(RecordError):
    """Something is to be closed, and nobody says what."""

    def __init__(self, what: str, open_items: Iterable[str]) -> None:
        super().__init__(
            f"A blank names nothing on the list of what is {what}. On it: {_list(open_items)}. "
            "Name one of them by its key, its place number, or words of its name."
        )


class SeveralFit(RecordError):
    """Something is to be closed by words that fit several things on its list."""

    def __init__(self, what: str, said: str, fitting: Iterable[str]) -> None:
        super().__init__(
            f"`{short(said)}` fits several things on the list of what is {what}: {_list(fitting)}. "
            "Nothing was written. Name the one you mean by its key."
        )


class AlreadyOpen(RecordError):
    """Something is put on a list on which it is already."""

    def __init__(self, what: str, item: str) -> None:
        super().__init__(
            f"`{item}` is already on the list of what is {what}. Close it first, or use another name."
        )


class StruckBefore(RecordError):
    """An entry that is to be struck and was struck before."""

    def __init__(self, number: int, *, by: str, why: str) -> None:
        super().__init__(
            f"Entry {number} was struck before, by {by}: {why}. It does not count any more; nothing was written."
        )


class JointHasNoPlaces(InputError):
    """Words behind a joint that is to be accepted: it is let be as a whole."""

    def __init__(self, key: str, rest: str) -> None:
        super().__init__(
            f"`{short(rest)}` is no place of the joint `{key}`: a joint is accepted as a whole, by its key alone. "
            "What about it is let be, say in the reason (--why)."
        )


class FarFromRange(InputError):
    """A reading so far from the sheet that a slip is likelier than the wear."""

    def __init__(self, text: str, of: str, hint: str) -> None:
        super().__init__(f"{text} is far from {of}. {hint} If it is what the gauge says, add --sure.")


class NotThisStage(InputError):
    """A pull that the program of the joint does not hold."""

    def __init__(self, joint: str, said: str, allowed: str) -> None:
        super().__init__(f"{said} is not in the program of {joint}. {allowed}")


class OutcomeRefused(InputError):
    """An outcome that a stage of this kind cannot have."""

    def __init__(self, outcome: str, kind: str, allowed: Iterable[str]) -> None:
        super().__init__(
            f"`{outcome}` cannot be the outcome of a stage of the kind `{kind}`. It can be: {_list(allowed)}."
        )


class AngleRefused(InputError):
    """An angle outside what the stage can turn."""

    def __init__(self, said: str, most: str) -> None:
        super().__init__(
            f"An angle of {said}° cannot be: the stage turns from 0° to at most {most}. Read it again."
        )


class InDoubt(RecordError):
    """The next pull of a joint is not offered while something about it is in doubt."""

    def __init__(self, joint: str, doubts: Iterable[str], rule: str) -> None:
        super().__init__(
            f"{joint}: in doubt ({'; '.join(doubts)}), so no next pull is offered. {rule}\n"
            "Slackened: gudgeon record disturbed JOINT --why …; a wrong entry: gudgeon strike ID --why …; "
            "a pull made all the same: name --stage and --bolt."
        )


class GateRefuses(RecordError):
    """An act is asked for that a gate refuses with the engine as it is known."""

    def __init__(self, what: str, refused: Iterable[tuple[str, str]]) -> None:
        lines = [f"{why}.\n  {way_out}." for why, way_out in refused]
        super().__init__(
            f"{what}: not now. "
            + "\n".join(lines)
            + "\nWhat was done all the same is recorded as it happened, by its stage and its place."
        )


class TaskRefused(RecordError):
    """A task is asked for that has to wait."""

    def __init__(self, task: str, refused: Iterable[str]) -> None:
        super().__init__(
            f"“{task}” has to wait: {'; '.join(refused)}.\nClose that first. If somebody answers for beginning "
            "it all the same: gudgeon start TASK --override WHY --by NAME. If it was begun already: "
            "gudgeon record task-started."
        )


class CannotWorkOut(InputError):
    """A consequence needs figures that the sheet or the book does not have."""

    def __init__(self, what: str, missing: Iterable[str]) -> None:
        super().__init__(f"{what} cannot be worked out. Missing: {_list(missing)}.")
