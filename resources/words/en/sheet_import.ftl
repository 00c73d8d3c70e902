### Bringing in an old sheet in the window, and giving a formula out as one.

action-sheet-import = Bring in an old sheet…
action-sheet-export = Export as a sheet…
sheet-files = Sheets (*.csv *.tsv *.xlsx *.xlsm *.txt)
sheet-import-written-files = Sheets (*.csv *.tsv *.xlsx)

sheet-import-title = Bring in { $file }
sheet-import-pasted = what you pasted
sheet-import-pasted-name = Pasted formula
sheet-import-back = Leave it
sheet-import-name = Name of the draft
sheet-import-which = Which formula
sheet-import-which-one = { $number }: { $title }
sheet-import-mark = Decimal mark
sheet-import-mark-point = point, as in 1.5
sheet-import-mark-comma = comma, as in 1,5
sheet-import-mark-ask = choose
sheet-import-column = Column { $letter }: { $heading }
sheet-import-table = Rows of the sheet and what they become
sheet-import-reading = Reading the sheet.
sheet-import-nothing = No formula was found on this sheet. Say below which column holds the ingredients and which the amounts; what stands on the sheet is listed under it.
sheet-import-calculations = { $count ->
    [one] One cell is a calculation without a stored result, so it was not read.
   *[other] { $count } cells are calculations without a stored result, so they were not read.
  }
sheet-import-looked = I have looked: { $text }
sheet-import-heading = { $count ->
    [one] 1 line was read
   *[other] { $count } lines were read
  }, { $open ->
    [0] nothing is left to decide
    [one] 1 thing is to be decided
   *[other] { $open } things are to be decided
  }.
sheet-import-batch = The batch of { $mass } g stays as the plan.
sheet-import-make = Make a draft
sheet-import-make-open = { $count ->
    [one] Decide the one thing that is marked or asked first.
   *[other] Decide the { $count } things that are marked or asked first.
  }
sheet-import-make-none = There is no line to make a draft of.
sheet-import-hint = Enter changes what a row becomes, or its amount. Ctrl+Enter makes the draft.
sheet-import-read-only = This studio is open for reading only, so nothing can be brought in.
sheet-import-made = { $name } is a draft now. Its notes say where it comes from and what was not read.
sheet-import-dropped-many = One sheet at a time: { $file } is taken.

## What a column is
sheet-import-kind-name = Ingredient
sheet-import-kind-inci = INCI
sheet-import-kind-cas = CAS number
sheet-import-kind-percent = Percent
sheet-import-kind-share = Share of 1
sheet-import-kind-gram = Grams
sheet-import-kind-ounce = Ounces
sheet-import-kind-amount = Amounts with their unit
sheet-import-kind-unit = Unit
sheet-import-kind-phase = Phase
sheet-import-kind-note = Note
sheet-import-kind-other = not used

## The table
sheet-import-column-number = Row
sheet-import-column-text = On the sheet
sheet-import-column-amount = Amount
sheet-import-column-percent = % w/w
sheet-import-column-becomes = Becomes
sheet-import-column-sure = How sure
sheet-import-perhaps = { $name }?
sheet-import-choose = choose what this is
sheet-import-amount-open = decide
sheet-import-out = Leave out
sheet-import-unlisted = Keep as a line that is not on the shelf
sheet-import-keep-amount = { $amount }, as it stands
sheet-import-sure-exact = same name
sheet-import-sure-inci = same INCI name
sheet-import-sure-other-name = another name of it
sheet-import-sure-cas = same CAS number
sheet-import-sure-folded = same but for a remark
sheet-import-sure-rivals = several fit, choose one
sheet-import-sure-close = only near, choose one
sheet-import-sure-none = nothing fits, choose
sheet-import-sure-chosen = chosen by you
sheet-import-doubt = { $name }: { $reason }
sheet-import-amount-editor = Amounts it could be

## What is told of the sheet
sheet-import-report = What was read and what was not
sheet-import-known = To know
sheet-import-all = Every filled cell was read.
sheet-import-not-read = { $count ->
    [one] 1 cell was not read
   *[other] { $count } cells were not read
  }
sheet-import-left-out = Left out by you
sheet-import-left-row = Row { $row }: { $name }, { $amount }
sheet-import-notes-from = Brought in from { $file } on { $date }.
