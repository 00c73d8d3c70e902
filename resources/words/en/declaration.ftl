### The ingredient list of the label, and the allergens in it.

declaration-title = Ingredient list, { $market }
declaration-free = From { $name } on in any order ({ $market ->
        [US] at most 1 %
       *[other] below 1 %
    }).
declaration-none-free = Every name is in descending order.
declaration-empty = Nothing to list yet.

declaration-not-whole = Not whole: what { $lines } holds is not known.
declaration-held-back = Adjuster held back is listed at all of its reserve; what is really added decides.
declaration-as-added = Listed by weight as added: an acid and the base that neutralises it are both named, not the salt they form.
declaration-crystal-water = Crystal water counts with its salt, as weighed.
declaration-scents-unknown = Allergens of { $lines } are not known: names may be missing.
declaration-typical = Allergens marked typical rest on usual contents of the oil; the supplier's certificate decides.
declaration-old-stock = The names added in 2023 are asked for on new products; older stock may be sold without them until { $until }.
declaration-coming = Asked for from { $due } on: { $names }.
declaration-offered = Over the threshold of the list added in 2023, which was not found to bind in Great Britain but does in Northern Ireland: { $names }.
declaration-no-list = No federal list of allergens binds here. Over the European threshold: { $names }.
declaration-nano = Ask the supplier whether it is a nano grade: { $lines }. If so, give it the tag nano.

allergen-line = { $label } { $percent } % (over { $threshold } %, { allergen-grounds })
allergen-grounds = { $grounds ->
        [certificate] by certificate
        [typical] typical content
       *[substance] as put in
    }
allergens-title = Allergens over the threshold, { $market }

allergens-unknown = Allergens of { $ingredient } are not known
allergens-unknown-detail = It is { $percent } % of the formula, and the label names listed allergens above { $limit } % ({ $authority }). Ask the supplier for the allergen certificate and enter it with the ingredient. Until then the list may lack names.
