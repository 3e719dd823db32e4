"""Mix rules and what was seen of them as plain values."""

from collections.abc import Sequence

from tactics.model.mix_rule import Share
from tactics.review.mix import MixGroup, MixReview, Place


def mixes_as_json(reviews: Sequence[MixReview]) -> list[dict[str, object]]:
    """Return what every mix rule found, with counts, n and exact 95 % intervals."""
    return [
        {
            "mix": review.mix.id,
            "title": review.mix.title,
            "at most": _share(review.mix.at_most),
            "at least": _share(review.mix.at_least),
            "over at least": review.mix.over,
            "groups": [_group(group) for group in review.groups],
            "not counted": review.left_out,
            "not charted": dict(review.missing),
        }
        for review in reviews
    ]


def _share(share: Share | None) -> list[int] | None:
    return None if share is None else [share.count, share.of]


def _group(group: MixGroup) -> dict[str, object]:
    return {
        "of": dict(group.split),
        "n": group.n,
        "places": [_place(place) for place in group.places],
    }


def _place(place: Place) -> dict[str, object]:
    return {
        "place": place.name,
        "balls": place.seen.count,
        "interval": list(place.interval),
        "says": None if place.says is None else str(place.says),
        "standing": str(place.standing),
        "beyond chance": place.beyond_chance,
        "points won": _points(place),
    }


def _points(place: Place) -> dict[str, object]:
    interval = list(place.won_interval) if place.won.n else None
    return {"won": place.won.count, "n": place.won.n, "interval": interval}
