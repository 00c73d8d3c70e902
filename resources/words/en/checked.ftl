### The page of what was checked.

checked-title = What was checked
checked-set = Reference set { $set }, state of the law taken to { $dated }. Rules as of { $on }.
checked-line = { $topic }: { $state }
checked-state-applied = applied, { $rows } rows, { $used } spoke of this formula
checked-state-not-applicable = does not apply to this formula
checked-state-covers-nothing = no rules here for this market
checked-limits = Limits of law and advice, { $market }
checked-declaration = Rules of the ingredient list, { $market }
checked-state-declaration = applied, { $rows } rules, { $used } names
checked-allergens = Fragrance allergens, { $market }
checked-warnings-prescribed = Prescribed and recommended warnings
checked-warnings-usual = Usual warnings
checked-micro-risk = Microbial risk, first look
checked-use-levels = Usual levels of use
checked-compatibility = Compatibility rules
checked-own-rules = Rules of your own
checked-state-none-written = none written yet
checked-ph-windows = pH windows in this formula
checked-ph-usual = Usual pH of kinds of product
checked-preservation = Tables of preservatives
checked-acids-bases = Tables of acids and bases
checked-adjusters = Adjusters offered
checked-preservative-levels = Levels wanted of preservatives

checked-kind = { $kind }: { $rows } rows in the set, { $named } name a substance of this formula, { $held } hold for this product
checked-kind-law = Law in force
checked-kind-future = Law not yet in force
checked-kind-law-by-claim = Law that hangs on a claim
checked-kind-advice = Opinion and industry review
checked-kind-labelling = Labelling thresholds and words
checked-kind-raw-material = Purity of raw materials
checked-kind-information = Information

checked-limit = { $name }, { $authority }: { $scope }{ $limit ->
        [none] {""}
       *[other] , { $limit } %
    }
checked-outcome-held = held against this product
checked-outcome-of-product = speaks of the product, not of a substance
checked-outcome-other-market = for another market
checked-outcome-outside-program = for products this program does not cover
checked-outcome-other-scope = for other products or purposes
checked-outcome-not-yet = not yet in force

checked-uncovered = In no table: { $names }. Nothing could be held against it.
checked-without-rule = No rule found for: { $names }. That is no permission.
checked-unknown-lines = Left out of every check, because nothing is known of it: { $names }.
checked-gaps = Not looked at
checked-cautions = What remains to be done

gap-purity = Purity and contaminants of the materials, such as heavy metals, nitrosamines, 1,4-dioxane and pesticides.
gap-filling = Heat at filling, and products based on solvents or strong oxidisers.
gap-pack = What passes between product and pack.
gap-stability = Stability and shelf life.
gap-claims = Names, claims and pictures on the pack.
gap-exposure = How much of a substance reaches the body, alone and together with other products.
caution-assessor = Before others use it, a qualified safety assessor judges the formula.
caution-law = Local law decides; tables can be old or wrong. Compare with the official text.
caution-challenge = A challenge test shows whether the product resists microbes.
caution-patch = Patch-test the finished product.
caution-supplier = The supplier's data sheet and certificates decide over the figures here.
caution-beyond = The day asked for is later than the state of the tables.
