### The command line's assessment.

assess-total = Total
assess-source = Source: { $source }
assess-nothing = Nothing was found to look at. That is no judgement of safety or of the law.

check-counts = Formulas { $formulas }, versions { $versions }, batches { $batches }, ingredients { $ingredients }.
check-whole = Everything in it can be read.
check-not-whole = Not everything in it can be read: restore a backup, or export what can be read.
