### Drafts made from a product type, and the page on which one is begun.

type-phase = { $phase ->
    [water] Water phase
    [gum] Gum phase
    [oil] Oil phase
    [surfactant] Surfactant phase
    [melt] Melted phase
    [dry] Dry phase
    [clay] Clay phase
    [cool-down] Cool-down phase
   *[adjust] Adjust
  }
type-step = { $step ->
    [dissolve] Stir until all is dissolved.
    [disperse] Wet the powder in the liquid, then stir it into the water without lumps.
    [dissolve-then-join] Stir until all is dissolved, then join with the gum phase and mix.
    [heat-hold] Heat and hold; make up the water that evaporates.
    [heat-join] Heat and hold until clear, then join with the water phase and blend.
    [below-40] Add below 40 °C and stir in.
    [stir-in] Stir in at room temperature.
    [stir-slowly] Stir in slowly, without whipping in air.
    [melt] Melt until clear.
    [before-pouring] Stir in shortly before pouring.
    [before-setting] Stir in before it sets.
    [fold-in] Fold in when it has cooled and thickened.
    [blend] Blend at room temperature.
    [wet-clay] Sift the clay onto the water and let it wet through before stirring.
    [sieve] Sieve together, dry.
    [drip-in] Drip in while stirring; keep dry.
   *[adjust] Measure the pH, then adjust in small steps.
  }
type-range = { $basis ->
    [of-base] Start from { $low } – { $high } % of the part without the grain
    [oils-together] Oils, butters and esters together { $low } – { $high } %
    [active-together] Active surfactant of all together { $low } – { $high } %
   *[of-total] Start from { $low } – { $high } %
  }
type-note = { $note ->
    [spray-and-scent] Scent oils need a solubiliser: 3 to 10 parts to 1. Sprayed, it is breathed in as well: say so in the form row.
    [strength] Count actives by their pure strength; salts and acids thin or cloud many polymers.
    [gum-or-carbomer] Starts with a gum. A carbomer has to be neutralised and is thickest at pH 6.5 – 7.5.
    [emulsion] Emulsifier and oils belong together: about one part to four. Heating loses water; make it up.
    [active-matter] Surfactants count by active matter, not as supplied. Add up before choosing a strength.
    [no-anionics] A cationic emulsifier bears no anionic surfactant and no swap for a non-ionic one.
    [no-water] No water, so no pH and no preservative; wet fingers bring water in.
    [wet-hands] Without water in it, yet used with wet hands: keep a preservative. It may melt in summer.
    [clay] Clay binds preservatives and feeds microbes: stay at the top of the supplier's range and challenge test.
    [humidity] Takes up moisture from the air; oils make the bath slippery: print that warning.
   *[stock] A stock is used as an ingredient of other formulas, with its own preservative.
  }

types-title = New formula
types-hint = Type the first letters to choose, Enter begins, Esc leaves. Every line can be changed afterwards.
types-list = What to begin with
types-blank = Blank
types-blank-note = One phase with water, which takes the rest.
types-preview = What the draft starts with
types-takes-rest = takes the rest
types-to-ph = held back for the pH
types-name = Name
types-batch-value = { $value } g
types-ph = Usual pH { $low } – { $high }; the draft starts with { $from_ph } – { $to_ph }.
types-source = { $confidence ->
    [memory] Source: { $source } (from memory, not confirmed in a text).
   *[read] Source: { $source }.
  }
types-begin = Begin the draft
types-leave = Not now

## What a type proposes, and what stays as the maker set it
types-proposed = { $fields ->
    [exposure] The exposure is proposed by the type; change it where yours differs.
    [area] The area is proposed by the type; change it where yours differs.
   *[exposure-area] Exposure and area are proposed by the type; change them where yours differ.
  }
types-kept-exposure = The exposure stays { $chosen }, as you set it; this type is usually { $usual }.
types-kept-area = The area stays { $chosen }, as you set it; for this type it is usually { $usual }.
