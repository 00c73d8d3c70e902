### Bringing in and giving out sheets (CSV, TSV, XLSX).

## A file that is no sheet
storage-sheet-not-text = '{ $file }' cannot be read as a sheet: it is not text, and no workbook either.
storage-sheet-not-text-remedy = Save the sheet as CSV or XLSX and try again.
storage-sheet-not-workbook = '{ $file }' is a packed file, but not an XLSX workbook.
storage-sheet-not-workbook-remedy = Save the sheet as CSV or XLSX and try again.
storage-sheet-old-workbook = '{ $file }' is a workbook in the old XLS format or is locked with a password, and neither is read here.
storage-sheet-old-workbook-remedy = Open it in a spreadsheet and save it as XLSX without a password, or as CSV.
storage-sheet-locked = '{ $file }' is locked with a password.
storage-sheet-locked-remedy = Save it without a password and try again.
storage-sheet-damaged = '{ $file }' is a damaged workbook or holds what no plain workbook holds, so it was not read.
storage-sheet-damaged-remedy = Open it in a spreadsheet, save it again as XLSX or CSV, and try that.
storage-sheet-empty = There is nothing in '{ $file }'.
storage-sheet-empty-remedy = Choose another file.
storage-sheet-too-large = '{ $file }' is larger, or unpacks to more, than the { $limit } MB a sheet of formulas may have.
storage-sheet-too-large-remedy = Save the formula alone as a file of its own and try again.
storage-sheet-too-many-rows = '{ $file }' has a sheet of more than { $limit } rows, which is more than a sheet of formulas may have.
storage-sheet-too-many-rows-remedy = Save the formula alone as a file of its own and try again.
storage-sheet-too-many-columns = '{ $file }' has a sheet of more than { $limit } columns, which is more than a sheet of formulas may have.
storage-sheet-too-many-columns-remedy = Save the formula alone as a file of its own and try again.
storage-sheet-too-many-cells = '{ $file }' has a sheet of more than { $limit } filled cells, which is more than a sheet of formulas may have.
storage-sheet-too-many-cells-remedy = Save the formula alone as a file of its own and try again.
storage-sheet-long-cell = '{ $file }' has a cell of more than { $limit } letters, so it is no sheet of formulas.
storage-sheet-long-cell-remedy = Save the formula alone as a file of its own and try again.
storage-sheet-too-many-sheets = '{ $file }' has more than { $limit } sheets.
storage-sheet-too-many-sheets-remedy = Save the formula alone as a file of its own and try again.
storage-sheet-ending = A formula is written as a sheet with the ending .csv, .tsv or .xlsx, and '{ $file }' has another one.
storage-sheet-ending-remedy = Choose one of these endings.

## The report of what was read
sheet-report-read = Read as "{ $name }": { $count ->
    [one] 1 line
   *[other] { $count } lines
  }.
sheet-report-row = row { $row }: { $name }, { $percent };
sheet-report-choices = It could be { $choices }.
sheet-report-unread = { $count ->
    [one] 1 cell was
   *[other] { $count } cells were
  } not read:
sheet-report-all-read = Every cell was read.
sheet-report-cell = { $cell } "{ $text }": { $reason }
sheet-rest = rest
sheet-either = { $first } or { $last }

## Which ingredient a name means
sheet-name-exact = taken for { $name } (same name).
sheet-name-inci = taken for { $name } (same INCI name).
sheet-name-other-name = taken for { $name } (another name of it).
sheet-name-cas = taken for { $name } (same CAS number).
sheet-name-folded = taken for { $name } (same name but for a remark).
sheet-name-doubtful = please look: it may mean { $names }; until one is chosen it stays a line by its name.
sheet-name-none = please look: nothing on the shelf fits, so it stays a line by its name.

## Why a cell was not read
sheet-outside = it stands outside the formula.
sheet-column = its column is none of a formula.
sheet-subtotal = it stands beside the name of a phase.
sheet-no-name = there is no ingredient in its row.
sheet-below-total = it stands below the total.
sheet-calculation = it is a calculation without a stored result.
sheet-other-table = it belongs to another formula on the sheet.
sheet-text-row = it is text, not a line of the formula.
sheet-no-table = no formula was found on this sheet.

## What is doubtful about an amount
sheet-no-amount = no amount, so it stands at 0.
sheet-not-a-number = "{ $text }" is no amount that can be read, so it stands at 0.
sheet-range = "{ $text }" is a range, so it stands at 0 until one amount is chosen.
sheet-fraction = "{ $text }" is a fraction, so it stands at 0 until it is confirmed.
sheet-about = "{ $text }" is not exact, so it stands at 0 until it is confirmed.
sheet-trace = "{ $text }" names no amount, so it stands at 0.
sheet-negative = "{ $text }" is below zero, so it stands at 0.
sheet-above-whole = "{ $text }" is more than the whole, so it stands at 0.
sheet-volume = "{ $text }" is a volume, which has no mass without a density, so it stands at 0.
sheet-drops = "{ $text }" is counted in drops, which differ in size; weigh it. It stands at 0.
sheet-spoon = "{ $text }" is a measure that differs from kitchen to kitchen; weigh it. It stands at 0.
sheet-unknown-unit = "{ $text }" has a unit that is not known here, so it stands at 0.
sheet-two-readings = "{ $text }" can be read with a decimal comma or a decimal point, so it stands at 0 until one is chosen.
sheet-second-rest = another line takes the rest, so it stands at 0.
sheet-rest-of-mass = it takes a rest, but how much everything weighs is not said, so it stands at 0.
sheet-to-ph = it is added until the pH is right, so it stands at 0.
sheet-disagrees = its percent and its mass do not agree; the percent was taken.
sheet-zero = its amount is zero.
sheet-percent-among-masses = some amounts are percents and some are masses; please look at this one.

## What there is to know of the whole
sheet-total-differs = The total on the sheet is { $said } { $unit }, but what was read adds up to { $found } { $unit }.
sheet-total-agrees = The total on the sheet agrees with what was read.
sheet-not-whole = What was read adds up to { $total } %, not 100.
sheet-unit-assumed = No unit is given, so the amounts were taken for parts by mass; please confirm.
sheet-percent-assumed = No unit is given, but the amounts add up to a whole, so they were taken for { $kind ->
    [share] parts of one
   *[percent] percents
  }.
sheet-of-masses = The masses were turned into percents of their sum.
sheet-figures-beside = Beside the amounts stand { $count } more figures under no heading of theirs; please look whether they belong together.
sheet-amounts-without-name = { $count } amounts have no ingredient beside them; please look.

## On the command line
sheet-cli-many = '{ $file }' holds { $count } formulas ({ $names }).
sheet-cli-many-remedy = Choose one with --table and its number.
sheet-cli-no-table = No formula was found in '{ $file }': there is no table of ingredients with amounts.
sheet-cli-no-table-remedy = Put the names and the amounts into two columns and try again.
sheet-cli-no-such-table = '{ $file }' holds { $count } formulas, and there is no number { $asked }.
sheet-cli-no-such-table-remedy = Choose one with --table and its number.
sheet-cli-doubtful = { $count } things in '{ $file }' are doubtful, so nothing was stored.
sheet-cli-doubtful-remedy = Correct the sheet, or take it as the report says with --accept.
sheet-cli-phase = Phase A
