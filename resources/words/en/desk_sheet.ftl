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
sheet-column-pure = Pure, %
sheet-column-inci = INCI
sheet-column-note = Note

## Rows
sheet-phase = Phase { $letter }
sheet-total = Total
sheet-short = short { $percent } %
sheet-over = over { $percent } %
sheet-new-line = Type a name to add a line
sheet-mass = Masses by phase, to scale
sheet-mass-part = { $letter }: { $name }, { $percent } %
sheet-takes-rest = takes the rest
sheet-range-both = { $low } – { $high }
sheet-range-up-to = up to { $high }
sheet-range-from = from { $low }
sheet-range-limit = limit { $limit }
sheet-steps = Steps
sheet-steps-more = { $first }, and { $more ->
    [one] 1 more step
   *[other] { $more } more steps
  }
sheet-kind-water = water
sheet-kind-oil = oil
sheet-kind-cool-down = cool-down
sheet-kind-adjust = pH adjustment
sheet-kind-other = other
sheet-step-target = { $text } to { $target } °C
sheet-step-at = { $text }, { $target } °C
sheet-step-hold = hold { $minutes } min
sheet-step-speed = { $speed }
sheet-step-below = below { $temperature } °C

## Actions
sheet-menu-columns = Columns
sheet-action-edit = Edit the cell
sheet-action-below = Add a line below
sheet-action-note = Note of the line
sheet-action-lock = Lock or unlock
sheet-action-rest = Let this line take the rest
sheet-action-to-ph = Hold back to adjust pH
sheet-action-short = Bring the total to 100 % with this line
sheet-action-scale = Scale the unlocked lines to 100 %
sheet-action-column = Column { $column }
sheet-action-column-no-room = Column { $column } (no room now)
sheet-action-up = Move lines up
sheet-action-down = Move lines down
sheet-action-phase-before = Move lines to the phase before
sheet-action-phase-after = Move lines to the phase after
sheet-action-delete = Delete lines
sheet-action-select-all = Select all lines
sheet-action-cut = Cut lines
sheet-action-copy = Copy lines
sheet-action-copy-cell = Copy the cell
sheet-action-paste = Paste lines or a cell
sheet-action-steps = Phase and its steps
sheet-action-phase-add = Add a phase below
sheet-action-phase-begin = Begin a phase at this line
sheet-action-phase-up = Move the phase up
sheet-action-phase-down = Move the phase down
sheet-action-phase-remove = Remove the phase
sheet-action-column-left = Move the column left
sheet-action-column-right = Move the column right
sheet-copied-name = Ingredient
sheet-copied-inci = INCI
sheet-copied-percent = % w/w
sheet-copied-grams = g
sheet-copied-phase = Phase
sheet-copied-note = Note
sheet-purpose-own = as the ingredient says
sheet-purpose-none = No purpose is called '{ $text }'. Choose one of the list.
sheet-new-line-to = Type a name to add to { $phase }
sheet-new-line-below = Type a name to add below { $line }
sheet-held-back = held back for pH
sheet-announced = Total { $percent } %
sheet-announced-off = Total { $percent } %, { $alarm }

## Read out
sheet-spoken-percent = percent
sheet-spoken-grams = grams
sheet-spoken-purpose = purpose
sheet-spoken-range = use range
sheet-spoken-cost = cost
sheet-spoken-empty = not known
sheet-spoken-none = none
sheet-spoken-phase = phase { $letter } { $name }
sheet-spoken-pure = pure percent
sheet-spoken-inci = INCI
sheet-spoken-note = note
sheet-spoken-with-note = note: { $note }
sheet-spoken-locked = locked
sheet-hits-name = Ingredients that fit
sheet-hits-purpose = Purposes that fit
sheet-hits-none = Nothing on the shelf fits '{ $text }'. Type another name or an INCI name.
sheet-stock = stock

## Undo steps
sheet-undo-percent = Set { $ingredient } to { $percent } %
sheet-undo-mass = Set { $ingredient } to { $mass } g
sheet-undo-rest = Let { $ingredient } take the rest
sheet-undo-lock = { $locked ->
    [yes] Lock { $count ->
        [one] { $ingredient }
       *[other] { $count } lines
      }
   *[no] Unlock { $count ->
        [one] { $ingredient }
       *[other] { $count } lines
      }
  }
sheet-undo-to-ph = { $held ->
    [yes] Hold { $ingredient } back to adjust pH
   *[no] Add { $ingredient } as an ordinary line
  }
sheet-undo-note = Change the note of { $ingredient }
sheet-undo-purpose = Change the purpose of { $ingredient }
sheet-undo-short = Bring the total to 100 % with { $ingredient }
sheet-undo-scale = Scale the unlocked lines to 100 %
sheet-undo-add = Add { $ingredient }
sheet-undo-swap = Put { $ingredient } in the place of { $before }
sheet-undo-delete = { $count ->
    [one] Delete 1 line
   *[other] Delete { $count } lines
  }
sheet-undo-move = Move { $count ->
    [one] { $ingredient }
   *[other] { $count } lines
  }{ $way ->
    [up] { " " }up
    [down] { " " }down
   *[to] { "" }
  }
sheet-undo-paste = Paste { $count ->
    [one] 1 line
   *[other] { $count } lines
  }
sheet-undo-cut = Cut { $count ->
    [one] 1 line
   *[other] { $count } lines
  }

## Questions and refusals
sheet-which = '{ $text }' can be read as { $first } or as { $second }. Type the one that is meant.
sheet-itself = A stock cannot be a line of itself.

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
