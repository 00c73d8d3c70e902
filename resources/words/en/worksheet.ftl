### The worksheet of a batch.

worksheet-title = Worksheet
worksheet-batch-number = Batch
worksheet-version = Made from
worksheet-batch-mass = Batch mass
worksheet-planned = Planned
worksheet-made-by = Made by
worksheet-checked-by = Checked by
worksheet-page = Page { $page } of { $pages }
worksheet-footer = Permanent ink. One line through an error, initial and date. No overwriting, no ditto marks, no pencil.

worksheet-start = Before you start
worksheet-start-current = This sheet is the current version
worksheet-start-lots = Every lot is released and in date
worksheet-start-clean = Equipment clean and named
worksheet-start-clear = Area cleared
worksheet-start-balance = Check weight ______ g reads ______ g
worksheet-start-meter = pH meter: slope ______ %, offset ______ mV

worksheet-line = Line
worksheet-material = Material
worksheet-target = Target g
worksheet-allowed = Allowed g
worksheet-balance = Balance
worksheet-vessel = Vessel reads g
worksheet-lot = Lot
worksheet-actual = Actual g
worksheet-weighed = Weighed
worksheet-added = Added
worksheet-phase = Phase { $letter }: { $name }
worksheet-phase-continued = Phase { $letter }: { $name }, continued
worksheet-phase-sum = together { $grams } g
worksheet-total = Batch together
worksheet-steps = Steps
worksheet-actual-step = actual °C ________   from ________ to ________
worksheet-spare = spare
worksheet-stock = stock
worksheet-hold-back = Hold back and add to the pH; what is left over becomes water.
worksheet-step-target = { $degrees } °C
worksheet-step-hold = hold { $minutes } min
worksheet-step-most = add below { $degrees } °C

worksheet-evaporation = Evaporation
worksheet-evaporation-vessel = Vessel empty g
worksheet-evaporation-before = With phase, before g
worksheet-evaporation-after = After heating g
worksheet-evaporation-top = Topped up with water g

worksheet-ph = pH
worksheet-ph-target = Target pH { $range }
worksheet-ph-none = No target pH is set
worksheet-ph-time = Time
worksheet-ph-reading = pH
worksheet-ph-temperature = °C
worksheet-ph-method = Method
worksheet-ph-adjuster = Adjuster, strength
worksheet-ph-before = Bottle before g
worksheet-ph-after = Bottle after g
worksheet-ph-dose = Dose g
worksheet-ph-wait = Wait min
worksheet-ph-new = New pH
worksheet-ph-meter = Meter ________________ calibrated at ________

worksheet-look = Open findings
worksheet-cautions = Take care
worksheet-cautions-defer = These follow from what is known of the ingredients. The safety data sheet of each and local law come first.
worksheet-caution = { $name }: { $text }
worksheet-hazard-strong-base = Strong alkali, burns skin and eyes: { $names }. Goggles and gloves; add it to water, never water to it.
worksheet-hazard-strong-acid = Strong or concentrated acid: { $names }. Goggles and gloves; add it to water, never water to it.
worksheet-hazard-corrosive = Corrosive as supplied: { $names }. Goggles and gloves; rinse splashes at once.
worksheet-hazard-respirable-powder = Dust: { $names }. Mask; no draught, no scooping from a height.
worksheet-hazard-flammable = Flammable: { $names }. No flame or hot plate near.

worksheet-fill = Filling
worksheet-fill-net = Net g of every nth pack
worksheet-fill-good = Units good
worksheet-fill-reject = Units rejected
worksheet-yield = Yield and reconciliation
worksheet-yield-made = As made M = sum of additions − evaporated + topped up, g
worksheet-yield-filled = Filled, g
worksheet-yield-retains = Retains, g
worksheet-yield-samples = Samples, g
worksheet-yield-residue = Residue, g
worksheet-yield-lost = Unaccounted % = 100 × (M − filled − retains − samples − residue) / M
worksheet-yield-yield = Yield % = 100 × good filled mass / batch mass
worksheet-yield-reconciled = Labels and packs: reconciled % = 100 × (used + returned + samples + other) / issued
worksheet-deviations = Deviations: what, when, decided, initials
worksheet-review = Review
worksheet-quarantined = quarantined
worksheet-released = released
worksheet-rejected = rejected
worksheet-by = By
worksheet-date = Date

worksheet-glyph = The paper cannot be made: the font has no sign for '{ $sign }' in '{ $text }'.
worksheet-glyph-remedy = Write it with other letters and try again.
