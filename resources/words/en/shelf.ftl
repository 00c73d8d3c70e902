### The Shelf: ingredients, their facts, how they are bought, and what a batch needs.

## The place and its list
shelf-list-name = Ingredients
shelf-search = Find by name, INCI, CAS or function
shelf-filter-function = Function
shelf-filter-solubility = Dissolves in
shelf-filter-charge = Charge
shelf-filter-any = any
shelf-filter-there = I have this
shelf-filter-own = My own
shelf-clear = Show all
shelf-count = { $shown ->
    [one] 1 of { $all }
   *[other] { $shown } of { $all }
  }
shelf-count-most = the best { $shown } of { $all }
shelf-count-all = { $all ->
    [one] 1 ingredient
   *[other] { $all } ingredients
  }
shelf-none = Nothing fits. Try fewer words, or take a filter away.
shelf-none-filtered = Nothing fits the filters.
shelf-row-own = own
shelf-row-there = on hand
shelf-row-spoken = { $name }, { $inci }{ $functions ->
    [none] {""}
   *[other] , { $functions }
  }{ $own ->
    [yes] , your own
   *[no] {""}
  }{ $there ->
    [yes] , on hand
   *[no] {""}
  }
shelf-new = New ingredient
shelf-new-blend = New blend
shelf-shopping = Shopping list
shelf-on-hand-only = Draft only from what I have
shelf-on-hand-only-told = { $on ->
    [yes] The Desk now offers only what is on hand, and stocks made of it.
   *[no] The Desk offers every ingredient again.
  }
shelf-empty-title = No ingredient is chosen
shelf-empty-text = Choose one from the list to read what is known of it, from where, and how far it was confirmed.
shelf-read-only = This studio is open for reading only, so nothing on its shelf is changed.

## The page of an ingredient
shelf-page-name = What is known of { $name }
shelf-shipped = Comes with the program. Copy it to change a fact; the copy is yours.
shelf-own = Your own ingredient.
shelf-copy = Your own, copied from { $name }. { $count ->
    [0] No fact differs.
    [one] 1 fact differs and is marked.
   *[other] { $count } facts differ and are marked.
  }
shelf-copy-gone = Your own, copied from '{ $name }', which is no longer here.
shelf-copy-to-change = Copy to change
shelf-change = Edit, or copy to change
shelf-edit = Edit
shelf-delete = Delete
shelf-back = Back to the list
shelf-group-identity = What it is
shelf-group-use = How it is used
shelf-group-nature = What it is like
shelf-group-handling = How it is handled
shelf-group-composition = Made of
shelf-group-constituents = Inside it
shelf-group-cautions = Cautions
shelf-group-used = Where it is used
shelf-group-supply = How I buy it
shelf-group-certificate = Allergens by its certificate
shelf-group-files = Files
shelf-group-source = Where this comes from
shelf-not-known = Not known: { $facts }.
shelf-composition-none = Not known what it is made of, so nothing in it can be counted.
shelf-constituents-lead = { $from ->
    [certificate] As its certificate lists it; this replaces the typical values.
   *[typical] Typical values. A delivery differs: type the list of its certificate below.
  }
shelf-constituents-none = No fragrance allergen or other named part is on file for it. That is not a statement that there is none.
shelf-safety-standing = These are the cautions on file. Check the supplier's safety data sheet, and the law where you work and sell.
shelf-cautions-none = No caution of its own is on file.
shelf-source = Source: { $source }
shelf-source-none = No source is given.
shelf-confirmed = { $count } of { $all } facts confirmed in a published text or a certificate{ $own ->
    [0] {""}
   *[other] , { $own } entered by you
  }{ $rest ->
    [0] .
   *[other] ; the others are trade knowledge to check against your supplier's papers.
  }
shelf-used-none = No formula uses it yet.
shelf-used-through = through { $stock }
shelf-used-archived = put aside
shelf-used-open = Open { $name } on the Desk
shelf-was = was { $value }
shelf-was-absent = was not in it
shelf-was-nothing = was not known
shelf-confidence-read = confirmed in a text
shelf-confidence-memory = not confirmed
shelf-confidence-own = yours
shelf-confidence-certificate = from a certificate
shelf-row-read = { $label }: { $value }{ $confidence ->
    [read] , confirmed in a text
    [memory] , not confirmed
    [own] , entered by you
    [certificate] , from the certificate
   *[none] {""}
  }{ $was ->
    [none] {""}
   *[other] , changed, { $was }
  }

