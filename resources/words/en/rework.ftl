### Rework: stocks, swaps, rebalancing and what differs between two formulas.

## What stands in the way of a swap or a stock
swap-unknown = What { $ingredient } is made of is not known, so nothing can be worked out. Give its composition first.
swap-too-much = That would be { $percent } % of { $ingredient }, more than the whole formula. Choose a stronger form or a smaller ratio.
swap-no-ratio = A ratio has to be a number above nothing.
swap-rest-by-mass = { $line } takes the rest, so its percent follows from the other lines. Swap it mass for mass, or give it a percent first.
swap-carried-locked = { $ingredient } brings { $percent } % of { $line } along, and that line is locked. Unlock it, or let the two stand side by side.
swap-carried-short = { $ingredient } brings more { $line } along than the line holds: { $percent } % too much. Take a stronger stock or one with less preservative, or let the surplus stand.
swap-carried-no-line = { $ingredient } brings { $percent } % of { $line } along, and no line of that can give way. Let it stand beside what is there, or take a stock made with the preservative of this formula.
swap-no-rest = { $more ->
    [true] The change brings in { $percent } % more, and no line can give way. Let a line take the rest first.
   *[false] The change leaves { $percent } % open, and no line can take it. Let a line take the rest first.
  }
swap-water-short = { $needed } % has to come off { $line }, and it holds { $have } %. Take a stronger form, or lower another line first.
swap-rest-short = { $ingredient } needs more room than { $line } has left: { $short } % is missing. Take a stronger form, or lower another line first.
stock-unknown = { $ingredient } is no stock whose contents are known.
stock-other-solute = { $ingredient } holds no { $line }, so it cannot stand for it.
stock-no-solute = { $ingredient } has no part that could stand on the line by itself.
stock-on-rest = { $line } takes the rest. Let another line take the rest first.

## What stands in the way of rebalancing
rebalance-phase-has-rest = { $phase } holds the line that takes the rest, so what it holds follows from the other phases. Give that line a percent first.
rebalance-phase-nothing-free = Every line of { $phase } is locked or at nothing, so there is nothing to scale.
rebalance-phase-locked = The locked lines of { $phase } alone hold { $locked } %, more than the { $wanted } % that would be left for it.
rebalance-group-has-rest = One of these lines takes the rest, so it cannot be set to a level. Leave it out of the group.
rebalance-group-nothing-free = Every one of these lines is locked or brings no active matter, so there is nothing to scale.
rebalance-group-locked = The locked lines alone bring { $locked } % of active matter, more than { $wanted } %.
rebalance-no-ratio = A ratio needs two lines and two numbers above nothing.
rebalance-ratio-of-rest = { $line } takes the rest, so it cannot be held to a ratio. Let another line take the rest first.
rebalance-ratio-of-nothing = A line at nothing has no ratio. Give it a percent first.
rebalance-rest-short = { $line } has too little left: { $short } % is missing.

## By how much a material is replaced
ratio-mass = the same mass
ratio-active = the same pure matter: { $is-one ->
    [yes] one part for one
   *[no] { $factor } parts for one
  }
ratio-function = the same effect, about { $is-one ->
    [yes] one part for one
   *[no] { $factor } parts for one
  }
ratio-dose = its own usual dose; { $is-one ->
    [yes] one part for one
   *[no] { $factor } parts for one
  } is a start
ratio-typed = { $is-one ->
    [yes] one part for one
   *[no] { $factor } parts for one
  }, as typed
ratio-source = { $confidence ->
    [computed] { $source }
    [read] { $source }
   *[memory] { $source }, from memory
  }

## Why something is a candidate
why-stock-of-it = a stock made with it
why-in-table = a usual swap ({ $source })
why-in-table-reversed = a usual swap the other way round ({ $source })
why-same-substance = holds the same substance: { $substance }
why-same-purpose = does the same job: { $function }
why-shared-functions = shares: { $functions }
why-same-solubility = dissolves in the same: { $solubility }
why-same-charge = same charge: { $charge }
why-ph-fits = bears the pH asked for ({ $window })
why-on-hand = on hand

## What differs
differs-functions = does not do: { $functions }
differs-solubility = dissolves otherwise: { $before } before, { $after } now
differs-charge = another charge: { $before } before, { $after } now
differs-ph-narrower = its pH window is narrower: { $window }, asked for { $asked }
differs-ph-apart = its pH window does not meet the formula's: { $window }, asked for { $asked }
differs-strength = another strength: { $before } % before, { $after } % now
differs-dose = usual dose { $low } to { $high } %
differs-form = another form: { $before } before, { $after } now
differs-origin = another origin: { $before } before, { $after } now
differs-heat = bears less heat
differs-salt = is sensitive to salts
differs-note = { $note }

## What a stock, a powder or a slurry does
rework-slurry-step = Wet the { $powder } in the { $liquid } to a smooth slurry, then add it to the water while stirring.
rework-stands = { $ingredient } stands { $percent } % higher than designed, because what came in carries it.

## How many decisions lie between two formulas
decisions-one = One decision lies between the two, so a difference at the bench can be put down to it.
decisions-several = { $count } decisions lie between the two: { $decisions }. What differs at the bench may come from any of them.
decision-swapped = { $about } swapped in
decision-added = { $about } added
decision-removed = { $about } taken out
decision-percent = { $about } at another percent
decision-scaled = { $lines } lines scaled together
decision-moved = { $about } moved
decision-steps = other steps in { $about }
decision-head = { $about ->
    [product_type] another kind of product
    [exposure] leave-on or rinse-off
    [area] another area
    [users] other users
    [form] another form
    [markets] other markets
    [target_ph] another target pH
   *[other] another { $about }
  }
