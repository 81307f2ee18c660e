"""The words for what is seen of a picture that no simulated fault explains. Pure."""

import re

LONGEST = 200
"""What comes behind so many characters is not read."""
TOLD: tuple[tuple[str, re.Pattern[str]], ...] = (
    (
        "picture collapsed to one line",
        re.compile(
            r"\bcollaps|\b(?:one|single|a)(?: (?:bright|thin|white|horizontal|vertical))+ line\b"
            r"(?! (?:at|on|to|in|beside|over|of))"
        ),
    ),
    (
        "wavy",
        re.compile(
            r"\bwav(?:y|es|ing)\b|\bsway|\bwobbl|\bhum\b|\bripple"
            r"|\b(?:hum|dark|drifting|moving|rolling) bars?\b|\bbars? (?:drift|mov|roll|climb)"
        ),
    ),
    (
        "rolling picture",
        re.compile(
            r"\broll(?:s|ing|ed)?\b(?![ -]?(?:over|off))|\bvertical hold\b"
            r"|\b(?:picture|screen|image) (?:runs|moves|slides|drifts) (?:up|down)"
            r"|\b(?:no|out of|lost|loses|bad) sync|(?:\bnot|n't|\bnever) lock"
        ),
    ),
    (
        "tearing",
        re.compile(
            r"\btear(?:s|ing)?\b|\btorn\b|\bshear|\bskew"
            r"|\bslant(?:s|ed|ing)? (?:picture|screen|image)"
            r"|\b(?:picture|screen|image) (?:is )?slant|\bbr(?:ea|o)k(?:s|en|ing)? up\b"
            r"|\bhorizontal hold\b"
        ),
    ),
    (
        "jitter",
        re.compile(
            r"\bjitter|\bshak(?:es|ing|y)\b|\btrembl|\bjump(?:s|ing|y)?\b|\bun(?:steady|stable)\b"
            r"|\bvibrat"
        ),
    ),
    (
        "cursor blinks too fast",
        re.compile(
            r"\b(?:blink|flash)(?:s|es|ing)? (?:too|very|so) (?:fast|slow|quick)"
            r"|(?:\bnot|n't|\bnever) (?:blink|flash)|\bblink rate\b"
        ),
    ),
    (
        "flickering",
        re.compile(r"\bflicker|^(?!.*cursor).*\b(?:flash(?:es|ing)|puls(?:at|ing))"),
    ),
    (
        "snow",
        re.compile(r"\bsnow|\bsparkl|\bspeckl|\bnois[ey]\b|\bglitter|\btwinkl|\brandom dots\b"),
    ),
    (
        "ghosting",
        re.compile(
            r"\bghost|\bdouble (?:image|picture)|\bshadow|\bringing\b|\bafter-?(?:image|glow)"
        ),
    ),
    (
        "smeared",
        re.compile(
            r"\bsmear|\bblur|\bfuzzy\b|\bunsharp\b|\bnot sharp\b|\bstreak|\bout of focus\b|\bsmudg"
        ),
    ),
    (
        "dim",
        re.compile(
            r"\bdim(?:mer|ming|med)?\b|\bfaint|\bpale\b|\bweak\b|\btoo (?:dark|bright)\b"
            r"|\b(?:low|no|little|poor) contrast\b|\bwashed out\b"
        ),
    ),
    (
        "doubled letters",
        re.compile(
            r"^(?!.*(?:\bhalf|\brow|\bcolumn|\bdot|\btop|\bbottom|\bupper|\blower|\bline))(?:"
            r".*\b(?:letters?|characters?|text|typed|typing|everything) "
            r"(?:\w+ ){0,3}(?:doubled?|twice)\b"
            r"|.*\b(?:doubled?|twice) (?:\w+ )?(?:letters?|characters?|text)\b)"
        ),
    ),
    (
        "too wide",
        re.compile(
            r"\btoo (?:wide|narrow|tall|small|large|big)\b|\bstretched|\bsqu(?:ashed|eezed)"
            r"|\bcompressed\b|\boverscan"
            r"|\b(?:picture|screen|image) (?:\w+ ){0,2}(?:narrow|small|tiny|huge|wide)\b"
        ),
    ),
    (
        "shifted to the right",
        re.compile(
            r"\b(?:shifted|displaced|pushed)\b|\boff.?cent|\bnot cent(?:re|er)"
            r"|\btoo far (?:\w+ ){0,2}(?:left|right|up|down)\b"
        ),
    ),
    (
        "comes and goes",
        re.compile(
            r"\bintermittent|\bcomes and goes\b|\bnow and (?:then|again)\b|\bsometimes\b"
            r"|\b(?:when|once|while)(?: it| it's)?(?: is| gets)? (?:warm|hot|cold)\b|\bwarms? up\b"
            r"|\bafter (?:\w+ ){0,3}minutes?\b"
        ),
    ),
)
"""Name of a symptom, and by which words in small letters it is told; the first that fits."""


def named_in(words: str) -> str:
    """Return the name of the symptom that `words` tell of; nothing where they tell of none."""
    told = words.lower()[:LONGEST].replace("\u2019", "'")
    return next((name for name, pattern in TOLD if pattern.search(told)), "")
