### Swaps, stocks and rebalancing on the Desk.

## The page of a swap
swap-title = Swap { $ingredient }
swap-hint = Arrow keys go through what could come, Enter applies, Ctrl+Enter keeps it as a variant, Esc goes back.
swap-search = Type any ingredient or stock
swap-candidates = What could come
swap-none = Nothing on the shelf fits '{ $text }'. Type another name or an INCI name.
swap-none-ranked = Nothing on the shelf is known to do the same job. Type a name.
swap-on-hand = I have this
swap-but = Differs: { $differs }
swap-ratio = How much of it
swap-ratio-typed = another ratio
swap-parts = Parts for one part
swap-parts-none = Type how many parts come for one part.
swap-stands = Let it stand
swap-apply = Apply
swap-keep = Keep as variant
swap-leave = Back to the sheet
swap-variant-name = { $name }, with { $ingredient }
swap-kept = '{ $name }' is a new draft. The one before stays as it was.
swap-undo = Swap { $before } for { $ingredient }

## Before and after
effect-name = Before and after
effect-lines = Lines
effect-before = before
effect-after = after
effect-by = change
effect-total = Total
effect-findings = What to look at
effect-gone = gone
effect-new = new
effect-unchanged = unchanged
effect-moved = reads otherwise
effect-findings-none = Nothing was found before, and nothing after.
effect-ph = pH
effect-ladder-before = pH ladder before
effect-ladder-after = pH ladder after
effect-ph-none = No pH is asked for and none can be estimated.
effect-figures = Figures
effect-figures-none = No figure changes.
effect-declaration = Ingredient list, { $market }
effect-declarations = Ingredient list
effect-declaration-none = The ingredient list stays as it is.

## Powder and stock
stock-title = { $ingredient }: powder or stock
stock-use = Use { $stock } (holds { $strength } %)
stock-back = Back to powder: { $ingredient }
stock-wet = Wet it in the { $liquid }, as a step
stock-options = Ways to bring it in
stock-no-way = No stock holds { $ingredient }, and no liquid of the sheet can wet it. Make a formula of the type stock with it first.
stock-step-added = A step is added before the others of { $phase }: { $step }
stock-step-there = The step stands there already.
stock-undo-use = Use { $stock } for { $ingredient }
stock-undo-back = Put { $ingredient } back as powder
stock-undo-wet = Wet { $ingredient } in the { $liquid }
stock-in-formulas = { $count ->
    [one] In 1 formula
   *[other] In { $count } formulas
  }
stock-would-differ = { $changed ->
    [no] . None would differ, as the stock is what it was.
   *[yes] { $differing ->
        [0] . Changed as it is, none would differ.
       *[other] ; changed as the stock is, { $differing } would differ:
      }
  }
stock-substance = { $name } { $before } % before, { $after } % now
stock-more = and { $count } more

## Rebalancing
rebalance-title = Rebalance
rebalance-ways = Ways to rebalance
rebalance-way-rest = Let the rest go to { $line }
rebalance-way-short = Short or over, into { $line }
rebalance-way-all = Over all unlocked lines, to 100 %
rebalance-way-phase = Within { $phase }, to 100 %
rebalance-way-phase-to = Level of { $phase }
rebalance-way-group = Active matter of { $count ->
    [one] { $line }
   *[other] the { $count } chosen lines
  }
rebalance-way-ratio = Ratio of { $first } to { $second }
rebalance-way-ratio-none = Ratio of two lines
rebalance-two-lines = Choose two lines of the sheet first, with Shift and the arrow keys or Ctrl and a click.
rebalance-level = % of the formula
rebalance-active = % active matter
rebalance-first = Parts of { $name }
rebalance-second = Parts of { $name }
rebalance-keep = What stays
rebalance-keep-sum = both together
rebalance-nothing = Nothing changes.
rebalance-same = No percent changes now; from now on the line takes the rest.
rebalance-undo = Rebalance: { $way }
rework-lines = Lines that change
rework-apply = Apply
rework-leave = Leave
sheet-action-swap = Swap for another ingredient
sheet-action-stock = Powder or stock
sheet-action-stock-use = Use a stock, or wet it first
sheet-action-stock-back = Back to powder
sheet-action-rebalance = Rebalance
finding-swap = Swap
finding-swap-line = Swap { $ingredient }
