### The formula list: finding, sorting, and what can be done with a formula.

list-section-drafts = Drafts
list-section-formulas = Formulas
list-section-stocks = Stocks
list-section-archived = Archived
list-stock = stock, { $used }
list-state-tags = { $count ->
    [0] { $state }
   *[other] { $tags }   { $state }
  }
list-find = Find a formula by its name, a tag, or an ingredient it uses
list-find-example = Name, tag, ingredient
list-nothing-fits = No formula fits. Clear the line above to see all of them.
list-order = { $order ->
    [edited] Last edited first
    [type] By type
   *[name] By name
  }
list-order-tag = { $order }, tag { $tag }
list-tagged = Tag: { $tag }
list-show-archive = Show the archive
list-open = Open
list-duplicate = Duplicate
list-notes = Notes and tags
list-used = Where it is used
list-archive = Archive
list-bring-back = Bring back from the archive
list-delete = Delete
list-copy-name = Copy of { $name }
list-copied = { $name } was duplicated; the copy is open.
list-deleted = { $name } was deleted.
list-archived = { $name } is in the archive.
list-brought-back = { $name } is back in the list.
list-used-nowhere = No formula uses { $name }.
list-used-in = { $name } is used in { $users }{ $more ->
    [0] {""}
   *[other] {" "}and { $more } more
  }.

## While no formula is open
first-title = Where to begin
first-text = This studio holds no formula yet. The three ways below can all be taken later as well.
first-read-only = This studio is open for reading only, so nothing can be made in it.
first-new = Start a formula
first-new-text = From a kind of product, with phases and starting ranges, or blank.
first-import = Take in a formula document
first-import-text = A *.formula.json file that you or somebody else exported.
first-sample = Open the sample studio
first-sample-text = An invented studio with formulas and stocks to look around in. It is a file of its own; yours stays as it is.

## Notes and tags, in the form row
form-notes = Notes
form-notes-none = none
form-notes-label = Notes; stored as you type
form-tags-label = Tags, parted by commas
form-tags-example = summer, dry skin
form-summary = About this formula
form-summary-value = { $values }
