"""Kinds of feet: one row each, with what follows from how a foot is built."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.design.outlines import BALL, BUFFER, SHAPES


@dataclass(frozen=True, slots=True, kw_only=True)
class FootKind:
    """How a kind of foot is built; lengths in metres."""

    one: str  # in words
    many: str
    cap: float  # least solid height between frame and pad, 0 where a slab lies there
    sole: float = 0.0  # solid height from pad to desk or tread, 0 where the pad stands on the desk
    glued_faces: int = 1  # of its pad, to printed parts or to the slab
    shapes: tuple[str, ...] = SHAPES  # outlines that its pad may have
    rimmed: bool = False  # a rim stands round the pad, which stops it where it is pressed too far
    soft_body: bool = False  # pad, cap and sole are printed as one flexible body
    hung: bool = True  # from the printer's frame, rather than glued under a slab
    cut_pad: bool = False  # its pad is cut from sheet
    screwed_pad: bool = False  # its pad is a ready-made mount between two plates
    pad: str = "pad"  # what its pad is called
    top: str = "cup"  # role of the printed part that is fixed to the frame, where it is no body
    shows: str = ""  # what it shows when it is cut open


FOOT_KINDS = {
    # two printed parts, a cup fixed to the printer and a sole, with the pad glued between them
    "cup": FootKind(
        one="cup foot",
        many="cup feet",
        cap=4.0e-3,
        sole=2.4e-3,
        glued_faces=2,
        rimmed=True,
        cut_pad=True,
        shows="the pad stands between cup and sole",
    ),
    # one body of flexible filament with solid skins, on a rigid mount where that hides a screw
    "printed": FootKind(
        one="printed foot",
        many="printed feet",
        cap=1.6e-3,
        sole=1.6e-3,
        glued_faces=0,
        soft_body=True,
        shows="pad and skins are one body",
    ),
    # a cup with half a ball glued into it, which stands on the desk by itself
    "ball": FootKind(
        one="ball foot",
        many="ball feet",
        cap=4.0e-3,
        shapes=(BALL,),
        rimmed=True,
        pad="half-ball",
        shows="the half-ball stands in the cup, its dome on the desk",
    ),
    # a ready-made mount between a plate under the frame and one on the desk
    "buffer": FootKind(
        one="foot on a bought buffer",
        many="feet on bought buffers",
        cap=3.0e-3,
        glued_faces=0,
        shapes=(BUFFER,),
        screwed_pad=True,
        pad="buffer",
        top="plate",
        shows="the buffer is screwed to both plates, heads and nuts below their faces",
    ),
    # a pad alone
    "bare": FootKind(
        one="pad under the slab", many="pads under the slab", cap=0.0, hung=False, cut_pad=True
    ),
}