## Names of facts
shelf-fact-name = Name
shelf-fact-key = Key
shelf-fact-inci = INCI name
shelf-fact-cas = CAS number
shelf-fact-ec_numbers = EC number
shelf-fact-functions = Function
shelf-fact-origin = Origin
shelf-fact-form = Form
shelf-fact-use = Usual level
shelf-fact-use_min = Usual level, from (%)
shelf-fact-use_max = Usual level, to (%)
shelf-fact-use_basis = Counted
shelf-fact-use_note = On its use
shelf-fact-ph = Works at pH
shelf-fact-ph_min = Works from pH
shelf-fact-ph_max = Works to pH
shelf-fact-dermal_max = Advised most on skin
shelf-fact-spectrum = Works against
shelf-fact-solubility = Dissolves in
shelf-fact-charge = Charge
shelf-fact-active_percent = Active matter
shelf-fact-water_percent = Water in it
shelf-fact-density = Density
shelf-fact-hlb = HLB
shelf-fact-required_hlb = Required HLB
shelf-fact-log_p = log P
shelf-fact-max_process_temp_c = Warmest
shelf-fact-melts_at_c = Melts at
shelf-fact-is_heat_sensitive = Harmed by heat
shelf-fact-is_electrolyte_sensitive = Harmed by salts
shelf-fact-is_phototoxic = Phototoxic
shelf-fact-shelf_life_months = Keeps
shelf-fact-incompatibilities = Kept apart from
shelf-fact-tags = Known for
shelf-fact-cautions = Cautions
shelf-fact-composition = Made of
shelf-fact-constituents = Inside it

## Values of facts
shelf-value-percent = { $value } %
shelf-value-percent-from = { $low } % and more
shelf-value-percent-to = up to { $high } %
shelf-value-percent-span = { $low } to { $high } %
shelf-value-number = { $value }
shelf-value-number-from = { $low } and above
shelf-value-number-to = up to { $high }
shelf-value-number-span = { $low } to { $high }
shelf-value-use_basis = { $value ->
    [pure-of-total] as pure matter, of the whole
    [as-supplied-of-phase] as supplied, of its phase
    [pure-of-phase] as pure matter, of its phase
   *[usual] as supplied, of the whole
  }
shelf-value-density = { $value } g/ml
shelf-value-temperature = { $value } °C
shelf-value-months = { $months ->
    [one] 1 month
   *[other] { $months } months
  }
shelf-value-flag = { $flag ->
    [yes] yes
   *[no] no
  }
shelf-value-origin = { $value ->
    [plant] plant
    [mineral] mineral
    [synthetic] synthetic
    [fermented] fermented
    [animal] animal
   *[other] { $value }
  }
shelf-value-solubility = { $value ->
    [water] water
    [oil] oil
    [both] water and oil
    [dispersible] disperses in water
    [insoluble] nothing here
    [alcohol] alcohol
   *[other] { $value }
  }
shelf-value-charge = { $value ->
    [anionic] negative
    [cationic] positive
    [nonionic] none (nonionic)
    [amphoteric] both (amphoteric)
    [none] none
   *[other] { $value }
  }
shelf-value-spectrum = { $value ->
    [gram-pos] gram-positive bacteria
    [gram-neg] gram-negative bacteria
    [yeast] yeast
    [mould] mould
   *[other] { $value }
  }

