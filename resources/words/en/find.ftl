### Find anything, and the sheet of keys.

find-name = Find anything
find-line = An ingredient, a formula, something to do
find-hits = What fits
find-nothing = Nothing fits.
find-hint = Arrows choose, Enter goes there, Esc leaves
find-said = { $name }, { $under }
find-not-now = not possible just now
find-kind = { $kind ->
    [ingredient] ingredient on the shelf
    [formula] formula
    [stock] stock
    [archived] formula in the archive
    [setting] a setting of the studio
   *[action] something to do
  }
keys-title = Keys
keys-hint = Esc or F1 closes this sheet.
keys-window = Window
keys-list = Formula list
keys-sheet = Sheet
keys-shelf = Shelf

## Other words by which something to do is found
find-words = { $action ->
    [action-larger] text size, font size, bigger text, zoom in, enlarge, scale
    [action-smaller] text size, font size, smaller text, zoom out, reduce, scale
    [action-usual-size] text size, font size, zoom, reset, normal, default, 100 %
    [action-scheme-system] theme, appearance, dark mode, light mode, scheme, look
    [action-scheme-light] theme, appearance, light mode, day, bright, scheme, look
    [action-scheme-dark] theme, appearance, dark mode, night, black, scheme, look
    [action-worksheet] print, paper, pdf, batch sheet, make
    [action-new] create, add, start, begin
    [action-import] import, load, take in, read
    [action-export] export, save as, share, send
    [action-sheet-import] import, csv, xlsx, spreadsheet, table
    [action-sheet-export] export, csv, xlsx, spreadsheet, save as, table
    [action-backup] backup, copy, save, safe copy
    [action-restore] restore, recover
    [action-open] file, another studio, load
    [action-sample] example, demo, tutorial
    [action-quit] exit, close, leave
    [action-undo] undo, take back, revert, step back
    [action-redo] redo, again, repeat
    [action-find-formula] search, filter, list
    [action-shopping] buy, needs, materials, order, what a batch needs
    [action-keys] help, shortcuts, keyboard, hotkeys
    [list-duplicate] copy, clone, duplicate
    [list-notes] comment, remark, label, keyword, notes, tags
    [list-used] usage, where used, references
    [list-archive] archive, hide, put away, restore, bring back
    [list-delete] delete, remove, erase, discard, bin
    [versions-keep] save, version, snapshot, freeze
    [versions-show] history, compare, earlier, snapshot
    [place-desk] go to, formula, draft, edit
    [place-shelf] go to, ingredients, stock, materials
    [place-studio] settings, preferences, options, setup
   *[other] {""}
  }
