### What storage says about studios and files: what happened, then what helps.

## A path that holds no studio
storage-missing = There is no studio at '{ $file }'.
storage-missing-remedy = Check the name, or create a new studio.
storage-directory = '{ $file }' is a folder, not a studio.
storage-directory-remedy = Choose the studio file inside it.
storage-not-a-file = '{ $file }' is not an ordinary file, so it cannot be a studio.
storage-not-a-file-remedy = Choose a studio file.
storage-empty = The file '{ $file }' is empty, so there is no studio in it.
storage-empty-remedy = Restore a backup over it, or remove it and create a new studio.
storage-foreign = The file '{ $file }' is not a studio of this program.
storage-foreign-remedy = Choose another file; this one has not been changed.
storage-exists = There is already a file '{ $file }', and it is not written over.
storage-exists-remedy = Choose another name, or move the file away first.
storage-no-folder = '{ $file }' cannot be written because there is no folder '{ $folder }'.
storage-no-folder-remedy = Make the folder first, or choose another one.

## A studio of another time
storage-newer = The studio '{ $file }' was written by a newer version of this program (its tables are { $revision }).
storage-newer-remedy = Install the newer version to open it; nothing has been changed.
storage-older-read-only = The studio '{ $file }' is from an older version of this program and has to be brought up to date before it can be read.
storage-older-read-only-remedy = Open it for writing once; a backup is made first.
storage-upgraded = The studio '{ $file }' came from an older version and has been brought up to date; its former state is kept in '{ $backup }'.
storage-refreshed = Its shipped ingredients have been brought from the tables of { $before } to those of { $after }: { $changed ->
    [0] none changed
    [one] one changed
   *[other] { $changed } changed
  }, { $added ->
    [0] none is new
    [one] one is new
   *[other] { $added } are new
  }; ingredients of your own are as they were.
storage-upgrade-orphans = The studio '{ $file }' could not be brought up to date because some of its rows refer to others that are missing.
storage-upgrade-orphans-remedy = It is as it was before; check it with "check-studio", or restore a backup.

## The world around a studio
storage-locked = The studio '{ $file }' is being written by another program, and it did not finish in time.
storage-locked-remedy = Close the other window or wait for it, then try again.
storage-in-use = The studio '{ $file }' is open elsewhere, so it cannot be replaced.
storage-in-use-remedy = Close every window that shows it, then try again.
storage-read-only = The studio '{ $file }' may only be read, not written.
storage-read-only-remedy = Copy it to a folder where you may write to go on with it.
storage-found-read-only = The studio '{ $file }' may only be read, not written. It is open for reading: everything can be looked at and printed, and nothing is changed. To go on with it, copy it to a folder where you may write.
storage-found-read-only-folder = The studio '{ $file }' lies in a folder where you may not write ('{ $folder }'). It is open for reading: everything can be looked at and printed, and nothing is changed. To go on with it, copy it to a folder where you may write.
storage-opened-for-reading = The studio '{ $file }' is open for reading only, so nothing is stored.
storage-opened-for-reading-remedy = Open it for writing to change it.
storage-full = The disk is full, so nothing more could be stored in '{ $file }'.
storage-full-remedy = Free some space and try again; what was stored before is kept.
storage-not-written = '{ $file }' could not be read or written because the disk reported an error.
storage-not-written-remedy = See whether the disk is full or has been taken out, then try again; what was stored before is kept.
storage-cannot-open = '{ $file }' cannot be opened.
storage-cannot-open-remedy = See whether it is still there and whether you may read it.
storage-write-failed = '{ $file }' could not be written: { $reason }.
storage-write-failed-remedy = See whether the disk is full or the folder may not be written; what was there before is kept.
storage-write-directory = '{ $file }' is a folder, so no file can be written under that name.
storage-write-directory-remedy = Choose a name for the file inside it.

## Damage
storage-found-damaged = The studio '{ $file }' is damaged.
storage-found-damaged-remedy = Close it and run "check-studio" on it, which says what can be read and which backup is whole.
storage-damaged = The studio '{ $file }' is damaged; { $count ->
    [one] one formula can still be read
   *[other] { $count } formulas can still be read
  } ({ $names }{ $more ->
    [0] {""}
   *[other] {" "}and { $more } more
  }).
