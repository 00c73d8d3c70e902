### Find anything, and the sheet of keys.

find-name = Find anything
find-line = Ingredient, formula, action or setting
find-hits = What fits
find-nothing = Nothing fits.
find-hint = Arrows choose, Enter goes there, Esc leaves
find-said = { $name }, { $kind }
find-kind = { $kind ->
    [ingredient] ingredient
    [formula] formula
    [stock] stock
    [archived] formula in the archive
    [setting] setting
    [place] place
   *[action] action
  }
keys-title = Keys
keys-hint = Esc or F1 closes this sheet.
keys-window = Window
keys-list = Formula list
keys-sheet = Sheet
keys-none = Nothing here has a key.
