### What is pasted into the sheet.

paste-nothing = There is no text on the clipboard.
paste-title = Paste lines
paste-heading = { $count ->
    [one] 1 line
   *[other] { $count } lines
  } from { $rows ->
    [one] 1 pasted row
   *[other] { $rows } pasted rows
  }{ $look ->
    [0] { "" }
   *[other] , { $look } to look at
  }
paste-table = Pasted rows and what they become
paste-column-label = Column { $number }: { $sample }
paste-mark = Decimal mark
paste-mark-point = point, as in 1.5
paste-mark-comma = comma, as in 1,5
paste-mark-ask = choose
paste-place = Put them
paste-place-replace = in the place of the whole draft
paste-place-phase = behind { $phase }
paste-phases = Phases
paste-phases-sorted = by what each line is: water, oil, cool-down
paste-phases-one = all in one phase
paste-phase-water = Water phase
paste-phase-oil = Oil phase
paste-phase-cool-down = Cool-down
paste-phase-count = { $phase } ({ $count ->
    [one] 1 line
   *[other] { $count } lines
  })
paste-into-several = The rows name no phases; they go into { $phases }.
paste-into-one = The rows name no phases; all of them go into { $phase }.
paste-water-rest = { $name } takes the rest
paste-header = The first row is a heading
paste-cancel = Cancel
paste-hint = Enter on a row changes what it becomes. Ctrl+Enter puts the lines in. One undo takes all of it back.
paste-put-in = { $count ->
    [one] Put 1 line in
   *[other] Put { $count } lines in
  }
paste-sums = Now: { $before }. After pasting: { $after }.
paste-goes = { $lines ->
    [one] Replaces the line
   *[other] Replaces the { $lines } lines
  } there now{ $steps ->
    [0] .
   *[other] {" "}and the steps of their phases.
  }
paste-ask-mark = 1,234 can be one thousand or a little over one. Choose the decimal mark.
paste-not-read = not read

## What a column is
paste-role-name = Ingredient
paste-role-inci = INCI
paste-role-percent = Percent
paste-role-share = Share of 1
paste-role-grams = Grams
paste-role-ounces = Ounces
paste-role-phase = Phase
paste-role-note = Note
paste-role-ignore = not used

## The table
paste-column-number = Row
paste-column-text = Pasted
paste-column-amount = Amount
paste-column-percent = % w/w
paste-column-becomes = Becomes
paste-column-sure = How sure

## What a row becomes
paste-fate-unlisted = Keep as a line that is not on the shelf
paste-fate-note = Keep as a note of the line before
paste-fate-out = Leave out
paste-sure-exact = same name
paste-sure-likely = likely
paste-sure-doubtful = doubtful, please look
paste-sure-none = nothing on the shelf fits
paste-sure-chosen = chosen by you

## What could not be read
paste-pasted-no-name = an amount without a name
paste-pasted-no-amount = no amount: set to 0
paste-pasted-not-a-number = amount not readable: set to 0
paste-pasted-wrong-unit = wrong unit for this column: set to 0
paste-pasted-outside = not between 0 and 100 %: set to 0
paste-pasted-second-rest = another line takes the rest: set to 0
paste-pasted-rest-of-mass = no rest among masses: set to 0
paste-pasted-total = a total
paste-pasted-header = a heading
