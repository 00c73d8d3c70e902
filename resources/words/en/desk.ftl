### The Desk: formula list, head, form row, what to look at, figures.

## List of formulas
desk-list-name = Formulas
desk-list-empty = No formula yet. Make the first one.
desk-list-used = { $count ->
    [0] in no formula yet
    [one] in 1 formula
   *[other] in { $count } formulas
  }
desk-list-state = { $state ->
    [version] v{ $version }
   *[draft] { $version ->
        [0] draft, first version to come
       *[other] draft after v{ $version }
    }
  }
desk-new-formula = New formula
desk-new-formula-name = New formula
desk-new-read-only = This studio is open for reading only, so no formula can be made in it.
desk-first-phase = Water phase
desk-empty-title = No formula is open
desk-empty-text = Choose one from the list, or begin another.

## Head
desk-name = Name of the formula
desk-name-hint = Double click or F2 to rename
desk-name-empty = A formula needs a name; it keeps the one it had.
desk-undo-rename = Rename to { $name }
desk-state = { $version ->
    [0] draft, first version to come
   *[other] draft after v{ $version }
  }
desk-count-stop = { $count ->
    [one] 1 stop
   *[other] { $count } stops
  }
desk-count-caution = { $count ->
    [one] 1 caution
   *[other] { $count } cautions
  }
desk-count-note = { $count ->
    [one] 1 note
   *[other] { $count } notes
  }
desk-count-accepted = { $count ->
    [one] 1 accepted
   *[other] { $count } accepted
  }
desk-count-none = nothing to look at
desk-worksheet = Worksheet
desk-blocked-empty = Add a line first.
desk-blocked-total = The total is { $total } %, not 100 %.
desk-blocked-rest = The lines exceed the batch by { $excess } %.
desk-blocked-line = { $ingredient } exceeds the batch.
desk-blocked-no-batch = Say first how much to make.

## What to look at
desk-findings = What to look at
desk-findings-no-lines = No lines yet, so nothing was checked.
desk-findings-none = Nothing to look at. What was checked: the total, usual levels, preservation, pH windows, what goes with what, what the balances can weigh, and the limits on file for { $markets }. What is on no file was not checked: see Label and checks.
desk-findings-none-stock = Nothing to look at. What was checked: the total, usual levels, whether a preservative is there, and what the balances can weigh. Limits, pH and what goes with what are held against the products it goes into.
desk-finding-why = Why
desk-finding-hide-why = Hide why
desk-finding-source = { $confidence ->
    [memory] Source: { $source } (from memory, not confirmed in the text)
   *[read] Source: { $source }
  }
desk-finding-source-short = { $confidence ->
    [memory] Source: { $source } (from memory)
   *[read] Source: { $source }
  }
desk-finding-no-source = Source: arithmetic of this formula.
desk-finding-value = { $unit ->
    [gram] Found: { $value } g
    [ph] Found: pH { $value }
   *[percent] Found: { $value } %
  }
desk-finding-limit = { $unit ->
    [gram] Limit: { $limit } g
    [ph] Limit: pH { $limit }
   *[percent] Limit: { $limit } %
  }
desk-finding-basis = Counted: { $basis }
desk-finding-lines = Lines: { $lines }
desk-finding-accept = Accept
desk-finding-reason = Why this may stay as it is
desk-finding-reason-hint = Why may it stay? Enter keeps it.
desk-finding-reason-keep = Keep
desk-finding-accepted = Accepted: { $reason }
desk-finding-reopen = Look at it again
desk-undo-accept = Accept a finding
desk-undo-reopen = Look at a finding again
basis-free-water = water of the whole formula, by mass
basis-as-supplied-of-total = material as supplied, percent of the whole

## Figures
desk-figures = Figures
desk-cost-incomplete = Cost is incomplete: no price for { $names }{ $more ->
    [0] {""}
   *[other] {" "}and { $more } more
  }.
figure-water = Water in all
figure-oils = Oils
figure-emulsifier-of-oils = Emulsifier, { $emulsifier } % for { $oils } % oils (a usual rule: { $wanted } %)
figure-filled-mass = Filled into packs
figure-needed-mass = Needed with losses
figure-cost-batch = Cost of the batch
figure-cost-unit = Cost of one pack
unit-percent = { $value } %
unit-percent-of-oils = { $value } % of oils
unit-gram = { $value } g
unit-money = { $value } { $currency }