## What an ingredient is known for
shelf-tag-nutrient-rich = food for microbes: raise preservation
shelf-tag-respirable-powder = airborne dust hazard when weighing
shelf-tag-flammable = flammable liquid or vapour
shelf-tag-volatile = evaporates with heat
shelf-tag-corrosive = burns skin or eyes neat
shelf-tag-strong-base = strong alkali
shelf-tag-strong-acid = strong or concentrated acid
shelf-tag-strong-acid-solid = acid supplied as solid
shelf-tag-carbonate = gives carbon dioxide with acid
shelf-tag-alkaline-as-supplied = raw material arrives at pH above about 9
shelf-tag-needs-neutraliser = polymer that must be neutralised to thicken
shelf-tag-clumps-in-water = pre-disperse in glycerin, oil or glycol
shelf-tag-cellulose-ether = cellulose derivative that can lower some preservatives
shelf-tag-synthetic-polymer = synthetic polymer (check microplastic rules)
shelf-tag-cationic-polymer = positively charged polymer
shelf-tag-clay-adsorbent = adsorbs preservatives and colours
shelf-tag-lamellar = liquid-crystal emulsifier
shelf-tag-lecithin = phospholipid
shelf-tag-soap = fatty-acid salt, only stable in alkali
shelf-tag-ester = ester bond: avoid strong alkali/acid
shelf-tag-ethoxylate = polyethylene-glycol derivative
shelf-tag-silicone = siloxane
shelf-tag-paraben = paraben ester
shelf-tag-formaldehyde-donor = slowly releases formaldehyde
shelf-tag-nitrosating-source = can release nitrite
shelf-tag-secondary-amine-source = contains or is accompanied by secondary (or nitrosatable) amine
shelf-tag-isothiazolinone = isothiazolinone biocide
shelf-tag-organic-acid-preservative = works as the undissociated acid: low pH
shelf-tag-benzoate = contains benzoic acid or its salt
shelf-tag-cationic-preservative = positively charged biocide
shelf-tag-reducing-agent = reducing agent
shelf-tag-rinse-off-only = only for rinse-off
shelf-tag-ascorbate = free ascorbic acid
shelf-tag-ascorbate-stable = stabilised vitamin C derivative
shelf-tag-retinoid = vitamin A family
shelf-tag-aha = alpha hydroxy acid
shelf-tag-bha = beta hydroxy acid
shelf-tag-sun-sensitising = give a sun notice
shelf-tag-phototoxic = contains furocoumarins: light-triggered burns
shelf-tag-peptide = peptide
shelf-tag-enzyme = enzyme
shelf-tag-unsaturated-oil = oxidises: add antioxidant
shelf-tag-iron-source = brings iron
shelf-tag-copper-source = brings copper
shelf-tag-zinc-source = brings zinc ions
shelf-tag-polyvalent-cation-source = brings magnesium, calcium, zinc and similar ions
shelf-tag-tannin-source = brings polyphenols
shelf-tag-pigment = insoluble colour
shelf-tag-nano = a nanomaterial, on the supplier's word
shelf-tag-nano-possible = check for nano grade
shelf-tag-food-allergen = may carry a food allergen
shelf-tag-bee-product = bee allergy note
shelf-tag-childcare-caution = age limits or cautions for children
shelf-tag-restricted-eu = has an EU Annex III/V/VI or similar limit: check the regulatory table
shelf-tag-ph-drift-up = pH rises in storage
shelf-tag-ph-drift-down = pH falls in storage

