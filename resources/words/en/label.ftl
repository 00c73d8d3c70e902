### Labels: what stands on them, what is missing, how they are laid out.

label-kind = { $kind ->
        [own] own use
        [gift] gift
        [sale-eu] sale, EU
        [sale-uk] sale, UK
       *[sale-us] sale, US
    }
label-ingredients = Ingredients
label-more = { $count } more
label-not-made = As designed, not yet made
label-batch = { $kind ->
        [sale-us] Lot { $batch }
       *[other] Batch { $batch }
    }
label-made = Made { $day }
label-best-before = { $kind ->
        [own] Use by { $month }
        [sale-us] Best before the end of { $month }
       *[other] Best used before the end of { $month }
    }
label-open-jar = { $months }M
label-open-jar-text = Once opened use within { $months } months
label-net = { $amount } { $unit }
label-net-us = { $unit ->
        [g] Net wt { $ounces } oz ({ $amount } g)
       *[ml] { $ounces } fl oz ({ $amount } ml)
    }
label-ph = pH { $ph }
label-trial = Trial { $trial }
label-use = Use:
label-storage = Keep:
label-origin = Made in { $place }
label-see-leaflet = Ingredients and precautions: see the leaflet.
label-gift-care = Try it on a small patch of skin first. Keep out of eyes and away from children. Stop if it irritates.
label-leaflet-title = { $name }: ingredients and precautions

label-field-name = Name
label-field-function = What it is
label-field-batch = Batch number
label-field-made = Made date
label-field-durability = How long it keeps
label-field-ingredients = Ingredient list
label-field-net = Net content
label-field-warnings = Warnings
label-field-use = How to use
label-field-who = Who made it
label-field-origin = Country of origin
label-field-ph = pH as read
label-field-trial = Trial number
label-field-storage = How to keep it

label-missing = Missing: { $field }. { $source }.
label-missing-name = Name the formula.
label-missing-function = Say what it is, as "hand cream".
label-missing-batch = Make a batch, or give a batch number.
label-missing-made = Give the day it was made.
label-missing-durability = Say how many months it keeps unopened; the figure must come from evidence.
label-missing-durability-made = It keeps 30 months or less, so a best-before date is counted from the day it was made: give that day.
label-missing-durability-opened = It keeps over 30 months, so the months after opening stand in place of a date: give them.
label-missing-ingredients = Add this market to the formula, so that its list is worked out.
label-missing-ingredients-unknown = The contents of { $lines } are not known: fill them in on the shelf.
label-missing-net = Give the nominal content in g or ml.
label-missing-use = Say how it is used.
label-missing-who = { $kind ->
        [gift] Give your name and how you can be reached.
        [sale-us] Give the name and place of the business.
       *[other] Give the name and address of the responsible person.
    }
label-missing-ph = Give the pH that was read, and the adjuster.
label-missing-glyph = The font has no sign for '{ $sign }' in '{ $text }'.
label-missing-glyph-remedy = Write it with other letters.

label-note-designed = The list is that of the formula as designed. A batch may differ: take the label from the batch once it is made.
label-note-assessor = What else must stand on it, the safety report of a qualified assessor and the law of the place say.
label-note-net-small = Under 5 g or 5 ml the net content need not be given.
label-note-condition = { $text } This is needed only when: { $condition }.
label-note-contrast = Print against label has a contrast of { $ratio } to 1. Under 4.5 to 1 it is hard to read.

label-type-text = Smallest type { $size } pt: { $measured } { $actual } mm. At least { $least } mm, measured on { $measured-by }. { $law ->
        [y] Law for cosmetics
       *[n] A yardstick, no law for cosmetics
    }: { $source }.
label-type-net = Net content { $size } pt: { $measured } { $actual } mm. At least { $least } mm, measured on { $measured-by }. { $law ->
        [y] Law
       *[n] A yardstick
    }: { $source }.
label-around = The label does not go around a bottle of { $bottle } mm: at most { $most } mm, so that its ends do not meet.
label-type-all = x-height { $x } mm, capitals { $capital } mm, figures { $figure } mm, contrast { $ratio } to 1.
label-measures = { $measures ->
        [x] x-height
        [o] lower-case o
        [capital] capitals
       *[figure] figures
    }
label-measured-by = { $measures ->
        [x] the small x
        [o] the small o
        [capital] the capitals
       *[figure] the figures
    }

label-refused = The text does not fit on a label of { $size }: the smallest type it may have is { $least } pt ({ $measured } { $mm } mm).
label-choices = Choose: { $choices }.
label-choice-larger = a larger label ({ $sizes })
label-choice-larger-none = a larger label of your own size; no size in the list is large enough
label-choice-pair = a front and a back label, or a fold-out of two such panels
label-choice-fold-out = a fold-out of { $panels } panels of this size
label-choice-leaflet-small = the list and precautions on a leaflet, if the largest surface of the pack is under { $area } cm², so that { $mm } mm are enough
label-choice-leaflet = the list and precautions on a leaflet, with a short text on the label that points to it
label-choice-small = if the largest surface of the pack is under { $area } cm², say so: then { $mm } mm are enough
label-refused-round-size = { $size } mm, round
label-refused-plain-size = { $wide } × { $high } mm

label-sheet-unknown = There is no label sheet of the size '{ $key }'.
label-sheet-known = Give one of { $keys }, or a geometry of your own.
label-sheet-fault = { $fault ->
        [too-wide] The labels are wider together than the page.
        [too-high] The labels are higher together than the page.
        [not-round] A round label is as wide as it is high.
       *[not-positive] A length or a count of the label sheet is not over nothing.
    }
label-sheet-fault-remedy = Measure the sheet again: page, label, columns and rows, gaps, left and top edge.
label-start-beyond = Cell { $start } is not on a sheet of { $count } labels.
label-start-remedy = Count the cells along the rows from 1.

label-ruler-title = Ruler page for labels of { $size }
label-ruler-print = Print at full size (100 %, no fitting to the page). The bar below must be 100 mm long.
label-ruler-lay = Lay it over an empty sheet against the light. If the outlines stand too far right or too low by some millimetres, give that with a minus as the printer offset; else with a plus.
label-ruler-offset = Printer offset now: { $x } mm across, { $y } mm down

label-rub-title = Wet-rub test of a label
label-rub-material = Material
label-rub-ink = Print
label-rub-finish = Finish
label-rub-day = Day
label-rub-step = Step
label-rub-steps = What was done, and how it went
label-rub-result = Pass or fail
label-rub-photo = Photo
label-rub-set = Left to set for 24 hours on a clean dry pack at room temperature
label-rub-rub = Rubbed wet for 60 seconds
label-rub-soak = Soaked for 10 minutes
label-rub-oil = Wiped with oil for 5 minutes
label-rub-advice = { $withstands ->
        [water-and-oil] Film with pigment, laser or thermal-transfer print usually withstands water and oil. Test it all the same.
        [water-if-sealed] Laminate or coated paper usually withstands splashes; water still creeps in at the cut edge.
       *[neither] Dye ink runs in water, and plain paper is spoilt by water and essential oil. Use film with pigment, laser or thermal-transfer print.
    }
label-rub-source = Common practice