storage-damaged-nothing = The studio '{ $file }' is damaged, and no formula in it can be read.
storage-damaged-backup = The backup '{ $backup }' beside it is whole: restore that one.
storage-damaged-no-backup = No whole backup lies beside it; restore one you keep elsewhere, and keep this file.
storage-copy-not-whole = The copy of '{ $file }' is not whole, so it was not kept.
storage-copy-not-whole-remedy = Run "check-studio" on the studio, which says what is damaged.
storage-restore-itself = '{ $file }' cannot be restored from itself.
storage-restore-itself-remedy = Choose the backup to restore from.
storage-unreadable-formula = The formula '{ $name }' cannot be read from the studio.
storage-unreadable-formula-remedy = Run "check-studio" and restore a backup; the other formulas are not affected.
storage-unreadable-ingredient = The ingredient '{ $key }' cannot be read from the studio.
storage-unreadable-ingredient-remedy = Run "check-studio" and restore a backup; the other ingredients are not affected.
storage-unreadable-version = Version { $number } of '{ $name }' cannot be read from the studio.
storage-unreadable-version-remedy = Run "check-studio" and restore a backup; the other versions are not affected.
storage-check-orphan = A row of the table '{ $table }' refers to one of '{ $parent }' that is missing.

## What the maker asked for
storage-no-such-formula = There is no formula '{ $key }' in this studio.
storage-no-such-formula-remedy = It may have been deleted in another window; load the list again.
storage-no-formula-named = There is no formula called '{ $name }' in this studio.
storage-no-formula-named-remedy = Check the name; the list of formulas shows them all.
storage-several-named = Several formulas are called '{ $name }': { $keys }.
storage-several-named-remedy = Use one of these keys instead of the name.
storage-no-such-version = There is no version { $number } of '{ $key }'.
storage-no-such-version-remedy = Choose one of the versions in its history.
storage-no-such-batch = There is no batch '{ $number }' in this studio.
storage-no-such-batch-remedy = Check the number.
storage-stale = '{ $name }' was changed in another window since it was opened here, so this change was not stored.
storage-stale-remedy = Load it again and repeat the change.
storage-unstorable = '{ $name }' was not stored because a value in it makes no sense ({ $where }).
storage-unstorable-remedy = Undo the last change; what was stored before is kept.
storage-no-such-ingredient = There is no ingredient with the key '{ $key }' in this studio.
storage-no-such-ingredient-remedy = It may have been deleted in another window; look for it by name.
storage-ingredient-shipped = '{ $name }' comes with the program, so it is not changed or deleted here.
storage-ingredient-shipped-remedy = Copy it to change it; the copy is yours.
storage-attachment-too-large = '{ $file }' has { $size } MB, and a file kept in the studio may have { $most } MB.
storage-attachment-too-large-remedy = Keep it in a folder beside the studio, or make it smaller first.
storage-attachment-empty = '{ $file }' is empty, so there is nothing to keep.
storage-attachment-empty-remedy = Choose the file again where it is whole.
storage-attachment-not-a-file = '{ $file }' is not an ordinary file, so it cannot be kept in the studio.
storage-attachment-not-a-file-remedy = Choose the file itself.
storage-attachment-unreadable = '{ $file }' could not be read: { $reason }.
storage-attachment-unreadable-remedy = See whether it is still there and whether you may read it.
storage-attachment-twice = '{ $file }' is kept with this ingredient already, as '{ $same }'.
storage-attachment-twice-remedy = Choose another file; nothing was added.
storage-no-such-attachment = This file is no longer in the studio.
storage-no-such-attachment-remedy = It was taken out in another window; open the ingredient again.
storage-attachment-damaged = '{ $file }' is not as it was when it was added, so it is not given out.
storage-attachment-damaged-remedy = Ask the supplier for it again, or restore a backup.
storage-stale-notes = The notes of '{ $name }' were changed in another window since they were opened here, so these were not stored.
storage-stale-notes-remedy = Copy what you wrote, open the notes again, and add it.
storage-key-is-taken = '{ $name }' cannot come back as it was, because '{ $key }' is the key of another formula by now.
storage-key-is-taken-remedy = Make it anew.
storage-stale-supply = What is known of buying this ingredient was changed in another window since it was opened here, so this change was not stored.
storage-stale-supply-remedy = Open the ingredient again and repeat the change.
storage-unreadable-certificate = The allergen list typed for the ingredient '{ $key }' cannot be read.
storage-unreadable-certificate-remedy = Restore a backup, or type the list again from the certificate.
storage-logo-too-large = The picture is larger than a megabyte, so it was not kept.
storage-logo-too-large-remedy = Make it smaller first; a few hundred pixels are enough for a paper.
storage-stale-settings = The settings were changed in another window since they were opened here, so this change was not stored.
storage-stale-settings-remedy = Open the settings again and repeat the change.
storage-stocks-in-circle = The stocks { $names } contain each other, so none of them can be made.
storage-stocks-in-circle-remedy = Remove one from another first.
storage-key-taken = There is already an ingredient or formula with the key '{ $key }'.
storage-key-taken-remedy = Choose another key.
storage-delete-has-versions = '{ $name }' has versions, which are kept for ever, so it cannot be deleted.
storage-delete-has-versions-remedy = Archive it instead.
storage-delete-is-used = '{ $name }' is used in { $users }, so it cannot be deleted.
storage-delete-is-used-remedy = Remove it from these formulas first, or archive it instead.
storage-version-needs-reason = A version needs a reason.
storage-version-needs-reason-remedy = Say in a few words what is new in it.
storage-batch-needs-mass = A batch needs a mass above zero.
storage-batch-needs-mass-remedy = Set the batch mass first.
storage-balance-twice = Two balances have the same name.
storage-balance-twice-remedy = Give each balance a name of its own.

