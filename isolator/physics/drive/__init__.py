"""Motors, belts and what they shake: kinematics, drive train, chain of rotor, motor and frame,
torque, heat. The printer as a body belongs to `bodies`.
"""
