### The window around the places.

app-name = Formulation Workbench
app-fault = Something went wrong in the program; the draft is as it was last stored.
app-fault-remedy = Go on, or copy the details and report them.

place-desk = Desk
menu-file = &File
menu-edit = &Edit
menu-view = &View
action-new = New formula
action-open = Open studio…
action-import = Bring in a formula…
action-export = Export this formula…
action-backup = Back up the studio…
action-restore = Restore a backup…
action-worksheet = Worksheet…
action-quit = Quit
action-undo = Undo
action-redo = Redo
action-scheme-system = Colours as the system has them
action-scheme-light = Light colours
action-scheme-dark = Dark colours
action-larger = Larger text
action-smaller = Smaller text
action-usual-size = Text at its usual size
text-size = Text at { $percent } %
status-saved = Saved
status-saving = Saving…
status-not-stored = Not stored
load-newer = Load the newer draft
window-places = Places
window-foot = State of the studio
place-shelf = Shelf
place-studio = Studio
menu-formula = F&ormula
menu-help = &Help
action-find = Find anything…
action-shopping = Shopping list
action-find-formula = Find a formula
action-keys = Keys
action-sample = Open the sample studio
status-read-only = Read only: nothing can be changed
status-lines = { $lines ->
    [one] 1 line
   *[other] { $lines } lines
  }, { $names ->
    [one] 1 INCI name
   *[other] { $names } INCI names
  }
status-rules = Rules as of { $set }
window-title = { $studio } – Formulation Workbench
formula-files = Formula documents (*.formula.json *.json)
studio-files = Studios (*.studio)
imported = { $name } was brought in.
exported = Exported to '{ $file }'.
backed-up = Backed up to '{ $file }'.
restored = Restored into '{ $file }'. Open it from the File menu.

make-version = Version
make-reason = Reason
make-reason-hint = Why this version: what changed
make-paper = Paper
make-take-number = Take a batch number
make-draft = Draft, to be saved as the next version
make-version-entry = v{ $number }, { $reason }
make-draft-label = draft, not a version
make-version-label = version { $number }
make-title = Worksheet, { $name }
make-needs-reason = Say why this version is made; then the draft is saved as a version and numbered.
make-not-whole = The total is not 100 %, so nothing can be made of it yet.
make-no-batch = There is no batch mass yet. Set one in the form row.
