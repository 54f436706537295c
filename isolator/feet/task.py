"""The task of the feet of one printer, as numbers: where they may stand, what they are made of."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.brief import Brief, Feet, Print, Slab, Stock
from isolator.design import ATTACHMENTS, attachment_thread
from isolator.design.attachment import Attachment
from isolator.design.axes import Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class FeetTask:
    """What all feet of one printer share."""

    feet: Feet  # where they may stand and what holds them
    stock: Stock
    print: Print
    slab: Slab | None  # under which they go; None: under the printer itself
    frame: Triple  # outside width, depth, height of the printer [m]

    @property
    def fastening(self) -> Attachment:
        """Return what is known of the attachment that the brief names."""
        return ATTACHMENTS[self.feet.attachment]

    @property
    def thread(self) -> float:
        """Return the thread diameter of that attachment [m], 0 for glue."""
        return attachment_thread(self.feet.attachment, self.feet.bolt, self.feet.tube)


def build_feet_task(brief: Brief) -> FeetTask:
    """Return the numbers of a brief that concern its feet."""
    return FeetTask(
        feet=brief.feet,
        stock=brief.stock,
        print=brief.print,
        slab=brief.slab,
        frame=brief.printer.size,
    )
