"""Phrases for a part of a screen put into few words, for a table of patterns to read. Pure."""

import re

_SHORTER = (
    (r"(?<=\d) ?(?:\.\.+|–) ?(?=\d)", "-"),
    (r"[()\"'!.;:?]", " "),
    (r"\bboth (?:halves|sides)\b", "everywhere"),
    (r"\b(left|right) of (?:the )?(?:middle|cent(?:re|er))\b", r"\1 half"),
    (r"\bcent(?:re|er)\b", "middle"),
    (r"\bto (?:the )?(left|right) of\b", r"\1"),
    (r"\b(?:near|close to|towards?)\b", " "),
    (r"\band (?:higher|above|beyond)\b", "onwards"),
    (r"\b(upper|lower|top|bottom)[ -](left|right)$", r"\1 \2 corner"),
    (r"^(?:in )?(?:groups?|blocks?|sets?|bands?|stripes?) of (?=\d)", "alternate "),
    (r"\b(?:1|every) (row|line|col(?:umn)?|character) (?:in|out of) (\d+)\b", r"every \2 \1"),
    (r"\b1 (?:in|out of) (?:every )?(?=\d+ (?:row|line|col|character))", "every "),
    (r"\b(?:beginnings?|starts?)\b", "left edge"),
    (r"(?<!the )\bends?\b(?= of)|^(?:at |in |on )?the ends?\b", "right edge"),
    (r"\bto (?:the )?end\b|\band following\b|\bdown(?:wards?)?$", "onwards"),
    (r"\b(?:part|portion|area|region)\b", "side"),
    (r"\b(?:one|a|single|1)(?: single)? (?:cell|spot|place)\b", " "),
    (r"\bcharacters?(?: positions?)?\b|\bcols?\b|\bcolumns\b|\bpositions?\b", "column"),
    (r"\blines?\b|\brows\b", "row"),
    (r"\b(?:and|of|in|on|at|to|within|across|for)? ?(?:the )?(?:each|every|all|any) row\b$", " "),
    (r"\b(?:of|in|on|at|down|for) (?:each|every|all|any) column\b$", " "),
    (r"\bevery (?:other|second|2nd|2)\b|\balternat(?:e|ing|ive)\b|\beach second\b", "alternate"),
    (r"\bupper(?:most)?\b|\btopmost\b", "top"),
    (r"\blower(?:most)?\b|\bbottommost\b", "bottom"),
    (r"\bleft ?-? ?(?:most|hand)\b", "left"),
    (r"\bright ?-? ?(?:most|hand)\b", "right"),
    (r"\bextreme\b|\bvery\b|\bfinal\b", " "),
    (r"\b(?:groups?|blocks?|sets?|runs?) of\b", " "),
    (r"\bquadrant\b", "corner"),
    (r"-?\bnumbered\b|\bnumbers?\b|\bno\b", " "),
    (r"\b(?:each|every|all|any) (?=odd|even)", " "),
    (r"\bthrough\b|\bthru\b|\bto\b|\buntil\b|\bup to\b", "-"),
    (r"\bbetween (row|column) (\d+) and (\d+)", r"\1 \2-\3"),
    (r"\s*-\s*", "-"),
    (r"\bwhole (?:of )?(?:the )?(?=row \d|column \d|\w+ row)", " "),
    (r"\b(?:the|an?|only|just|of|in|at|on|is|are|it|its|wrong|bad|screen|display)\b", " "),
)
_SHORTEST = [(re.compile(pattern), by) for pattern, by in _SHORTER]
_BRIEF = re.compile(r"(?<![a-z])([rc])(?=\d)")
"""`r5 c7`, `r5c7`."""
_AXES = {"r": " row ", "c": " column "}
_NUMBERS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"]
_ORDINALS = ["second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"]
_MORE_NUMBERS = re.compile(r"[\d\s,-]+|[\d\s,-]*\band [\d\s-]+")
_PARTED = re.compile(
    r",|;|\band (?=(?:the |in |on |only )*(?:odd|even|left|right|top|bottom|upper|lower|row|line"
    r"|col|every other|alternate))"
    r"|(?<!left )(?<!right )\b(?:of|in|on) (?:the |all |every |each )?"
    r"(?=(?:odd|even|every other|every second|alternate)\b"
    r"|(?:row|line|col(?:umn)?)s? \d|(?:top|bottom|left|right|upper|lower|first|last) )"
    r"|(?<=\d)[ /](?=(?:row|line|col|char|pos)\w* \d)"
)
"""Where one phrase ends, and another begins."""


def phrases_of(told: str) -> list[str]:
    """Return the phrases that commas part; a list of numbers stays together."""
    phrases: list[str] = []
    spelled = " ".join(_BRIEF.sub(lambda letter: _AXES[letter[1]], told).split())
    for part in _PARTED.split(spelled):
        if phrases and _MORE_NUMBERS.fullmatch(part.strip()):
            phrases[-1] += f" and {part}"
        else:
            phrases.append(part)
    return [_shortened(phrase) or "everywhere" for phrase in phrases if phrase.strip()]


def _shortened(phrase: str) -> str:
    for number, word in enumerate(_NUMBERS, 1):
        phrase = re.sub(rf"\b{word}\b", str(number), phrase)
    phrase = re.sub(rf"\b({'|'.join(_ORDINALS)})\b(?= (?:row|line|col))", _in_digits, phrase)
    for pattern, by in _SHORTEST:
        phrase = pattern.sub(by, phrase)
    return " ".join(phrase.split())


def _in_digits(ordinal: re.Match[str]) -> str:
    before = ordinal.string[: ordinal.start()].split()
    if before[-1:] in (["every"], ["each"]) and ordinal[1] == "second":
        return ordinal[1]
    return f"{_ORDINALS.index(ordinal[1]) + 2}th"
