### The studio page.

studio-title = Studio
studio-text = What belongs to your work and not to one formula. Every change is stored at once.
studio-text-read-only = This studio is open for reading only, so nothing here can be changed.
studio-load = Load the settings again
studio-undo = Change { $setting }
studio-undo-link = Undo: { $step }
studio-section-who = Who makes
studio-section-checks = Markets and money
studio-section-numbers = Numbers and paper
studio-section-balances = Balances
studio-head = Head of a paper
studio-head-empty = No name yet: the head of every paper stays empty.
studio-too-long = At most { $most } letters fit.

studio-name = Studio name
studio-name-effect = Stands at the head of every paper.
studio-contact = Contact
studio-contact-effect = Beside the name: an address, a telephone number, a mail address.
studio-logo = Picture
studio-logo-choose = Choose a picture…
studio-logo-remove = Remove
studio-logo-files = Pictures (*.png *.jpg *.jpeg *.webp *.bmp)
studio-logo-bad = '{ $file }' is not a picture that can be read.
studio-logo-bad-remedy = Choose a PNG or JPEG file.

studio-currency = Currency
studio-currency-effect = Prices read { $price } { $currency }.
studio-currency-bad = A currency is three letters, such as EUR, GBP or USD.
studio-markets = Markets
studio-markets-none = Choose at least one market: its rules are what drafts are checked against.
studio-markets-effect = New formulas are checked against the limits on file for { $markets }. Formulas that are there keep theirs.

studio-paper = Paper
studio-paper-name = { $paper ->
    [Letter] Letter
   *[A4] A4
  }
studio-paper-effect = { $paper ->
    [Letter] Worksheets are made for 8.5 × 11 in paper.
   *[A4] Worksheets are made for 210 × 297 mm paper.
  }
studio-decimals = Decimal mark
studio-decimals-name = { $style ->
    [comma] Comma
   *[point] Point
  }
studio-decimals-effect = Shown, printed and typed as { $percent } % and { $mass } g.
studio-numbering = Batch numbers
studio-numbering-effect = The first batch of { $name } this month would be { $number }. Numbers that were given stay.
studio-numbering-no-count = A batch number has to count: put {"{count}"} into it.
studio-numbering-unknown = '{ $name }' cannot be filled in; what can is initials, yymm and count, each in curly brackets.
studio-numbering-open = A bracket is not closed.

studio-balances = Balances
studio-balances-none = No balance is entered, so nothing can be said about what is too little to weigh.
studio-balances-hint = Own repeatability is the standard deviation of ten weighings of yours, on your table. Left empty, the readability stands for it.
studio-balance-add = Add a balance
studio-balance-new = Balance { $number }
studio-balance-name = Name
studio-balance-readability = Readability
studio-balance-capacity = Capacity
studio-balance-repeatability = Own repeatability
studio-balance-remove = Remove
studio-balance-remove-name = Remove { $name }
studio-balance-effect = Weighs { $least } g and more within { $error } %. The pharmacopoeia's rule asks for { $strict } g.
studio-balance-no-name = A balance needs a name.
studio-balance-name-twice = Another balance has this name.
studio-balance-order = The capacity has to be more than the readability.