## What it is kept apart from
shelf-apart-anionic = negatively charged surfactants, emulsifiers and gums
shelf-apart-anionic-gum = negatively charged gums and polymers
shelf-apart-cationic = positively charged surfactants, polymers and biocides
shelf-apart-cationic-preservative = positively charged biocides
shelf-apart-high-electrolyte = total electrolyte of about 1 % active or more
shelf-apart-carbomer = carbomer-type neutralised acrylic polymers
shelf-apart-polyvalent-cation = magnesium, calcium, zinc or aluminium ions
shelf-apart-zinc = zinc salts or zinc oxide
shelf-apart-iron = iron-bearing clays and pigments (and rusty equipment)
shelf-apart-copper = copper compounds (and copper or brass equipment)
shelf-apart-copper-peptide = copper tripeptide
shelf-apart-chelator = metal-binding agents
shelf-apart-soap = fatty-acid soaps
shelf-apart-acid = acids used at more than trace level
shelf-apart-bicarbonate-with-acid = carbonate or bicarbonate together with an acid in a wet product: gas
shelf-apart-ascorbate-with-benzoate = free ascorbic acid together with benzoate/benzoic acid: benzene can form
shelf-apart-retinoid-with-acid = retinoid together with alpha or beta hydroxy acid
shelf-apart-ascorbate = free ascorbic acid
shelf-apart-salicylate = salicylic acid
shelf-apart-ester = esters (hydrolysed by strong alkali)
shelf-apart-nonionic-ethoxylate = ethoxylated nonionics (about 5 % or more in total) that hold preservative in micelles
shelf-apart-paraben = paraben esters
shelf-apart-clay = clays, charcoal and similar adsorbents
shelf-apart-cellulose-ether = cellulose thickeners
shelf-apart-lecithin = lecithins
shelf-apart-protein = proteins and hydrolysates
shelf-apart-tannin = tannin or polyphenol sources
shelf-apart-formaldehyde-donor = formaldehyde-releasing preservatives
shelf-apart-nitrosating-agent = materials that can release nitrite or nitrosate
shelf-apart-secondary-amine = secondary amines or materials carrying them
shelf-apart-amine = free amines
shelf-apart-isothiazolinone = isothiazolinone biocides
shelf-apart-caprylhydroxamic = caprylhydroxamic acid blends
shelf-apart-sulfite = sulphites
shelf-apart-high-alcohol = about 20 % ethanol or more
shelf-apart-low-ph = a product below its lowest pH
shelf-apart-high-ph = a product above its highest pH
shelf-apart-strong-acid = product pH below 3, or contact with concentrated acid
shelf-apart-strong-base = product pH above 9, or contact with concentrated alkali
shelf-apart-heat = heat above its warmest
shelf-apart-light = clear pack or sunlight
shelf-apart-oxygen = air: antioxidant and closed pack
shelf-apart-strong-oxidiser = peroxide, hypochlorite, persulphate
shelf-apart-aluminium = aluminium vessels or packs
shelf-apart-aldehyde = reactive aldehydes (citral or cinnamal rich fragrance, glutaral)
shelf-apart-thiol = thiols such as thioglycolate or cysteine
shelf-apart-borate = borax or boric acid

## Small words of facts
shelf-unknown = not known
shelf-none-now = none
shelf-value-sourced = { $value } ({ $source })

## How it is bought
shelf-supply-supplier = Supplier
shelf-supply-order_code = Order code
shelf-supply-pack_g = Pack (g)
shelf-supply-pack_price = Pack price
shelf-supply-freight = Freight
shelf-supply-currency = Currency
shelf-undo-supply = Change how { $name } is bought
shelf-price = { $price } { $currency } for a kilogram, freight included
shelf-price-none = No price for a kilogram yet: it takes a pack and its price.
shelf-refused-currency = a currency is short, such as EUR
shelf-refused-money = money is not under zero

## Files
shelf-files-none = No file is kept with it yet. A file is copied into the studio and goes along with every backup; it may have 25 MB.
shelf-file-add = { $kind ->
    [data-sheet] Add a data sheet…
    [certificate] Add a certificate…
   *[other] Add another file…
  }
shelf-file-row = { $file } ({ $kind ->
    [data-sheet] data sheet
    [certificate] certificate
   *[other] other
  }, { $size }, added { $day })
shelf-file-added = '{ $file }' is now kept in the studio.
shelf-file-write = Save a copy…
shelf-file-write-name = Save a copy of { $file }
shelf-file-written = A copy of '{ $file }' was saved as { $place }.
shelf-file-take = Remove
shelf-file-take-name = Remove { $file } from the studio
shelf-file-taken = '{ $file }' was taken out of the studio.

## Rows of parts
shelf-part-name = Name
shelf-part-percent = Percent
shelf-part-remove = Remove
shelf-part-keep = Keep as typed

## The form of an own ingredient
shelf-function-long = { $function ->
    [emollient-oil] emollient, oil
    [emollient-ester] emollient, ester
    [emulsifier-oil-in-water] emulsifier, oil in water
    [emulsifier-water-in-oil] emulsifier, water in oil
    [thickener-gum] thickener, gum
    [thickener-polymer] thickener, polymer
    [thickener-fatty] thickener, fatty
    [thickener-mineral] thickener, mineral
   *[other] { $name }
  }