## Formula documents
storage-document-missing = There is no file '{ $file }'.
storage-document-missing-remedy = Check the name and the folder.
storage-document-directory = '{ $file }' is a folder, not a formula document.
storage-document-directory-remedy = Choose a file inside it.
storage-document-unreadable = The file '{ $file }' cannot be read: { $reason }.
storage-document-unreadable-remedy = See whether you may read it.
storage-document-empty = The file '{ $file }' is empty.
storage-document-empty-remedy = Choose a formula document.
storage-document-too-large = The file '{ $file }' is larger than { $limit } MB, which no formula document is.
storage-document-too-large-remedy = Choose a formula document.
storage-document-binary = The file '{ $file }' is not text.
storage-document-binary-remedy = Choose a formula document, whose name usually ends in .formula.json.
storage-document-not-utf8 = The file '{ $file }' is not UTF-8 text (line { $line }).
storage-document-not-utf8-remedy = Save it again as UTF-8.
storage-document-not-json = The file '{ $file }' is not valid JSON at line { $line }, column { $column }: { $reason }.
storage-document-not-json-remedy = Correct that place, or export the formula again.
storage-document-not-object = The file '{ $file }' holds no formula document, which is one JSON object in curly brackets.
storage-document-not-object-remedy = Choose a formula document.
storage-document-duplicate = The file '{ $file }' says '{ $key }' twice in the same place (line { $line }, column { $column }).
storage-document-duplicate-remedy = Remove one of the two.
storage-document-not-a-number = The file '{ $file }' holds '{ $text }' at line { $line }, column { $column }, which is not a number.
storage-document-not-a-number-remedy = Write a number there.
storage-document-long-number = The file '{ $file }' holds a number of { $digits } characters at line { $line }, column { $column }.
storage-document-long-number-remedy = Write it with at most { $limit } characters.
storage-document-too-deep = The file '{ $file }' has brackets within brackets more than { $limit } deep (line { $line }, column { $column }).
storage-document-too-deep-remedy = Choose a formula document.
storage-document-bad-character = The file '{ $file }' holds a character that is no text, near '{ $near }'.
storage-document-bad-character-remedy = Remove it.
storage-table-malformed = The reference table '{ $file }' cannot be read at line { $line }.
storage-table-malformed-remedy = Mend that line, or install the program again.
