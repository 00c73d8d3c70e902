### Why a pH is as sure or unsure as it is, and what to mind about a dose. All at 25 °C.

## Why there is no pH
absent-ph-empty = Nothing is in this draft yet, so there is no pH.
absent-ph-negative = A line stands at less than nothing, so no pH can be worked out. Lower another line first.
absent-ph-no-water = There is no water in this, so it has no pH. Where water gets in later, measure it there.
absent-ph-little-water = So little water is in this that a pH would mean nothing. Measure a dilution in water if you need a figure to compare.
absent-ph-water-in-oil = The water sits inside the oil, so a meter cannot reach it and no pH is estimated. Measure the water phase before it goes in.
absent-ph-too-salty = So much salt is dissolved that the estimate would be a guess: measure it.
absent-ph-no-balance = No pH balances what is dissolved: look at the lines that bring acid or lye.
absent-ph-no-tables = The tables of acids and bases are not there, so no pH can be estimated.
absent-adjusters-no-target = Set a target pH to see how much of each adjuster leads there.
absent-titration-no-effect = This does not move the pH of the draft.

## What the width comes from
ph-reason-unknown-line = Nothing is known of { $ingredient }, so it is left out.
ph-reason-unbuffered = Hardly anything in this holds a pH: air, glass and traces in the raw materials decide it. Measure it, and expect it to drift.
ph-reason-trace = Traces of acid and alkali, in the water or picked up from air and glass, matter here.
ph-reason-salty = Much salt is dissolved (ionic strength { $ionic-strength } mol/kg), where the calculation is less exact.
ph-reason-solvent = { $percent } % of the liquid is alcohol or glycol; acids are weaker in it than in water, and meters read differently.
ph-reason-solubility = More { $ingredient } is in than water dissolves at this pH. How much of it acts depends on the solvents; watch for crystals.
ph-reason-clay = { $ingredient } ({ $percent } %) takes up and gives off acid in a way that is not worked out.
ph-reason-solid = { $ingredient } ({ $percent } %) may dissolve slowly and use up acid; that is not worked out.
ph-reason-extract = { $ingredient } ({ $percent } %) holds plant acids of unknown amount, which are left out. Ask the supplier for an analysis.
ph-reason-unmodelled = { $ingredient } ({ $percent } %) carries charges that are not worked out.
ph-reason-unknown-acid = { $ingredient } holds acid in an amount only known as a range: { $low } to { $high } mmol in a kilogram of it.{ $confidence ->
        [memory] {" "}The figure is from memory.
       *[read] {""}
    }
ph-reason-unknown-alkali = { $ingredient } holds alkali in an amount only known as a range: { $low } to { $high } mmol in a kilogram of it.{ $confidence ->
        [memory] {" "}The figure is from memory.
       *[read] {""}
    }
ph-reason-strength = { $ingredient } holds { $low } to { $high } % of what its name says.{ $confidence ->
        [memory] {" "}The figure is from memory.
       *[read] {""}
    }
ph-reason-constant = The acid constant of { $ingredient } is not known more closely.
ph-reason-model = The calculation itself is good to a few hundredths of a pH.

## What is particular about a material
ph-reason-oligomers = In { $ingredient } part of the acid is bound to itself and comes free only over days. What is neutralised today drifts down; measure again after a week.
ph-reason-opens-slowly = { $ingredient } turns to acid over hours to days. Measure again the next day before you add more.
ph-reason-takes-up-air = { $ingredient } takes up water and carbon dioxide from the air, so it may be weaker than its label.
ph-reason-polymer = { $ingredient } is a polymer: the further it is neutralised, the weaker an acid it becomes. One constant describes that only roughly.
ph-reason-hardly-dissolves = { $ingredient } hardly dissolves in water. How much of it acts depends on how fine it is and how hot it gets.
ph-reason-guessed-pka = The acid constant of { $ingredient } is taken from memory of its kind, so it may be some tenths off.
ph-reason-carbon-dioxide = Gas enters or leaves the water with { $ingredient }, so the pH shifts while it stands open.
ph-reason-binds-sodium = { $ingredient } holds on to sodium and other metals, which shifts its pH by some tenths.
ph-reason-oxidises = { $ingredient } reacts with the oxygen of the air, so the pH shifts over weeks.
ph-reason-soap = { $ingredient } gathers in clusters in water, where its acid groups act weaker than alone; its pH is only known within about a unit.

## What to mind about a dose
ph-reason-pellets = Dissolve { $ingredient } in water first, with eye protection and gloves, and add the solution: solid lye in the batch burns spots and overshoots.
ph-reason-amine = { $ingredient } is limited by law in purity and amount in some markets, and must not meet nitrite.
ph-reason-fizzes = { $ingredient } fizzes: add it slowly, and wait until the gas is out before you measure.
dose-reason-out-of-reach = No amount of { $ingredient } leads there: it is not sharp enough, or the water would grow too salty.
dose-reason-no-room = That is more { $ingredient } than the rest line has room for ({ $room } g in 100 g). Take a stronger adjuster.
dose-reason-does-not-dissolve = That is more { $ingredient } than dissolves (about { $most } g in 100 g of water). Take a stronger adjuster.
dose-reason-more-than-held-back = The to-pH line holds back { $held } g of { $ingredient } in 100 g, which may not be enough.
