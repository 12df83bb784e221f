"""Named types for numbers with a unit, so that metres never meet kelvin."""

from typing import NewType

Amperes = NewType("Amperes", float)
Degrees = NewType("Degrees", float)
FramesPerSecond = NewType("FramesPerSecond", float)
Gigabytes = NewType("Gigabytes", float)
HalfMinutes = NewType("HalfMinutes", int)
Hertz = NewType("Hertz", float)
Kelvin = NewType("Kelvin", float)
Kilograms = NewType("Kilograms", float)
MegabitsPerSecond = NewType("MegabitsPerSecond", float)
MegabytesPerSecond = NewType("MegabytesPerSecond", float)
Metres = NewType("Metres", float)
Mired = NewType("Mired", float)
PerSecond = NewType("PerSecond", float)
Seconds = NewType("Seconds", float)
Share = NewType("Share", float)
SquareMillimetres = NewType("SquareMillimetres", float)
Stops = NewType("Stops", float)
Volts = NewType("Volts", float)
WattHours = NewType("WattHours", float)
Watts = NewType("Watts", float)