shelf-field-name = Name
shelf-field-key = Key
shelf-field-inci = INCI name
shelf-field-cas = CAS numbers, separated by commas
shelf-field-ec_numbers = EC numbers, separated by commas
shelf-field-purpose = Main function
shelf-field-functions = It also is
shelf-field-use_min = Usual level from, %
shelf-field-use_max = Usual level to, %
shelf-field-ph_min = Works from pH
shelf-field-ph_max = Works to pH
shelf-field-dermal_max = Advised most, %
shelf-field-use_basis = Usual level is counted
shelf-field-use_note = On its use
shelf-field-spectrum = Works against
shelf-field-solubility = Dissolves in
shelf-field-charge = Charge
shelf-field-origin = Origin
shelf-field-form = Form
shelf-field-active_percent = Strength (active), %
shelf-field-water_percent = Water in it, %
shelf-field-density = Density, g/ml
shelf-field-hlb = HLB
shelf-field-required_hlb = Required HLB
shelf-field-log_p = log P
shelf-field-max_process_temp_c = Warmest, °C
shelf-field-melts_at_c = Melts at, °C
shelf-field-shelf_life_months = Keeps, months
shelf-field-is_heat_sensitive = Harmed by heat
shelf-field-is_electrolyte_sensitive = Harmed by salts
shelf-field-is_phototoxic = Phototoxic
shelf-field-incompatibilities = Kept apart from
shelf-field-tags = Known for
shelf-field-cautions = Cautions
shelf-field-source = Where this comes from

## What follows from a composition
shelf-follows = Worked out from what it is made of.
shelf-follows-not = What it is made of says { $value }{ $unit ->
    [percent] { " " }%
   *[text] {""}
  }.
shelf-follow = { $unit ->
    [percent] Take { $value } %
   *[text] Take that name
  }
shelf-rest-water = Make the rest water

## Editing
shelf-cancel = Back without storing
shelf-save = Store
shelf-save-anyway = { $count ->
    [one] Store; 1 formula will differ
   *[other] Store; { $count } formulas will differ
  }
shelf-ready = Everything is filled in that is needed.
shelf-unchanged = Nothing is changed yet.
shelf-look-first = Look at what would differ, then store or go on.
shelf-faults = { $count ->
    [one] One thing is still to be mended, marked at its field.
   *[other] { $count } things are still to be mended, marked at their fields.
  }
shelf-editor-own = What is not known stays empty. Nothing is stored before everything makes sense.
shelf-editor-copy = A copy of { $name }. What you change counts as yours; the rest keeps what was confirmed of it.
shelf-editor-composition = Substances of the material as supplied; they add up to 100 %.
shelf-editor-constituents = Named parts inside one of these, such as allergens of an essential oil; they are not added to the 100 %.
shelf-total = In all { $total } %
shelf-total-short = In all { $total } %, { $missing } % missing
shelf-total-over = In all { $total } %, { $over } % too much
shelf-stored = '{ $name }' is stored.
shelf-deleted = '{ $name }' was deleted.

## What is wrong with an ingredient
shelf-fault-no-name = It needs a name.
shelf-fault-no-key = It needs a key; one is made from its name.
shelf-fault-key-taken = The key '{ $key }' belongs to something else.
shelf-fault-no-function = Choose what it is mainly there for.
shelf-fault-cas-form = '{ $number }' is no CAS number: two to seven digits, two digits, one digit, separated by hyphens.
shelf-fault-cas-digit = '{ $number }' is mistyped: its last digit does not fit the others.
shelf-fault-ec-form = '{ $number }' is no EC number: three digits, three digits, one digit, separated by hyphens.
shelf-fault-ec-digit = '{ $number }' is mistyped: its last digit does not fit the others.
shelf-fault-range = { $value } cannot be: it is between { $low } and { $high }.
shelf-fault-order = { $high } is less than { $low }, where it begins.
shelf-fault-months = It keeps at least a month, or the field stays empty.
shelf-fault-no-substance = Say which substance this is.
shelf-fault-substance-twice = { $name } stands in a row above already.
shelf-fault-substance-unknown = No table has a substance '{ $name }'.
shelf-fault-ingredient-unknown = The shelf has no ingredient '{ $name }'.
shelf-fault-meant = Is it { $names }?
shelf-fault-fraction = { $value } % cannot be: it is over 0 and at most 100.
shelf-fault-no-composition = Say what it is made of.
shelf-fault-sum-short = The substances add up to { $total } %; { $missing } % are missing.
shelf-fault-sum-over = The substances add up to { $total } %, { $missing } % too much.

## What would differ
shelf-differs = Formulas that would differ
shelf-differs-lead = { $used ->
    [one] 1 formula uses it
   *[other] { $used } formulas use it
  }; { $differing ->
    [0] none would read differently
    [one] 1 would read differently
   *[other] { $differing } would read differently
  }.
