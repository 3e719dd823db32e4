"""The words of questions and options. All options of a question are made from one pattern."""

from collections.abc import Mapping, Sequence

from tactics.model.scenario import Ask
from tactics.model.trait import Kind, Trait
from tactics.model.vocabulary import Vocabulary
from tactics.quiz.plain import Value
from tactics.report.visible import visible

_OPTION_WORDS: Mapping[str, Mapping[str, str]] = {
    "direction": {
        "middle": "to the middle", "T": "down the T", "at body": "at the body",
        "behind": "behind the runner", "wide": "out wide",
    },
    "depth": {"drop": "very short", "mid": "mid-length"},
    "spin": {
        "top": "topspin", "heavy top": "heavy topspin", "side": "sidespin",
    },
    "afterwards": {
        "recover": "recover to your place", "follow in": "follow the ball in",
        "hold ground": "hold your ground here", "back up": "back up a few steps",
        "watch": "watch where it lands",
    },
    "stance": {
        "split": "land from a split step", "on the move": "stay on the move",
        "flat-footed": "stand still and wait",
    },
    "response": {
        "played": "play the ball and go on", "let go": "let the ball go past you",
        "stopped before a call": "stop and ask for a call",
    },
}  # fmt: skip
_NUMBERS: Mapping[str, str] = {
    "height over net": "{:.1f} m over the net",
    "inside line": "{:.1f} m inside the line",
    "pace": "{:.0f} % pace",
}
_AT_NOTHING: Mapping[str, str] = {
    "height over net": "hardly over the net",
    "inside line": "right on the line",
}
_LEAST_SHOWN = 0.05
_WISHES: Mapping[str, str] = {
    "keep in play": "keep the ball in play", "build": "build the point",
    "force": "force them", "finish": "finish the point", "approach": "come in behind it",
    "pass": "pass them", "dip at the feet": "make it dip at their feet",
    "lob": "lob them", "drop": "play it short", "surprise": "surprise them",
}  # fmt: skip
_ROADS: Mapping[str, str] = {
    "middle": "to the middle",
    "T": "to the T",
    "at body": "at the body",
    "behind": "behind the runner",
    "wide": "out wide",
    "sharp angle": "at a sharp angle",
}
_QUESTIONS: Mapping[Ask, str] = {
    Ask.SHOT: "Which shot would you play?",
    Ask.NAME: "What do you see here?",
    Ask.AIM: "Where do you aim?",
    Ask.HEIGHT: "How high over the net?",
    Ask.AFTER: "What do you do next?",
    Ask.SERVE: "Which serve would you hit?",
    Ask.PLAY_ON: "Nobody has called the ball. What do you do?",
}


def option_text(values: Mapping[str, Value], order: Sequence[str], words: Vocabulary) -> str:
    """Return an option as shown: its parts in one order, `Build, crosscourt, 70 % pace`."""
    said = [_said(part, values[part], words.trait(part)) for part in order]
    text = visible(", ".join(said))
    return text[:1].upper() + text[1:]


def _said(part: str, value: Value, trait: Trait) -> str:
    if isinstance(value, str):
        return _OPTION_WORDS.get(part, {}).get(value, value)
    number = float(value or 0.0)
    if part in _AT_NOTHING and number < _LEAST_SHOWN:
        return _AT_NOTHING[part]
    if part in _NUMBERS:
        return _NUMBERS[part].format(number)
    if trait.kind is Kind.NUMBER and trait.words:
        band = next(word.name for word in trait.words if word.low <= number < word.high)
        return _OPTION_WORDS.get(part, {}).get(band, band)
    return f"{number:g} {trait.unit.value if trait.unit else ''}".strip()


def question(ask: Ask, context: Mapping[str, Value]) -> str:
    """Return the question, with the parts of the choice that are given beforehand."""
    return visible(" ".join(each for each in (_given(context), _QUESTIONS[ask]) if each))


def _given(context: Mapping[str, Value]) -> str:
    said = []
    if isinstance(stroke := context.get("stroke"), str) and stroke != "serve":
        said.append(f"You take it with {_article(stroke)}.")
    intent, road = context.get("intent"), context.get("direction")
    wish = f"to {_WISHES.get(intent, intent)}" if isinstance(intent, str) else ""
    verb = "serve" if context.get("stroke") == "serve" or road in ("wide", "T") else "go"
    way = f"{verb} {_ROADS.get(road, road)}" if isinstance(road, str) else ""
    if way or wish:
        said.append(f"You {way} {wish}.".replace("  ", " ") if way else f"You want {wish}.")
    return " ".join(said).replace(" .", ".")


def _article(word: str) -> str:
    return f"{'an' if word[0] in 'aeiou' else 'a'} {word}"
