"""How the user's printer makes parts: [print]."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from isolator.brief.fit import WHY, Fit
from isolator.design import FilamentFit, PrintSettings
from isolator.design.axes import Triple
from isolator.design.filaments import RIGID, RIGID_MEANINGS, family_of
from isolator.design.paper import PAPERS
from isolator.reading.keys import Key
from isolator.reading.number_keys import Range, quantity, triple
from isolator.reading.table import Table
from isolator.reading.units import format_quantity
from isolator.reading.word_keys import choice, text

PRACTICE = "common practice, no source"
USUAL_COMPENSATION: Range = (0.0, 6e-4)
COMPENSATION: Range = (0.0, 2e-3)
"""Beyond it holes of motors' plates run into each other [m]."""
FINEST = 8e-5
"""Finest layer that is assumed of a printer [m]; common practice, no source."""
USUAL_CHAMFER: Range = (0.0, 1e-3)
USUAL = {"hole_compensation": 2e-4, "first_layer_chamfer": 4e-4}
"""What is taken where nothing was measured [m]."""
NOTHING: dict[str, float | None] = dict.fromkeys(USUAL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Print:
    """How the user's printer makes parts."""

    bed: Triple  # [m]
    bed_margin: float  # left free along every edge of the bed [m]
    nozzle: float  # [m]
    layer: float  # [m]
    wedge_layer: float  # of wedges under motors, on a plate of their own [m]
    hole_compensation: float  # added to every hole's diameter [m]
    first_layer_chamfer: float  # [m]
    material: str  # filament family of rigid parts, such as "petg"
    flexible_material: str  # filament family of flexible parts, such as "tpu-95"
    motor_material: str  # filament family of plates under motors, such as "asa"
    paper: str  # of templates and drawings, such as "a4"
    fits: tuple[FilamentFit, ...]  # of filaments whose parts are drawn otherwise than `material`

    def of(self, filament: str) -> Print:
        """Return the same with holes and first layer as in one filament."""
        drawn = self.settings.for_filament(filament)
        return replace(
            self,
            hole_compensation=drawn.hole_compensation,
            first_layer_chamfer=drawn.first_layer_chamfer,
        )

    @property
    def settings(self) -> PrintSettings:
        """What the drawing office is told of it."""
        return PrintSettings(
            bed=self.bed,
            bed_margin=self.bed_margin,
            nozzle=self.nozzle,
            layer=self.layer,
            hole_compensation=self.hole_compensation,
            first_layer_chamfer=self.first_layer_chamfer,
            material=self.material,
            flexible=self.flexible_material,
            wedge_layer=self.wedge_layer,
            fits=self.fits,
            paper=self.paper,
        )


def _from_coupon(
    name: str, otherwise: float, usual: Range, within: Range | None, comment: str
) -> Key[float]:
    """Return a length that follows from the fit coupon where that was measured."""
    return quantity(
        "m",
        lambda t: otherwise if t.fitted[name] is None else t.fitted[name],
        lambda t: PRACTICE if t.fitted[name] is None else WHY,
        sign="not negative",
        usual=usual,
        within=within,
        comment=comment,
    )


class PrintTable(Table):
    """[print]; [fit] rules where it is silent."""

    bed = triple(
        "m",
        (0.22, 0.22, 0.22),
        "a middling printer",
        sign="positive",
        names="width, depth and height",
    )
    bed_margin = quantity(
        "m",
        8e-3,
        "room for a brim and a primed line; common practice, no source",
        sign="not negative",
        usual=(0.0, 3e-2),
        comment="left free along every edge of the bed",
    )
    nozzle = quantity("m", 4e-4, "the usual nozzle", usual=(2e-4, 1e-3))
    layer = quantity("m", 2e-4, "the usual layer", usual=(8e-5, 6e-4))
    wedge_layer = quantity(
        "m",
        lambda t: min(t.layer, max(FINEST, t.layer / 2.0)),
        "half of layer, as a slope comes out in steps",
        usual=(4e-5, 3e-4),
        comment="of wedges under motors, on a plate of their own",
    )
    hole_compensation = _from_coupon(
        "hole_compensation",
        USUAL["hole_compensation"],
        USUAL_COMPENSATION,
        COMPENSATION,
        "added to every hole's diameter",
    )
    first_layer_chamfer = _from_coupon(
        "first_layer_chamfer", USUAL["first_layer_chamfer"], USUAL_CHAMFER, None, ""
    )
    material = choice(
        RIGID, "petg", PRACTICE, meanings=RIGID_MEANINGS, comment=f"or {', '.join(RIGID[1:])}"
    )
    flexible_material = text("tpu-95", "the usual one")
    motor_material = choice(
        RIGID,
        "asa",
        "stands a warm motor; common practice, no source",
        meanings=RIGID_MEANINGS,
        comment="of plates under motors",
    )

    paper = choice(
        tuple(PAPERS),
        "a4",
        "the usual one",
        meanings={"us letter": "letter"},
        comment=f"of templates and drawings; or {', '.join(tuple(PAPERS)[1:])}",
    )

    @property
    def fitted(self) -> dict[str, float | None]:
        """Return what follows from the fit coupon [m], None where it was not measured."""
        return self.fitted_in(self.material) if self.up.fit.measured else NOTHING

    def fitted_in(self, filament: str) -> dict[str, float | None]:
        """Return what follows from the fit coupon in one filament [m], None where it does not."""
        fit: Fit = self.up.fit.of(filament, self.material)
        return {
            "hole_compensation": fit.hole_compensation,
            "first_layer_chamfer": fit.first_layer_chamfer(self.layer),
        }


def _fits(table: PrintTable) -> tuple[FilamentFit, ...]:
    """Return the filaments whose parts are drawn otherwise, and warn of one without readings.

    What is typed in [print] rules for every filament.
    """
    measured = table.up.fit.measured
    if not measured:
        return ()
    if "" in measured:
        table.up.fit.warn(
            "filament",
            f'is not told; the readings are taken for those of "{table.material}"',
        )
    motors = (table.motor_material,) if table.up.has("motor") else ()
    used = dict.fromkeys((table.material, *motors, family_of(table.flexible_material), *measured))
    own = (table.hole_compensation, table.first_layer_chamfer)
    found = []
    for family in used:
        if family == "":
            continue
        fitted = table.fitted_in(family)
        if fitted["hole_compensation"] is None and family in (table.material, *motors):
            _warn_of_none(table, family)
        if family == table.material:
            continue
        holes, chamfer = (_drawn(table, name, fitted[name]) for name in USUAL)
        if (holes, chamfer) != own:
            found.append(
                FilamentFit(filament=family, hole_compensation=holes, first_layer_chamfer=chamfer)
            )
    return tuple(found)


def _drawn(table: PrintTable, name: str, fitted: float | None) -> float:
    """Return a length [m] as it is drawn: as typed, else as measured, else the usual one."""
    if table.has(name):
        return float(getattr(table, name))
    return USUAL[name] if fitted is None else fitted


def _warn_of_none(table: PrintTable, family: str) -> None:
    if table.has("hole_compensation"):
        return
    usual = format_quantity(USUAL["hole_compensation"], "mm")
    table.up.fit.warn(
        family,
        f"no hole was measured in this filament: its holes get the usual {usual}; print the coupon "
        f"in it and take the readings with `isolator fit BRIEF --filament {family} ...`",
    )


def read_print(table: PrintTable) -> Print:
    """Return how the user prints parts."""
    found = table.record(
        Print,
        fits=_fits,
        hole_compensation=lambda t: _judged(t, "hole_compensation", USUAL_COMPENSATION),
        first_layer_chamfer=lambda t: _judged(t, "first_layer_chamfer", USUAL_CHAMFER),
    )
    if found.layer > found.nozzle:
        table.fault(
            "layer",
            format_quantity(found.layer, "mm"),
            f"no more than the nozzle, {format_quantity(found.nozzle, 'mm')}",
            "check both",
        )
    if 2.0 * found.bed_margin >= min(found.bed[:2]):
        table.fault(
            "bed_margin",
            format_quantity(found.bed_margin, "mm"),
            f"less than half of the bed, {format_quantity(min(found.bed[:2]) / 2.0, 'mm')}",
            "it is left free along every edge",
        )
    if found.wedge_layer > found.layer:
        table.fault(
            "wedge_layer",
            format_quantity(found.wedge_layer, "mm"),
            f"no more than layer, {format_quantity(found.layer, 'mm')}",
            "leave it out, and wedges are printed in half of it",
        )
    table.done()
    return found


def _judged(table: PrintTable, name: str, usual: Range) -> float:
    """Return a length [m] that the coupon tells too, with a doubt where the two do not go well."""
    value, fitted = float(getattr(table, name)), table.fitted[name]
    if fitted is None or math.isnan(value):
        return value
    if table.has(name):
        table.warn(
            name,
            f"{format_quantity(value, 'mm')} rules over the {format_quantity(fitted, 'mm')} that "
            "follows from [fit]; remove it to go by your fit coupon",
        )
    elif not usual[0] <= value <= usual[1]:
        low, high = (format_quantity(each, "mm") for each in usual)
        table.warn(
            name,
            f"{format_quantity(value, 'mm')} from [fit] is outside the usual {low} to {high}; "
            "measure again",
        )
    return value