## Form row
form-product = Product
form-market-name = { $market }
form-ph = Target pH
form-batch = Batch
form-rest = Rest line
form-market = Market
form-done = Done
form-not-set = not set
form-no-rest = none
form-undo = { $field ->
    [product] Change product
    [market] Change markets
    [ph] Change target pH
    [batch] Change batch
   *[rest] Change rest line
  }

form-type-label = Type
form-type = { $type ->
    [toner] Toner
    [serum] Serum
    [gel] Gel
    [lotion] Lotion
    [cream] Cream
    [cleanser] Cleanser
    [shampoo] Shampoo
    [body-wash] Body wash
    [conditioner] Conditioner
    [balm] Balm
    [oil-serum] Oil serum
    [scrub] Scrub
    [clay-mask] Clay mask
    [bath] Bath product
    [stock] Stock
   *[other] Other product
  }
form-exposure-label = Exposure
form-exposure = { $exposure ->
    [rinse-off] rinse-off
   *[leave-on] leave-on
  }
form-area-label = Area
form-area = { $area ->
    [face] face
    [hand] hands
    [hair] hair
    [eye] around the eyes
    [lip] lips
    [nappy] nappy area
   *[body] body
  }
form-users-label = Users
form-users = { $users ->
    [under-3] children under 3
   *[adult] adults
  }
form-form-label = Form
form-form = { $form ->
    [spray] spray
   *[usual] no spray
  }
form-market-long = { $market ->
    [EU] European Union
    [UK] United Kingdom
    [US] United States
   *[other] { $market }
  }
form-market-one = Choose at least one market: its rules are what the draft is checked against.
form-ph-label = Lowest and highest pH
form-ph-example = 5.0 – 5.6
form-ph-two = Type the lowest and the highest pH, such as 5.0 – 5.6.
form-ph-order = The lower pH comes first, and both lie from 0 to 14.
form-rest-label = Line that takes the rest

form-batch-mass = { $mass } g
form-batch-packs = { $enough ->
    [no] { $mass } g; { $units } × { $fill } ml needs { $needed } g
   *[yes] { $mass } g, fills { $units } × { $fill } ml
  }
form-plan-batch-mass-label = Batch mass
form-plan-batch-mass-value = { $value } g
form-plan-units-label = Packs
form-plan-units-value = { $value }
form-plan-fill-label = Fill of one
form-plan-fill-value = { $value } ml
form-plan-density-label = Density, g/ml
form-plan-density-value = { $value }
form-plan-hold-up-label = Hold-up
form-plan-hold-up-value = { $value } %
form-plan-retains-label = Retains
form-plan-retains-value = { $value }
form-plan-tests-label = For tests
form-plan-tests-value = { $value } g
form-plan-units = the number of packs
form-plan-fill = the fill of one
form-plan-density = the density
form-needed = The packs need { $mass } g, hold-up and samples included.
form-needed-nothing = Leave the batch mass empty to let it follow from the packs.
form-needed-missing = What the packs need follows from { $missing } as well.

form-above-zero = This has to be more than nothing.
form-no-unit = No unit belongs here, but '{ $unit }' was typed.
form-hold-up-range = Hold-up is from 0 % to less than 100 %.
form-whole-number = Type a whole number up to 100 000.
form-density-range = A density lies between { $low } and { $high } g/ml; water has 1.
form-two-readings = This can be read in two ways: { $readings }. Type it so that only one is left.
form-number-negative = A negative number cannot stand here.
form-number-empty = Type a number.
form-number-not-a-number = This is not a number.
form-number-too-long = This is too long for a number.
form-number-too-deep = This has too many brackets.
form-number-too-large = This number is too large.
form-number-division-by-zero = This divides by zero.
form-number-mixed-marks = Decimal marks and thousands cannot be told apart here.
form-unit-missing = Type a unit as well.
form-unit-unknown = The unit '{ $unit }' is unknown.
form-unit-varies = The unit '{ $unit }' means different amounts in different places; type another.
form-unit-not-mass = '{ $unit }' is no unit of mass; type grams.
form-unit-not-volume = '{ $unit }' is no unit of volume; type millilitres.
form-unit-drops = Drops are no measure; type millilitres or grams.
