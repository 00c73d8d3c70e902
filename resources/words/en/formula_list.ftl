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
list-archived-count = { $is_shown ->
    [yes] Hide archived ({ $count })
   *[no] Archived ({ $count })
  }
list-archived-state = archived
list-archived-back = Bring back
list-open = Open
list-duplicate = Duplicate
list-notes = Notes and tags
list-used = Where it is used
list-archive = Archive
list-bring-back = Bring back from the archive
list-delete = Delete
list-delete-row = Delete the chosen formula
list-open-named = Open { $name }
list-duplicate-named = Duplicate { $name }
list-notes-named = Notes and tags of { $name }
list-used-named = Where { $name } is used
list-archive-named = Archive { $name }
list-bring-back-named = Bring { $name } back from the archive
list-delete-named = Delete { $name }
list-undo-delete = Delete { $name }
list-undo-archive = Archive { $name }
list-undo-bring-back = Bring back { $name }
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
first-text = This studio holds no formula yet. All three ways below stay open to you later.
first-read-only = This studio is open for reading only, so nothing can be made in it.
first-new = Start a formula
first-new-text = From a kind of product, with phases and starting ranges, or blank.
first-import = Bring in a formula document
first-import-text = A *.formula.json file that you or somebody else exported.
first-sample = Open the sample studio
first-sample-text = An invented studio with formulas and stocks to look around in. It is a file of its own; yours stays as it is.

## Notes and tags, in the form row
form-notes = Notes
form-notes-none = none
form-notes-written = written
form-notes-label = Notes; stored as you type
form-tags-label = Tags, separated by commas
form-tags-example = summer, dry skin
form-summary = About this formula
form-summary-value = { $values }
form-summary-part = { $field ->
    [ph] { $is_set ->
        [no] pH not set
       *[yes] pH { $value }
      }
    [batch] { $is_set ->
        [no] batch not set
       *[yes] batch { $value }
      }
    [rest] { $is_set ->
        [no] no rest line
       *[yes] rest line { $value }
      }
    [notes] notes { $value }
   *[product] { $value }
  }
