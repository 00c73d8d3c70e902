### The sheet of the Desk.

## Columns
sheet-name = Lines of the formula
sheet-column-margin = Phase
sheet-column-mark = Mark
sheet-column-ingredient = Ingredient
sheet-column-purpose = Purpose
sheet-column-percent = % w/w
sheet-column-grams = g
sheet-column-range = Use range and limit, %
sheet-column-cost = Cost

## Rows
sheet-phase = Phase { $letter }
sheet-total = Total
sheet-short = short { $percent } %
sheet-over = over { $percent } %
sheet-new-line = Type a name to add a line
sheet-takes-rest = takes the rest
sheet-range-both = { $low } – { $high }
sheet-range-up-to = up to { $high }
sheet-range-from = from { $low }
sheet-range-limit = limit { $limit }
sheet-step-target = { $text } to { $target } °C
sheet-step-at = { $text }, { $target } °C
sheet-step-hold = hold { $minutes } min
sheet-step-speed = { $speed }
sheet-step-below = below { $temperature } °C

## Read out
sheet-spoken-percent = percent
sheet-spoken-grams = grams
sheet-spoken-purpose = purpose
sheet-spoken-range = use range
sheet-spoken-cost = cost
sheet-spoken-empty = not known
sheet-spoken-phase = phase { $letter }
sheet-spoken-locked = locked
sheet-hits = Ingredients that fit
sheet-hits-none = Nothing on the shelf fits '{ $text }'. Type another name or an INCI name.
sheet-stock = stock

## Undo steps
sheet-undo-percent = Set { $ingredient } to { $percent } %
sheet-undo-mass = Set { $ingredient } to { $mass } g
sheet-undo-rest = Let { $ingredient } take the rest
sheet-undo-lock = { $locked ->
    [yes] Lock { $ingredient }
   *[no] Unlock { $ingredient }
  }
sheet-undo-add = Add { $ingredient }
sheet-undo-swap = Put { $ingredient } in the place of { $before }
sheet-undo-delete = { $count ->
    [one] Delete 1 line
   *[other] Delete { $count } lines
  }
sheet-undo-move = { $way ->
    [up] Move { $ingredient } up
   *[down] Move { $ingredient } down
  }

## Questions and refusals
sheet-which = '{ $text }' can be read as { $first } or as { $second }. Type the one that is meant.
sheet-itself = A stock cannot be a line of itself.
sheet-no-unit-here = '{ $text }' is no percent and no mass.

## Purposes
function-water = water
function-solvent = solvent
function-humectant = humectant
function-electrolyte = electrolyte
function-emollient-oil = emollient
function-emollient-ester = emollient
function-butter = butter
function-wax = wax
function-occlusive = occlusive
function-silicone = silicone
function-silicone-alternative = silky emollient
function-emulsifier-oil-in-water = emulsifier
function-emulsifier-water-in-oil = emulsifier, w/o
function-co-emulsifier = co-emulsifier
function-solubiliser = solubiliser
function-surfactant-anionic = anionic surfactant
function-surfactant-nonionic = nonionic surfactant
function-surfactant-amphoteric = amphoteric surfactant
function-surfactant-cationic = cationic surfactant
function-foam-booster = foam booster
function-conditioning = conditioner
function-thickener-gum = thickener
function-thickener-polymer = thickener
function-thickener-fatty = thickener
function-thickener-mineral = thickener
function-stabiliser = stabiliser
function-film-former = film former
function-preservative = preservative
function-preservative-booster = preservative booster
function-chelator = chelator
function-antioxidant = antioxidant
function-ph-adjuster-acid = acid, lowers pH
function-ph-adjuster-base = base, raises pH
function-buffer = buffer
function-active = active
function-vitamin = vitamin
function-protein = protein
function-amino-acid = amino acid
function-skin-protectant = skin protectant
function-cooling-agent = cooling agent
function-astringent = astringent
function-exfoliant-aha = alpha hydroxy acid
function-exfoliant-bha = beta hydroxy acid
function-exfoliant-pha = polyhydroxy acid
function-exfoliant-enzyme = enzyme
function-exfoliant-physical = scrub particle
function-botanical-extract = plant extract
function-hydrosol = hydrosol
function-clay = clay
function-colourant = colour
function-pearlescent = pearl pigment
function-opacifier = opacifier
function-powder = powder
function-absorbent = absorbent
function-uv-filter = UV filter
function-fragrance = fragrance
function-essential-oil = essential oil
function-sweetener-taste = taste