shelf-differs-foot = Their lines and percents stay as they are. Versions keep the facts they were made with.
shelf-differs-new = New: { $title }
shelf-differs-new-more = New: { $count } more
shelf-differs-gone = Gone: { $title }
shelf-differs-gone-more = Gone: { $count } more
shelf-differs-parts = Otherwise: { $parts }
shelf-differs-otherwise = what is computed of it
shelf-differs-part = { $part ->
    [composition] substances
    [label] label and warnings
    [figures] figures
    [ph] pH
    [ph_windows] pH windows
    [adjusters] adjusters
    [preservatives] preservatives
    [cost] cost
   *[other] lines
  }

## A blend
shelf-blend-parts = Ingredients of the blend; they add up to 100 %.
shelf-blend-made = What it would be made of
shelf-blend-lead = A blend becomes an ingredient of your own: its substances, water and density are worked out; every other fact can be filled in afterwards.
shelf-blend-share = { $percent } % { $name }
shelf-blend-source = mixed of { $parts }

## A certificate
shelf-certificate-type = Type the list of its certificate
shelf-certificate-change = Change the list
shelf-certificate-title = Allergens of { $name }
shelf-certificate-lead = Type each name of the certificate with its percent in the material. They replace the typical values in every draft; versions keep what they were made with.
shelf-certificate-heading = Names and percents as the certificate of this delivery has them
shelf-certificate-date = Date of the certificate
shelf-certificate-lot = Supplier's lot
shelf-certificate-paper = { $lot ->
    [none] Dated { $day }.
   *[other] { $day ->
        [none] Supplier's lot { $lot }.
       *[other] Supplier's lot { $lot }, dated { $day }.
      }
  }
shelf-certificate-empty = The certificate lists no allergen
shelf-certificate-without = Take the list away; the typical values count again
shelf-certificate-missing = No list was typed, so typical values count where there are any.
shelf-certificate-nothing = Its certificate lists no allergen.
shelf-certificate-count = { $count ->
    [one] Its certificate lists 1 allergen; it counts in place of typical values.
   *[other] Its certificate lists { $count } allergens; they count in place of typical values.
  }
shelf-certificate-none-typed = No name is typed. If the certificate lists none, tick that below.
shelf-certificate-over = In all { $total } %: more than the material holds.
shelf-copy-name = { $name } (mine)
shelf-delete-files = Files are kept with { $name }; remove them first; they cannot be put back from here.

## What a batch needs
shelf-need-formula = Formula
shelf-need-batch = Batch
shelf-need-ingredient = Ingredient
shelf-need-mass = Needed
shelf-need-packs = To buy
shelf-need-cost = Cost
shelf-need-through = Comes through
shelf-need-grams = { $value } g
shelf-need-less = under { $value } g
shelf-need-bare = { $mass }
shelf-need-buy = { $packs ->
    [one] 1 pack of { $pack } g
   *[other] { $packs } packs of { $pack } g
  }
shelf-money = { $value } { $currency }
shelf-need-missing = { $count ->
    [0] Everything is marked as on hand; how much of it is left is not counted here.
    [one] 1 of { $all } ingredients is not on hand.
   *[other] { $count } of { $all } ingredients are not on hand.
  }
shelf-need-to-buy = The packs to buy cost { $costs }, freight included.
shelf-need-no-packs = No pack is entered for: { $names }.{ $costed ->
    [yes] { " " }They are not in that cost.
   *[no] {""}
  }
shelf-need-unpriced = Not in that cost, since no price is entered: { $names }.
shelf-need-unresolved = Left out, since nothing is known of it or it contains itself: { $names }.
shelf-need-losses = Losses in making and filling are counted only as far as the batch holds them.
shelf-need-copy = Copy as text
shelf-need-copied = The list is on the clipboard.
shelf-need-save = Save as text…
shelf-need-saved = The list was saved as { $place }.
shelf-need-not-saved = The list could not be saved as { $place }.
shelf-need-not-saved-remedy = Choose another folder or name.
shelf-need-kind = Text files (*.txt)
shelf-need-file = Shopping list { $name }
shelf-need-title = Shopping list: { $mass } of { $name }
shelf-need-no-formula = There is no formula yet, so nothing is needed.
