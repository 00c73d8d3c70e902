### What is wrong in a formula document.

storage-document-foreign = '{ $file }' is not a formula document of this program: its format is not given as "formulation-workbench/formula".
storage-document-foreign-remedy = Choose another file, or export the formula again.
storage-document-newer = '{ $file }' was written in document format { $version }, which is newer than this program reads.
storage-document-newer-remedy = Install the newer version of the program, or export it in format 1.
storage-document-fault = '{ $file }', { $where }: { $what }
storage-document-fault-remedy = Nothing was read; correct the document and try again.
storage-document-top = the document

storage-document-field-missing = it lacks { $name }.
storage-document-field-unknown = { $name } is not known here.
storage-document-not-a-choice = it must be one of { $choices }.
storage-document-wrong-type = it must be of type { $type }.
storage-document-too-much = it is larger than the { $limit } allowed.
storage-document-too-little = it needs at least { $limit }.
storage-document-beyond = { $text } is { $kind ->
        [minimum] less than { $limit }
       *[maximum] more than { $limit }
    }.
storage-document-field-refused = it does not follow the schema ({ $reason }).
storage-document-not-an-object = it must be an object in braces.
storage-document-not-a-list = it must be a list in brackets.
storage-document-not-a-text = it must be text.
storage-document-control-character = it holds a control character.
storage-document-blank = it is blank.
storage-document-not-a-number = '{ $text }' is not a number.
storage-document-out-of-bounds = { $text } is not between { $low } and { $high }.
storage-document-too-many-places = { $text } has more than four decimals.
storage-document-not-a-pair = it must be a pair, low and high.
storage-document-pair-reversed = { $low } is more than { $high }; the lower goes first.
storage-document-batch-twice = the batch mass is given twice, here and in the plan.
storage-document-measure-ambiguous = '{ $text }' can be read in two ways; write it without a thousands mark.
storage-document-not-a-mass = '{ $text }' is not a mass such as "500 g".
storage-document-not-a-volume = '{ $text }' is not a volume such as "50 ml".
storage-document-two-rest-lines = a second line takes the rest; only one can.
storage-document-rest-line-bound = the rest line can be neither locked nor held back to adjust pH.
storage-document-key-twice = the key '{ $key }' is used twice.
storage-document-stock-in-circle = the stock is made with itself ({ $names }).
storage-document-composition-sum = the fractions add up to { $total }, not 1.
