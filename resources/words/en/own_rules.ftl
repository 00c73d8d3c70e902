### The rules of the trade on the studio page.

studio-section-rules = Rules of the trade
studio-rules = Rules of your own
own-rules-count = { $shipped } rules come with the program. { $own ->
        [0] None is your own yet.
        [one] One is your own.
       *[other] { $own } are your own.
    } They tell what goes wrong together; they are not law.
own-rules-open = Read the rules and write your own…
own-rules-title = Rules of the trade
own-rules-back = Back to the settings
own-rules-find = Find in the rules
own-rules-list = Rules, your own first
own-rules-none = No rule has these words.
own-rules-write = Write a rule
own-rules-go-on = Go on writing
own-rules-language = How a rule is written
own-rules-row = { $message }
    { $whose ->
        [own] your own · { $word }
        [broken] your own · not used
       *[shipped] { $word }
    }
own-rules-when = When
own-rules-why = Why
own-rules-source = Source
own-rules-source-value = { $source }; { $confidence ->
        [read] read there
       *[memory] not confirmed
    }
own-rules-key = Key
own-rules-fault = Not used
own-rules-copy = Copy to write your own
own-rules-edit = Change
own-rules-remove = Remove
own-rules-text = The rule as it is written
own-rules-keep = Keep the rule
own-rules-discard = Discard
own-rules-good = It can be kept: it speaks on 'fires' and is silent on 'quiet'.
own-rules-key-stays = A rule keeps its key, '{ $rule }': write another rule for another key.
own-rules-new-message = What to say at the bench.
own-rules-new-why = What happens, and by which mechanism.
own-rules-new-source = batch notes
