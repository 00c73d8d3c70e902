### The sheet for a safety assessor.

assessor-title = For the safety assessor
assessor-version = Version { $version }
assessor-markets = Markets: { $markets }
assessor-pack = Pack: { $pack }
assessor-pack-none = Pack: not said
assessor-spray = Used as a spray
assessor-on = Judged on { $on } by the tables of { $dated } ({ $set })

assessor-composition = What is in it, over all raw materials and stocks
assessor-inci = INCI name
assessor-cas = CAS
assessor-function = Function
assessor-percent = % w/w
assessor-from = Brought by
assessor-carried = carried over
assessor-sum = Sum of known substances
assessor-water = Water in all, crystal and juice water too: { $percent } %
assessor-unknown = Contents not known: { $lines }. They are in no figure of this sheet.
assessor-carry-note = Carried over: comes inside a raw material or stock that is there for something else. Whether it is declared is for the assessor to say.
assessor-impurities = Impurities, residues and traces of the raw materials are not listed. Take them from the suppliers' papers.

assessor-materials = Raw materials as supplied
assessor-material = Raw material
assessor-percent-supplied = % as supplied
assessor-line = Line

assessor-ph = pH
assessor-ph-target = Wanted: pH { $low } to { $high }
assessor-ph-no-target = No target pH is set.
assessor-ph-measured = The pH of a batch is read, not computed: add the reading.

assessor-preservation = Preservatives
assessor-preservative = Substance
assessor-put-in = % put in
assessor-as-acid = % as acid
assessor-undissociated = % undissociated
assessor-in-water = % free in the water
assessor-preservation-none = No preservative was found.
assessor-preservation-note = Figures are estimates at the { $basis ->
        [target] pH wanted
       *[estimate] estimated pH
    }. They do not show that the product is preserved: a challenge test (ISO 11930) does.

assessor-allergens = Fragrance allergens over their threshold, { $market }
assessor-allergen = Name on the label
assessor-threshold = Threshold %
assessor-duty = Duty
assessor-grounds = Rests on
assessor-duty-required = to be named
assessor-duty-coming = to be named from { $due } on
assessor-duty-optional = may be named
assessor-grounds-substance = the substance itself
assessor-grounds-certificate = a certificate
assessor-grounds-typical = typical contents
assessor-allergens-none = None was found over its threshold in what is known.
assessor-declaration = Ingredient list, { $market }

assessor-findings = Findings
assessor-findings-none = The checks below found nothing to look at. That is no judgement of safety.
assessor-accepted = accepted by the maker: { $reason }
assessor-warnings = Words for the label that were found to be called for
assessor-micro = Microbial risk, first look

assessor-held = Limit rows held against it
assessor-held-none = No limit row of these markets names a substance of it.
assessor-not-held = Limit rows that name a substance of it and were not held, and why
assessor-range = { $low } to { $high }
assessor-none = –
assessor-page = Page { $page } of { $pages }
assessor-foot = Drafting data from the maker. It is no safety assessment and takes no part of one.
