"""Slots typed as elsewhere: each habit gets its own finding with the right form; nothing is guessed."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from lickwright.instrument.tuning import MOST_STRINGS
from lickwright.reading.collector import quote
from lickwright.reading.foreign_signs import explain_foreign, plainly, straighten_quotes
from lickwright.reading.nearest import find_nearest
from lickwright.reading.stringless import find_headless, find_letter

if TYPE_CHECKING:
    from lickwright.reading.strikes import Hand
    from lickwright.text import Span

_HEAD = r"(?:x|[th]?[0-9]{1,2}|[0-9]{0,2}<[0-9]{1,2}(?:\.[0-9]{1,2})?>)"
_BENDS = r"(?:(?:[pn]?b|r)[0-9]{1,2}(?:\.5)?)*"
_NOTE = rf"[0-9]{{1,2}}:(?:{_HEAD}{_BENDS}~?|[br][0-9]{{1,2}}(?:\.5)?)"
_WHOLE = re.compile(rf"[/\\]?{_NOTE}(?:\+{_NOTE})*[/\\]?!?'?\^?")
_SIGNS = re.compile(r"(.*?)([/\\!'^~]+)\Z", re.DOTALL)
_FRET = r"[0-9]{1,2}(?:b[0-9]{1,2}(?:\.5)?(?:r[0-9]{1,2}(?:\.5)?)?)?~?"
_CHAIN = re.compile(
    rf"([0-9]{{1,2}}):({_FRET})((?:(?:[hps]!?|[/\\])(?:[0-9]{{1,2}}:)?{_FRET})+)", re.IGNORECASE
)
_LINK = re.compile(rf"([hps]!?|[/\\])(?:([0-9]{{1,2}}):)?({_FRET})", re.IGNORECASE)
_STRINGLESS = re.compile(r"([0-9]{1,2})([hps/\\])([0-9]{1,2})", re.IGNORECASE)
_ATTACHED = re.compile(rf"([hps]!?)({_NOTE})|({_NOTE})([hps]!?)", re.IGNORECASE)
_SEPARATED = re.compile(rf"([0-9])[.;,=_]([0-9]{{1,2}}{_BENDS}~?)")
_AIMLESS = re.compile(r"([0-9]{1,2}:[0-9]{1,2})(?:[pn]?b(?:full|½|1/2|)|\^)(?:r([0-9]*))?", re.IGNORECASE)
_AMOUNT = re.compile(r"([0-9]{1,2}:([0-9]{1,2})(?:p|n)?b)(full|1/2|1/4|½|¼|1½|\+([0-9]))~?", re.IGNORECASE)
_AMOUNTS = {"full": 4, "1/2": 2, "½": 2, "1/4": 1, "¼": 1, "1½": 6}
"""Sizes of bends in quarter tones."""
_FINE = re.compile(r"[0-9]{1,2}:[0-9]{1,2}(?:[pn]?b|r)[0-9]{1,2}\.[0-9]+.*")
_DASHED = re.compile(r"([0-9]{1,2}):([0-9]{1,2})[-–—](?:([0-9]{1,2}):)?([0-9]{1,2})")
_SHAPE = re.compile(r"[A-Z][A-Za-z0-9#♯♭-]*")
_SWAPPED = re.compile(rf"([0-9]{{1,2}}):([0-9]{{1,2}})({_BENDS}~?)")

WORDS = {
    **dict.fromkeys(("H", "ho", "HO", "Ho", "hammer"), "h"),
    **dict.fromkeys(("P", "po", "PO", "Po", "pull"), "p"),
    **dict.fromkeys(("S", "sl", "SL", "Sl", "slide"), "s"),
    "S!": "s!",
    **dict.fromkeys(("r", "R", "z"), "."),
    **dict.fromkeys(("–", "—", "_", "−", "="), "-"),
    **dict.fromkeys(("PM", "P.M.", "p.m.", "pm"), "mute["),
    "L.R.": "ring[",
    "mute": "mute[",
    "ring": "ring[",
}
_SAID = {
    "h": "a hammer-on is a small h between two sounds",
    "p": "a pull-off is a small p between two sounds",
    "s": "a slide is a small s between two sounds",
    "s!": "a slide with both ends struck is s!",
    ".": "a rest is a point",
    "-": "a hold is a plain hyphen",
    "mute[": "palm mute is mute[ before the first sound and ] after the last",
    "ring[": "let ring is ring[ before the first sound and ] after the last",
}


def is_strike(token: str) -> bool:
    """Tell whether a token has the form of a strike."""
    return _WHOLE.fullmatch(token) is not None


def swap_string_and_fret(token: str, strings: int) -> str | None:
    """Turn ``12:3`` into ``3:12``.

    Returns:
        The right form; empty when the two look swapped but no right form follows; None
        when they do not look swapped.
    """
    found = _SWAPPED.fullmatch(token)
    if not found or int(found[1]) <= MOST_STRINGS or not 1 <= int(found[2]) <= MOST_STRINGS:
        return None
    if found[3].strip("~") or int(found[2]) > strings:
        return ""
    return f"{found[2]}:{found[1]}{found[3]}"


def explain_slot(token: str, span: Span, hand: Hand) -> None:
    """Report a token that is no slot: as a habit where it is a known one.

    The right form of a habit goes to ``hand.mended``, so that the bar is read on as it was meant
    and nothing else is reported of it.
    """
    shown = quote(token, 24)
    foreign = explain_foreign(token) if not token.isascii() else ""
    straight = straighten_quotes(token)
    if foreign and not is_strike(straight):
        _explain_foreign(token, foreign, span, hand)
        return
    habit = find_letter(token, hand.tuning) if len(token) <= 24 else None
    habit = habit or _find_habit(token)
    if habit is not None:
        message, right, hint = habit
        hand.found.add("syntax/habit", message, span, hint=hint, fix=right or None)
        hand.mended = right or (f"{token} {token}" if _STRINGLESS.fullmatch(token) else None)
        return
    if _SHAPE.fullmatch(token.rstrip("!'^")):
        near = find_nearest(token, (*hand.shapes, *hand.inherited))
        hint = (
            f"did you mean {near}" if near else f"name it in a field first, as in shape {shown}: 6:3+5:2+4:0"
        )
        hand.found.add("syntax/slot", f"{shown} is no shape of this lick", span, hint=hint)
    elif re.fullmatch(r"[0-9]{1,2}:[0-9]{3,}.*", token):
        hand.found.add("syntax/slot", f"{shown} names a fret that no guitar has", span)
    elif token.isdecimal():
        hint = "write the string before it, as in 3:5"
        hand.found.add("syntax/slot", f"{shown} is a fret without its string", span, hint=hint)
    else:
        hint = "a slot is a sound such as 4:5 or 2:3+3:4, a hold -, a rest ., a join h p s s! or a group"
        hand.found.add("syntax/slot", f"{shown} is no slot: STRING:FRET was expected", span, hint=hint)


def _explain_foreign(token: str, message: str, span: Span, hand: Hand) -> None:
    plain = plainly(token)
    right = plain if not plain or plain in _SAID or is_strike(plain) or plain in hand.shapes else None
    hint = "type it anew: signs that look alike are not the same to a reader of text"
    hand.found.add("syntax/habit", message, span, hint=hint, fix=right)
    hand.mended = right


def _find_habit(token: str) -> tuple[str, str, str] | None:
    """Return message, right form (empty: there is more than one) and hint."""
    if len(token) > 64:
        return None
    shown = quote(token, 24)
    right = WORDS.get(token)
    if right:
        return f"{shown} is not a slot here: {_SAID[right]}", right, ""
    if len(token) > 1 and not token.strip("-.–—_"):
        return f"{shown} needs blanks: every hold and rest is a slot of its own", _part(token), ""
    if token != token.lower() and is_strike(token.lower()):
        return f"{shown} has a capital letter: the signs of a note are small letters", token.lower(), ""
    straight = straighten_quotes(token)
    if straight != token and is_strike(straight):
        return f"{shown} has a curly quotation mark: short is a straight one, '", straight, ""
    signed = _order_signs(token)
    if signed:
        return f"the signs of {shown} stand in another order", signed, "the order is ~ / \\ ! ' ^"
    return (
        _find_bend_size(token, shown)
        or _find_joined(token, shown)
        or _find_other(token, shown)
        or find_headless(token)
    )


def _part(token: str) -> str:
    return " ".join("." if sign == "." else "-" for sign in token)


def _order_signs(token: str) -> str:
    found = _SIGNS.fullmatch(token)
    if not found or not found[1]:
        return ""
    signs = "".join(sign for sign in "~/\\!'^" if sign in found[2])
    right = found[1] + signs
    return right if right != token and len(right) == len(token) and is_strike(right) else ""


def _find_bend_size(token: str, shown: str) -> tuple[str, str, str] | None:
    amount = _AMOUNT.fullmatch(token)
    if amount:
        quarters = 2 * int(amount[4]) if amount[4] else _AMOUNTS[amount[3].casefold()]
        fret, half = divmod(2 * int(amount[2]) + quarters, 2)
        right = f"{amount[1]}{fret}{'.5' if half else ''}{'~' if token.endswith('~') else ''}"
        message = f"{shown} names how far the string is bent: the fret whose pitch is reached is written"
        return message, right, f"from fret {amount[2]} that is fret {fret}{'.5' if half else ''}"
    if _FINE.fullmatch(token) and not is_strike(token):
        hint = "half a fret, .5, is a quarter tone, as in 3:7b9.5; write that, or the whole fret"
        return f"{shown} bends to a part of a fret that is not written", "", hint
    return None


def _find_joined(token: str, shown: str) -> tuple[str, str, str] | None:
    chain = _CHAIN.fullmatch(token)
    if chain:
        string = chain[1]
        words = [f"{string}:{chain[2]}"]
        for join, other, fret in _LINK.findall(chain[3]):
            string = other or string
            words += ["s" if join in "/\\" else join.lower(), f"{string}:{fret}"]
        return f"{shown} is two sounds in one slot: a join stands by itself between them", " ".join(words), ""
    dashed = _DASHED.fullmatch(token)
    if dashed:
        right = f"{dashed[1]}:{dashed[2]} s {dashed[3] or dashed[1]}:{dashed[4]}"
        return f"{shown} is two sounds in one slot: a slide is s between them, not a dash", right, ""
    bare = _STRINGLESS.fullmatch(token)
    if bare:
        sign = "s" if bare[2] in "/\\" else bare[2].lower()
        hint = f"write both sounds with their string, on string 3: 3:{bare[1]} {sign} 3:{bare[3]}"
        return f"{shown} names no string, and a join stands by itself between two sounds", "", hint
    attached = _ATTACHED.fullmatch(token)
    if attached:
        left, right = (
            (attached[1].lower(), attached[2]) if attached[1] else (attached[3], attached[4].lower())
        )
        return f"{shown} needs a blank: a join stands by itself between two sounds", f"{left} {right}", ""
    return None


def _find_other(token: str, shown: str) -> tuple[str, str, str] | None:
    parted = _SEPARATED.fullmatch(token) or re.fullmatch(rf"([0-9])-([0-9]{{1,2}}{_BENDS}~?)", token)
    if parted:
        return f"{shown} needs a colon between string and fret", f"{parted[1]}:{parted[2]}", ""
    for sign in ",&":
        if sign in token and is_strike(token.replace(sign, "+")):
            right = token.replace(sign, "+")
            return f"{shown}: notes sounded together are joined by +", right, ""
    if token.endswith(("~~", "v")) and is_strike(token.rstrip("~v") + "~"):
        return f"{shown}: vibrato is one ~", token.rstrip("~v") + "~", ""
    aimless = _AIMLESS.fullmatch(token)
    if aimless:
        hint = "write the fret whose pitch is reached: 2:15b17 is a whole step, 2:15b16 half a step"
        return f"{shown} does not say how far the string is bent", "", hint
    return None
