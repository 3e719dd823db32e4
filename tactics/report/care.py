"""Short words of care, where a plan or a page needs them. They defer to qualified people."""

from collections.abc import Mapping
from types import MappingProxyType

from tactics.model.plan import Care

AID = (
    "This is an aid for a qualified coach, who decides on court. It is the opinion of whoever "
    "wrote the rules, with reasons, and no medical advice."
)
CARE: Mapping[Care, str] = MappingProxyType(
    {
        Care.RESTRICTED: (
            "Safety first: the last lesson was marked as restricted. No serve and smash drills, no "
            "grading of effort, and the player stops before it hurts. Rest comes before practice; "
            "see a health professional if pain persists, wakes at night, follows a fall, or if a "
            "joint is swollen. With a child, tell a parent."
        ),
        Care.WARM_UP: (
            "Warm up before anything is fast. Clear the balls off the court, keep three metres "
            "free behind the baseline, feed away from faces, and let nobody aim at a body."
        ),
        Care.SHOULDER: "Warm up the shoulder on its own before serves and overheads.",
        Care.LOAD: "Count serves and overheads, and stop at the number you set beforehand.",
        Care.JUNIOR: (
            "Young players: count serves and overheads and stop early, plan days of rest, and stop "
            "a stroke that hurts during growth. The coach sets the limit."
        ),
        Care.WEATHER: (
            "In heat: shade, drinks, shorter blocks; stop with dizziness or cramps, and call for "
            "help with confusion or collapse. With lightning near, leave the court. The rules of "
            "your club and federation come first."
        ),
    }
)
