### Rules of the trade and pH windows. The message and the reason of a rule are its own words.

compatibility = { $message }
compatibility-detail = { $sure ->
        [perhaps] At part of the pH range only. { $why }
       *[yes] { $why }
    } { $whose ->
        [own] Your own rule.
       *[shipped] A rule of the trade, not law: a trial batch decides.
    }

ph-windows-apart = { $kind ->
        [product] { $ingredient } asks for another pH than this kind of product usually has
       *[other] No pH suits both { $ingredient } and { $line }
    }
ph-windows-apart-detail = { $ingredient }: { $one ->
        [below] up to pH { $one-high }
        [above] from pH { $one-low }
       *[between] pH { $one-low } to { $one-high }
    }. { $kind ->
        [product] Usual for this product
       *[other] { $line }
    }: { $other ->
        [below] up to pH { $other-high }
        [above] from pH { $other-low }
       *[between] pH { $other-low } to { $other-high }
    }. { $mends ->
        [yes] Taking { $swap } instead of { $swapped } would let them meet.
       *[no] Choose one of the two.
    }

ph-outside-window = { $ingredient } wants { ph-span }, the target is { $low } – { $high }
ph-outside-window-detail = Outside its window it loses effect, breaks down or no longer thickens. Move the target, or swap the ingredient.
ph-outside-usual = The target { $low } – { $high } is unusual for this kind of product
ph-outside-usual-detail = Usual is { ph-span }. Skin, scalp and eyes have a pH of their own; a reason to leave it is yours to give.

ph-estimate-outside = { $kind ->
        [target] The pH will land near { $estimate }, outside the target
       *[other] The pH will land near { $estimate }, which does not suit { $ingredient }
    }
ph-estimate-outside-detail = Estimated { $low } – { $high }; wanted is { ph-span }. { $count ->
        [one] Measure, then adjust.
       *[other] { $count } windows are missed. Measure, then adjust.
    }

ph-span = { $window ->
        [below] up to pH { $ceiling }
        [above] from pH { $floor }
       *[between] pH { $floor } to { $ceiling }
    }

use-over-basis = { $ingredient } { $percent } % is above its usual { $limit } %
use-over-basis-detail = { use-level-basis } It is a trade figure, not law: follow the supplier's sheet.
use-under-basis = { $ingredient } { $percent } % is below its usual { $limit } %
use-under-basis-detail = { use-level-basis } Less may do too little.
use-level-basis = { $basis ->
        [pure-of-total] Usual level of the pure matter, in the finished product.
        [as-supplied-of-phase] Usual level of the material as supplied, in its phase.
        [pure-of-phase] Usual level of the pure matter, in its phase.
       *[other] Usual level of the material as supplied, in the finished product.
    }

remedy-add-line = Add { $ingredient } { $percent } %

## Rules of the maker's own

storage-own-rule = Your rule '{ $rule }' is not used: { $reason }
storage-own-rule-remedy = Open your rules and mend it, or remove it; everything else works.
storage-stale-rule = The rule '{ $rule }' was changed in another window since it was opened here, so this change was not stored.
storage-stale-rule-remedy = Open your rules again and repeat the change.
rule-not-json = it is not written as a rule is; look at line { $word }.
rule-not-understood = '{ $word }' is not understood there.
rule-ends-early = its condition ends too early.
rule-sign-missing = a comparison such as > or <= is wanted where '{ $word }' stands.
rule-number-missing = a number is wanted where '{ $word }' stands.
rule-field-unknown = '{ $word }' is nothing an ingredient can be asked for.
rule-clash-unknown = no clash is called '{ $word }'.
rule-word-unknown = '{ $word }' is not known here.
rule-field-missing = it has no '{ $word }'.
rule-field-surplus = it has a '{ $word }', which no rule has.
rule-field-empty = its '{ $word }' is empty.
rule-severity-wrong = its severity is '{ $word }'; a rule is a caution or a note, never a stop.
rule-confidence-wrong = its confidence is '{ $word }'; it is read or memory.
rule-example-wrong = its examples are small formulas, percents by ingredient.
rule-remedy-wrong = its remedy names what to add, and the percent.
rule-key-taken = another rule is called '{ $word }'.
rule-does-not-fire = it does not speak on its own example 'fires'.
rule-not-quiet = it speaks on its own example 'quiet'.
