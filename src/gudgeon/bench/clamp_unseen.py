"""What a model of bolts and friction does not see when a stage is left out: it is said before any figure."""

from gudgeon.sheet.joints import Joint, Stage

PULLS = ("torque", "turn", "loosen")
ZERO = (
    "a turn is counted from this stage. Without it the zero of the turn is lost: bolts that were never in touch count "
    "as turned"
)
SEATING = (
    "this stage settles the gasket and draws the parts together before the torque that counts. Without it the gasket "
    "is not settled evenly"
)
LAST = (
    "whether the joint holds with what is left. The program ends at a clamp that its maker has tried, and without this "
    "stage it is not reached"
)
VERIFY = "this stage finds the bolt that is not at its torque. Without it such a bolt stays as it is, and nobody knows"
WAIT = (
    "the gasket settles while one waits, and the stages after it make good what that took. Without the wait it goes on "
    "settling afterwards, and not evenly"
)


def unseen(joint: Joint, skipped: int) -> str:
    """What the figures leave out when a stage is left out; nothing where none is."""
    if not skipped:
        return ""
    return f"What the model does not see: {_why(joint, joint.program[skipped - 1], skipped)}."


def _why(joint: Joint, stage: Stage, number: int) -> str:
    if stage.kind == "verify":
        return VERIFY
    if stage.kind == "wait":
        return WAIT
    later = [one for one in joint.program[number:] if one.kind in PULLS]
    if stage.kind in ("torque", "hand-run", "draw down") and _turn_next(joint, stage, later):
        return ZERO
    if stage.kind == "loosen" or (stage.kind != "turn" and any(one.kind != "turn" for one in later)):
        return SEATING
    return LAST


def _turn_next(joint: Joint, stage: Stage, later: list[Stage]) -> bool:
    """Whether the next pull of one of its bolts is a turn."""
    for bolt in joint.stage_bolts(stage):
        own = [one for one in later if bolt in joint.stage_bolts(one)]
        if own and own[0].kind == "turn":
            return True
    return False
