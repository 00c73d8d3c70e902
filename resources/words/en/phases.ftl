### Phases of the sheet: their menu, their panel, their undo steps.

## Undo steps
phase-undo-add = Add a phase
phase-undo-begin = Begin a phase
phase-undo-rename = Rename { $phase }
phase-undo-kind = Change the kind of { $phase }
phase-undo-steps = Change the steps of { $phase }
phase-undo-move = { $way ->
    [up] Move { $phase } up
   *[down] Move { $phase } down
  }
phase-undo-remove = Remove { $phase }
phase-merged = { $phase } is removed. { $lines ->
    [0] Its { $steps ->
        [one] step went
       *[other] steps went
      } to { $heir }.
    [one] Its line went to { $heir }{ $steps ->
        [0] .
       *[other] , with its steps.
      }
   *[other] Its { $lines } lines went to { $heir }{ $steps ->
        [0] .
       *[other] , with its steps.
      }
  }

## Refused
edit-no-phase-before = There is no phase before this one.
edit-no-phase-after = There is no phase after this one. Add one first.
edit-phase-first-line = This is the first line of { $phase } already.
edit-phase-only = { $phase } is the only phase and holds lines. Add another phase first.
edit-second-rest = A line takes the rest already. Give one of the two a percent first.
edit-step-empty = A step needs a word about what is done.
edit-step-temperature = { $degrees } °C is not between { $low } and { $high } °C.
edit-step-hold = { $minutes } min is not between 0 and { $most } min.

## The panel of a phase
phase-panel-name = Phase and its steps
phase-name = Name
phase-kind = Kind
phase-kind-water = Water
phase-kind-oil = Oil
phase-kind-cool-down = Cool-down
phase-kind-adjust = pH adjustment
phase-kind-other = Other
phase-step-text = Step
phase-step-target = Target
phase-step-hold = Hold
phase-step-speed = Speed
phase-step-below = Add below
phase-step-cell = Step { $number }, { $field }
phase-step-text-example = Heat and hold
phase-step-target-example = 75 °C
phase-step-hold-example = 20 min
phase-step-speed-example = 600 rpm
phase-step-below-example = 40 °C
phase-step-degrees = { $value } °C
phase-step-minutes = { $value } min
phase-step-remove = Remove
phase-step-remove-spoken = Remove step { $number }
phase-done = Done
phase-not-degrees = '{ $text }' is no temperature. Type it like 75, 75 °C or 167 °F.
phase-not-minutes = '{ $text }' is no time. Type it like 20, 20 min or 1.5 h.
phase-number-two = '{ $text }' can be read as { $first } or as { $second }. Type the one that is meant.
