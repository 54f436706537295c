"""The starter brief: what a user fills in, with every optional key, its meaning and its default."""

from __future__ import annotations

_STARTER = """\
# A brief: what is known about one printer, and what its feet must do.
#
# Quantities are "number unit"; any unit of the right kind is taken (mm, in, thou, g, lb, rpm ...).
# x runs to the right, y to the back, z up; the origin is the middle of the feet, on the underside
# of the printer's frame.
#
# Lines that begin "# key =" show what is assumed where nothing is said: remove "# " to change it.
# Lines that begin "#key =" or "#[table]" show what may be said besides: remove "#" to say it.
# The report lists everything that was assumed.

name = "My printer"

[printer]
mass = "11.5 kg"                                 # with motors and bed, without the spool
size = ["420 mm", "440 mm", "480 mm"]            # outside width, depth, height
# center_of_mass = ["0 mm", "0 mm", "216 mm"]    # balance it on a bar both ways to find it
#inertia = ["0.47 kg*m^2", "0.45 kg*m^2", "0.40 kg*m^2"]   # xx yy zz (xy xz yz), about that centre

## What comes and goes: lightest and heaviest.
#[[printer.extra]]
#name = "spool"
#mass = ["0 kg", "1.2 kg"]
#position = ["150 mm", "-150 mm", "420 mm"]

[motion]
layout = "crossed-belt"                          # or "motor-per-axis", "moving-bed"
speeds = ["40 mm/s", "60 mm/s", "100 mm/s"]      # at which you print
# acceleration = "2500 mm/s^2"
# tool_mass = "0.35 kg"                          # what moves along both axes
# gantry_mass = "0.4 kg"                         # what moves besides along one axis
# gantry_height = "408 mm"                       # of what moves
# belt_pitch = "2 mm"
# pulley_teeth = 20
# steps_per_turn = 200                           # 400 for 0.9 degree motors
# microsteps = 16
# belt_tension = "20 N"                          # of one strand; or pluck a span of it:
#belt_span = "300 mm"                            # length that swings, between two pulleys
#belt_pluck = "84 Hz"                            # its pitch; a tuner's app hears it
#belt_line_mass = "8.4 g/m"                      # weigh a metre of belt
#rail_diameter = "8 mm"                          # of round rails, measured: a thin one rattles
# belt_stiffness = "60 N/mm"                     # from motor to tool, an estimate
#bed_mass = "0.9 kg"                             # for "moving-bed" alone
#bed_height = "96 mm"                            # for "moving-bed" alone

[[motor]]
name = "left"
# frame_size = 17                                # 14, 17 or 23
# position = ["-168 mm", "176 mm", "422.4 mm"]   # middle of its body
# axis = "z"                                     # of its shaft; "-z" where the shaft points down
# drives = "both"                                # "x", "y" or "both"
# mass = "0.28 kg"
# rotor_inertia = "54 g*cm^2"
# holding_torque = "0.4 N*m"
# shaft_length = "24 mm"                         # from the motor's face
# shaft_diameter = "5 mm"
# body_length = "40 mm"
# screw_depth = "4.5 mm"                         # of its threaded holes; 0 mm: through holes
# pulley_standoff = "6 mm"                       # motor face to pulley, as built now
# pulley_length = "16 mm"
# set_screw = "3.5 mm"                           # pulley's end at the motor to its set screws
# belt_offset = "11.5 mm"                        # pulley's end at the motor to the belt's middle
# wrap = "180 deg"                               # of the belt round the pulley
#pull = [0, -1, 0]                               # which way the belts pull; else to the middle
# bracket = "4 mm"                               # thickness of what the motor is bolted to
# bracket_material = "aluminium"                 # or steel, printed
# bracket_area = "100 cm^2"                      # surface that cools it
#radial_limit = "28 N"                           # sideways load, from the data sheet ...
# radial_arm = "20 mm"                           # ... at this distance from the face
# rated_current = "1.5 A"                        # of a winding
# current = "1.275 A"                            # set now, peak of the sine
# winding_resistance = "2 ohm"
# winding_inductance = "3 mH"
# damper = "auto"                                # or "always", "none"
# spacer_plate = "0 mm"                          # a plain plate to go between motor and frame

[[motor]]
name = "right"
# frame_size = 17
# position = ["168 mm", "176 mm", "422.4 mm"]

#[[fan]]
#name = "electronics"
#speed = "5000 rpm"
#blades = 7
#position = ["150 mm", "-120 mm", "60 mm"]
#axis = "x"                                      # of rotation
#unbalance = "0.2 g*mm"

[feet]
# count = [4, 3, 6]                              # how many may be tried; the first stand there now
# inset = "30 mm"                                # from the outside to a foot's middle
#positions = [["-180 mm", "-190 mm"], ["180 mm", "-190 mm"], ["0 mm", "190 mm"]]
# attachment = "adhesive"                        # or slot-20, slot-30, slot-40, tapped-end (of an
## extrusion), bolt, two-bolts, tube-end, rod-end, panel, self-tapping, stud, holes (of old feet)
#bolt = "5 mm"                                   # thread, where the attachment has one
#fixing = "screw"                                # for bolt and panel; or nut, insert, direct
#grip = "4 mm"                                   # thickness of frame that screws go through
#slot_along = "x"                                # which way the slots run; or y
#slot_key = "6 mm"                               # width of a slot that a loose key guides in
#tube = "16 mm"                                  # inner diameter, for "tube-end"
#rod = "8 mm"                                    # diameter, for "rod-end"
#spacing = "60 mm"                               # of the two screws of two-bolts, self-tapping
#holes = [["-30 mm", "0 mm"], ["30 mm", "0 mm"]] # from a foot's middle, for "holes"
#tread = "1.2 mm"                                # a flexible tread under the sole
## On scales under the feet as they stand, without the spool: in the order of positions, else
## front left, front right, back right, back left.
#weights = ["2.7 kg", "2.8 kg", "3.1 kg", "2.9 kg"]
# pads = "auto"                                  # or equal, level: a pad of its own for each foot
# engrave = true                                 # parts say what they are
#design = "out/my-printer/design.toml"           # feet that were designed before

## Feet that are known already, one table each, instead of being designed.
#[[feet.given]]
#position = ["180 mm", "190 mm", "-15 mm"]       # of its elastic centre
#stiffness = ["8 N/mm", "8 N/mm", "20 N/mm"]     # along x, y, z, as they act dynamically
#loss_factor = 0.1
#angular = ["0 N*m/rad", "0 N*m/rad", "0 N*m/rad"]

## What stands under it today; the gain is told against it.
#[feet.now]
#material = "nr-70"                              # a card: see `isolator materials`
#shape = "disc"                                  # or ring, rectangle, square-with-hole
#size = ["20 mm"]                                # diameter; or two sizes, the outer first
#thickness = "10 mm"
#bonded = true                                   # false where its faces can slip

## A slab, such as a paver, that the printer stands on; the pads then go under it.
#[slab]
#size = ["460 mm", "480 mm", "40 mm"]
#mass = "20.3 kg"                                # weigh it
#position = ["0 mm", "0 mm"]                     # of its middle
#gap = "0 mm"                                    # from the printer's underside down to it
#lip = "6 mm"                                    # printed corners that keep the printer on it

[desk]
# kind = "rigid"                                 # or "plate"
#material = "mdf"                                # chipboard, plywood, solid-wood, glass, steel ...
#thickness = "18 mm"
#youngs_modulus = "3.5 GPa"
#density = "730 kg/m^3"
#poisson = 0.25
#loss_factor = 0.02

## A force of your own, by its amplitude.
#[[load]]
#name = "pump"
#force = ["0 N", "0 N", "1 N"]
#moment = ["0 N*m", "0 N*m", "0 N*m"]
#position = ["150 mm", "-120 mm", "340 mm"]
#frequencies = ["25 Hz", "50 Hz"]

[limits]
# sway = "0.5 mm"                                # of the tool when it turns round
# foot_height = "50 mm"
# foot_width = "70 mm"
# tip_margin = 1.5                               # resisting over tipping moment
# slip_margin = 1.5                              # friction over sideways force
# desk_friction = 0.5
# gravity_share = 0.25                           # of the rocking stiffness, at most
# promise_ceiling_db = 30                        # nothing above is promised
# strokes = ["1 mm", "100 mm"]                   # shortest and longest infill stroke looked at
#static_strain = 0.15                            # of a pad; otherwise its card's own
#min_insertion_loss_db = 6                       # demanded at the slowest speed

[stock]
# shapes = ["disc", "ring", "rectangle", "square-with-hole"]   # ["half-ball"]: balls alone
# widths = ["14 mm", "60 mm", "2 mm"]            # smallest, largest, step
# max_layers = 4
#materials = ["nr-50", "tpu-95-solid"]           # cards; otherwise all
#thicknesses = ["6 mm", "10 mm"]                 # of one sheet; otherwise those it is sold in
#cards = "my-cards"                              # a folder of your own cards

## Rubber balls that may be cut in halves: ball feet.
#[[stock.ball]]
#diameter = "40 mm"
#wall = "5 mm"                                   # without it a solid ball
#material = "nr-50"                              # a rubber's card

## What you own need not be bought: a line of shopping.csv, and how much of it in its unit.
#[[stock.owned]]
#item = "slot nut M5 for 20 mm extrusion"
#quantity = 8

[print]
# bed = ["220 mm", "220 mm", "220 mm"]
# nozzle = "0.4 mm"
# layer = "0.2 mm"
# hole_compensation = "0.2 mm"                   # added to every hole's diameter
# first_layer_chamfer = "0.4 mm"
# material = "petg"                              # or abs, asa, pla, pc, pa
# flexible_material = "tpu-95"
# motor_material = "asa"                         # of plates under motors

## What you measured on the fit coupon: `isolator fit` draws it and puts the readings here; without
## hole_compensation and first_layer_chamfer above, both follow from it.
#[fit]
#A = "3.21 mm"

[damper]
# shapes = ["ring", "pads"]
# thicknesses = ["0.5 mm", "1 mm", "1.5 mm", "2 mm", "3 mm", "4 mm", "5 mm"]
# plate = "0 mm"                                 # least thickness; 0 mm: as the screws allow
# tilt_limit = "0.25 deg"                        # of the motor's shaft under the belts' pull
# wedge = true                                   # a printed wedge may take the tilt back
# rubber = "sheet"                               # or "cast": a mould is drawn
#materials = ["nr-40", "nr-50"]                  # cards; otherwise all rubbers

[driver]
# voltage = "24 V"
#sense_resistor = "0.11 ohm"                     # with its gain: the current-setting voltage
#gain = 2.5                                      # reference over the resistor's peak voltage

[room]
# temperature_low = "15 degC"
# temperature_high = "30 degC"
"""


def starter_text() -> str:
    """Return a commented brief that can be read as it stands.

    Uncommenting any line that begins "# key =" changes nothing but what counts as assumed.
    """
    return _STARTER
