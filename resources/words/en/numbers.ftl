### Why a number cell could not be read.

number-negative = A negative number cannot stand here.
number-empty = Type a number, such as 2.5 or 12 g.
number-not-a-number = This is not a number. Type one such as 2.5, 12 g or 2*1.5.
number-too-long = This is too long for a number cell.
number-too-deep = This has too many brackets to be read.
number-too-large = This number is too large.
number-division-by-zero = This divides by zero.
number-mixed-marks = Decimal marks and thousands cannot be told apart here. Type the number with one mark only.
number-two-readings = This can be read in two ways. Type it so that only one is left.
unit-missing = Type a unit as well, such as g.
unit-unknown = This unit is not known. Type %, g, kg, oz or lb.
unit-varies = This unit means different amounts in different places. Type g or oz.
unit-not-mass = This unit is no mass. Type %, g, kg, oz or lb.
unit-not-volume = This unit is no volume. Type ml or l.
unit-drops = Drops are no measure. Weigh them and type g.
