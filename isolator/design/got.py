"""Where things are got, as cards and briefs call it."""

from __future__ import annotations

from typing import Final

PRINTED: Final = "printed"
HARDWARE: Final = "hardware shop"
POST: Final = "specialist online"
ORDERED: Final = "ordered"

FOUND: Final[tuple[str, ...]] = (
    PRINTED,
    HARDWARE,
    "craft shop",
    "sports shop",
    POST,
    ORDERED,
)
"""Where things are got, easiest first: off one's own printer; off a shelf in most towns; by post
and by the piece; asked for at a dealer, who may sell whole sheets or rolls alone."""

SHOPS: Final = FOUND[1:]
"""Where what is not printed is got."""
SHOP_MEANINGS: Final = {
    "online": POST,
    "mail": POST,
    "post": POST,
    "web": POST,
    "dealer": ORDERED,
    "order": ORDERED,
    "shop": HARDWARE,
    "store": HARDWARE,
    "drawer": HARDWARE,
}
"""What other words for it come nearest to."""
