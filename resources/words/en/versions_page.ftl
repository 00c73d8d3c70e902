### Versions: keeping one, the list of them, and what differs between two.

## Keeping a version
versions-keep = Keep a version…
versions-keep-title = Keep this as version { $number }
versions-keep-why = The draft stores itself as you type. A version stays as it is now for ever, with the facts it stands on, so that you can compare with it and come back to it.
versions-keep-reason = Reason
versions-keep-example = what you changed and why, or what you want to try
versions-keep-do = Keep
versions-keep-cancel = Not now
versions-keep-needs-reason = Say in a few words why you keep it; in a year the number alone tells you nothing.
versions-keep-same = Nothing has changed since version { $number }.
versions-keep-first = This is the first version.
versions-kept = Version { $number } of { $name } is kept.

## The page
versions-show = Versions and what differs…
versions-title = Versions of { $name }
versions-back = Back to the sheet
versions-table = Versions, the newest first
versions-column-version = Version
versions-column-date = Kept
versions-column-reason = Reason
versions-column-batches = Batches
versions-column-mark = Compared with
versions-draft = Draft
versions-now = now
versions-draft-same = as version { $number }
versions-draft-changed = changed since version { $number }
versions-draft-first = not kept as a version yet
versions-number = Version { $number }
versions-marked = this one
versions-restore = Make it the draft
versions-branch = Begin a new formula with it
versions-hint = Up and Down choose, and what changed since the one before is shown below. Space marks another to compare with. Enter goes into the comparison.
versions-restored = The draft is version { $number } now. What it was before comes back with undo.
versions-undo-restore = Make version { $number } the draft
versions-branch-name = { $name }, from version { $number }
versions-branch-notes = Begun with version { $number } of { $name } ({ $reason }).
versions-branched = { $name } is a formula of its own now; its notes say where it comes from.

## What differs
versions-difference = What differs
versions-between = { $before } and { $after }
versions-nothing-before = { $name } is the first: there is nothing before it to compare with.
versions-no-difference = Nothing differs between the two formulas.
versions-facts-note = A version is read with the facts and label names kept with it, the draft with those of today; the prices and the rules are of today on both sides.
versions-lines = Lines
versions-lines-none = No line differs.
versions-lines-same = { $count ->
    [0] { "" }
    [one] One line is the same in both.
   *[other] { $count } lines are the same in both.
  }
versions-head = Product and plan
versions-phases = Phases and steps
versions-figures = Figures
versions-ph = pH
versions-declaration = Ingredient list, { $market }
versions-findings = Findings
versions-findings-gone = Gone
versions-findings-new = New
versions-findings-changed = Read otherwise
versions-findings-unchanged = { $count ->
    [0] No finding stays as it is.
    [one] One finding stays as it is.
   *[other] { $count } findings stay as they are.
  }
versions-findings-none = No finding differs.
versions-column-what = What
versions-column-change = Change
versions-absent = not there
versions-takes-rest = { $percent }, the rest
versions-line-added = added
versions-line-removed = taken out
versions-line-swapped = swapped, { $other } before
versions-line-moved = moved
versions-line-moved-phase = moved from { $from } to { $to }
versions-line-rest-on = takes the rest now
versions-line-rest-off = takes the rest no more
versions-line-lock-on = locked
versions-line-lock-off = unlocked
versions-line-note = another note
versions-line-purpose = another purpose
versions-line-to-ph-on = held back for the pH now
versions-line-to-ph-off = held back for the pH no more
versions-phase-added = { $name } added
versions-phase-removed = { $name } taken out
versions-phase-renamed = { $from } is called { $name }
versions-phase-kind = { $name } is of another kind
versions-phase-steps = other steps in { $name }
versions-head-name = Name
versions-head-product_type = Kind of product
versions-head-exposure = Leave-on or rinse-off
versions-head-area = Area
versions-head-users = Users
versions-head-form = Form
versions-head-pack = Pack
versions-head-markets = Markets
versions-head-target_ph = Target pH
versions-head-plan = Batch
versions-list-added = New in the list: { $names }
versions-list-removed = No longer in the list: { $names }
versions-list-moved = In another place: { $names }
versions-ph-estimate = Estimate
versions-ph-interval = { $estimate } ({ $low } to { $high })
versions-ph-by = { $sign ->
    [up] up { $by }
   *[down] down { $by }
  }
