### What is wrong in a formula document.

storage-document-foreign = '{ $file }' is not a formula document of this program: its format is not given as "formulation-workbench/formula".
storage-document-foreign-remedy = Choose another file, or export the formula again.
storage-document-newer = '{ $file }' was written in document format { $version }, which is newer than this program reads.
storage-document-newer-remedy = Install the newer version of the program, or export it in format 1.
storage-fault = '{ $file }', { $where }: { $what }
storage-fault-remedy = Nothing was read; correct the document and try again.
storage-fault-top = the document

storage-fault-field-missing = { $name } is missing.
storage-fault-field-unknown = { $name } is not known here.
storage-fault-not-a-choice = it must be one of { $choices }.
storage-fault-wrong-type = it must be { $type ->
        [string] text in quotation marks
        [array] a list in square brackets
        [object] an object in curly brackets
        [integer] a whole number
        [boolean] true or false
       *[number] a number or a number in quotation marks
    }.
storage-fault-beyond = { $kind ->
        [minimum] { $text } is less than { $limit }
        [maximum] { $text } is more than { $limit }
        [minLength] it is empty
        [maxLength] it is longer than { $limit } characters
        [minItems] it needs at least { $limit ->
                [one] { $limit } entry
               *[other] { $limit } entries
            }
        [maxItems] it has more than { $limit } entries
        [minProperties] it is empty
       *[maxProperties] it has more than { $limit } entries
    }.
storage-fault-entry-twice = the same entry stands there twice.
storage-fault-field-refused = it does not follow the schema ({ $reason }).
storage-fault-not-an-object = it must be an object in curly brackets.
storage-fault-not-a-list = it must be a list in square brackets.
storage-fault-not-a-text = it must be text in quotation marks.
storage-fault-control-character = it holds a control character.
storage-fault-blank = it is blank.
storage-fault-not-a-number = '{ $text }' is not a number such as 4.5.
storage-fault-out-of-bounds = { $text } is not between { $low } and { $high }.
storage-fault-nothing = '{ $text }' is not more than nothing.
storage-fault-too-many-places = { $text } has more than four decimals.
storage-fault-too-fine = { $text } has more than { $limit } decimals.
storage-fault-not-a-pair = it must be a pair, low and high.
storage-fault-pair-reversed = { $low } is more than { $high }; the lower goes first.
storage-fault-batch-twice = the batch mass is given twice, here and in the plan.
storage-fault-measure-ambiguous = '{ $text }' can be read in two ways; write it without a thousands mark.
storage-fault-not-a-mass = '{ $text }' is not a mass such as "500 g".
storage-fault-not-a-volume = '{ $text }' is not a volume such as "50 ml".
storage-fault-two-rest-lines = a second line takes the rest; only one can.
storage-fault-rest-line-bound = the rest line can be neither locked nor held back to adjust pH.
storage-fault-key-twice = the key '{ $key }' is used twice.
storage-fault-stock-in-circle = the stock is made with itself ({ $names }).
storage-fault-composition-sum = the fractions add up to { $total }, not 1.
