"""Where formulas and figures of a report come from; each line names what it is the source of."""

from __future__ import annotations

from isolator.cards import Material

PHYSICS = (
    "Rigid body on resilient supports: Himelblau and Rubin, in Harris' Shock and Vibration "
    "Handbook, ch. 3 (from memory); gravity term derived.",
    "Rubber pads: Gent and Lindley, Proc. IMechE 173 (1959) 111; Lindley, Engineering Design with "
    "Natural Rubber, 4th ed. 1978; own finite-element fits where these miss.",
    "Stiffness over frequency: springpot of constant loss factor; Gaul, Mech. Syst. Signal "
    "Process. 5 (1991) 81 (from memory).",
    "Desk: a thin plate, by its modes or endless; Cremer, Heckl and Petersson, Structure-Borne "
    "Sound, ch. 5; moments under a foot derived.",
    "Motor lines: Acarnley, Stepping Motors (from memory); ripple sizes estimated.",
    "Motors on rubber: rigid bodies on bonded pads, derived; allowed shear stress from Lindley.",
    "Faces and screws: NEMA ICS 16-2001; ISO 273, 4017, 4032, 7089, 7380-1; fits: ISO 286-2.",
)


def sources(material: Material | None) -> tuple[str, ...]:
    """Return the sources of a material's figures, then those of the physics."""
    own = (
        ()
        if material is None
        else tuple(f"{material.name} ({key}): {cite}" for key, cite in material.sources)
    )
    return (*own, *PHYSICS)
