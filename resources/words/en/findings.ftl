### What to look at: arithmetic, use levels, preservation, weighing.

total-short = Total is { $total } %, short { $gap } %
total-short-detail = A formula adds up to 100 %. Let one line take the difference, or scale the rest.
total-over = Total is { $total } %, over by { $gap } %
total-over-detail = A formula adds up to 100 %. Take the difference from one line, or scale the rest.
rest-negative = { $ingredient } would be less than nothing
rest-negative-detail = The other lines exceed 100 % by { $excess } %, so nothing is left for the rest line. Lower one of them.
ingredient-unknown = Nothing is known of { $ingredient }
ingredient-unknown-detail = No ingredient or stock has this name or key, so its line is left out of every check. Choose one from the shelf, or define it in the document.
substance-unlisted = { $substance } is in no table
substance-unlisted-detail = Nothing is known of it here, so no limit was held against it. Check its name and the supplier's sheet.
stock-in-circle = { $ingredient } contains itself
stock-in-circle-detail = The stock is made with itself, directly or through another stock, so what it holds cannot be worked out.
use-over = { $ingredient } { $percent } % is above its usual { $limit } %
use-over-detail = Usual level of the material as supplied, in the finished product. It is a trade figure, not law: follow the supplier's sheet.
use-under = { $ingredient } { $percent } % is below its usual { $limit } %
use-under-detail = Usual level of the material as supplied, in the finished product. Less may do too little.
water-unpreserved = { $water } % water and no preservative
water-unpreserved-detail = Free water above { $limit } % lets microbes grow. Choose a preservative for the pH, or show by a challenge test why none is needed.
ph-outside-preservative = { $ingredient } works { $window ->
        [below] up to pH { $ceiling }
        [above] from pH { $floor }
       *[between] from pH { $floor } to { $ceiling }
    }, the target is { $low } – { $high }
ph-outside-preservative-detail = Outside its window a preservative loses effect. Move the target, or swap the preservative; a challenge test decides.
weigh-coarse = { $ingredient }: { $mass } g is too little for the balance
weigh-coarse-detail =
    On the { $balance } the error is { $error } %; the least it weighs within the allowed error is { $least } g. { $can-dilute ->
        [yes] Weigh { $diluted } g of a { $strength } % dilution (error { $diluted-error } %), or make at least { $batch } g.
       *[no] Make at least { $batch } g, or use a finer balance.
    }

remedy-take-from = Put the difference on { $ingredient }
remedy-make-rest = Let { $ingredient } take the rest
remedy-scale = Scale every unlocked line

## Why a number is missing
absent-ph = The pH is not estimated yet: measure it.
absent-no-batch = No batch mass is set.
absent-no-price = No price is known.

## Edits that cannot be done
edit-read-only = This studio is open for reading only, so nothing can be changed.
edit-no-batch = There is no batch mass to work out the percent from. Set one in the form row first.
edit-to-ph-rest = The rest line cannot be held back to adjust pH.
edit-rest-negative = The rest line stands at less than nothing ({ $excess } % too much elsewhere). Lower another line first.
edit-lock-rest = The rest line takes what is left, so it cannot be locked. Let another line take the rest first.
edit-percent-outside = { $percent } % is not between 0 and 100.
edit-line-locked = { $line } is locked. Unlock it first.
rebalance-has-rest = A line takes the rest already.
rebalance-line-too-small = { $line } holds too little: it would end { $short } % below nothing.
rebalance-locked-full = Locked lines alone hold { $locked } %.
rebalance-nothing-free = Every line is locked or at nothing, so there is nothing to scale.

## The computation behind a finding, line by line
working-carried = { $ingredient } at { $percent } % brings { $amount } % { $name }.
working-converted = { $ingredient } at { $percent } % brings { $as_itself } % { $name }, counted as { $amount } %.
working-sum = Together { $value } %, held against { $limit } %.
