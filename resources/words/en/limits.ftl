### What the law and the authorities allow of a substance.

limit-over = Over the legal limit: { $name }
limit-over-detail =
    { $counted ->
        [on-basis] The formula holds { $value } % { $basis }. The law allows { limit-bound } { $limit } % on that basis.
       *[itself] The formula holds { $value } %. The law allows { limit-bound } { $limit } %.
    } Products meant: { $scope } ({ $authority }).{ limit-trust }

limit-banned = Not allowed in this product: { $name }
limit-banned-detail =
    { $reason ->
        [not-listed] The formula holds { $value } %. The law names the products it may be in, and this is not one of them. Products meant: { $scope } ({ $authority }).
        [excluded] The formula holds { $value } %. The law takes this product out of what it allows. Products meant: { $scope } ({ $authority }).
       *[stated] The formula holds { $value } %. The law refuses any content. Products meant: { $scope } ({ $authority }).
    }{ limit-trust }

limit-over-advice = Over an advised level: { $name }
limit-over-advice-detail = The formula holds { $value } %. The advice is { limit-bound } { $limit } % ({ $basis }). It is advice, not law ({ $authority }; { $scope }).{ limit-trust }

limit-future = Over a limit that is coming: { $name }
limit-future-detail =
    { $counted ->
        [on-basis] The formula holds { $value } % { $basis }. From { $from } the law allows { limit-bound } { $limit } % on that basis.
       *[itself] The formula holds { $value } %. From { $from } the law allows { limit-bound } { $limit } %.
    } Products meant: { $scope } ({ $authority }).{ limit-trust }

limit-check = Look this one up: { $name }
limit-check-detail =
    { $reason ->
        [not-listed] The formula holds { $value } %. The entry gives figures for other products ({ $scope }) and says nothing of this one ({ $authority }).
        [excluded] The formula holds { $value } %. The entry ({ $scope }) leaves this product out and says nothing more of it ({ $authority }).
        [outside-tool] The formula holds { $value } %. The entry ({ $scope }) is about products this program does not cover ({ $authority }).
        [no-factor] The formula holds { $value } %. The limit counts { $basis }, and only the supplier can say how much of that is in it ({ $authority }; { $scope }).
       *[unsettled] The formula holds { $value } %. It is not settled whether the entry ({ $scope }) means this product ({ $authority }).
    }{ limit-trust }

limit-over-possible = May fall under a limit: { $name }
limit-over-possible-detail =
    { $force ->
        [now] The law allows { limit-bound } { $limit } %; the formula holds { $value } %. Whether it means this material is not clear from the text.
       *[later] From { $from } the law allows { limit-bound } { $limit } %; the formula holds { $value } %. Whether it means this material is not clear from the text.
    } Products meant: { $scope } ({ $authority }).{ limit-trust }

limit-typical = Probably over a limit, inside { $carriers }: { $name }
limit-typical-detail = About { $value } % comes with { $carriers }; at most { $limit } % is allowed. That is a typical figure, from memory: ask the supplier for the one of your delivery. Products meant: { $scope } ({ $authority }).{ limit-trust }

limit-raw-material = Ask the supplier about { $name }
limit-raw-material-detail = The law puts a demand on the raw material: { $basis } ({ $authority }). Only its papers can show it.{ limit-trust }

limit-by-claim = A claim would change the law for { $name }
limit-by-claim-detail = With this claim the product is another thing in law: { $scope }, { $basis } ({ $authority }). No claim is stated here, so nothing was held against it.{ limit-trust }

limit-ph = { $kind ->
        [law] The pH is outside the law: { $name }
       *[advice] The pH is outside the advice: { $name }
    }
limit-ph-detail = { limit-ph-span }; { limit-ph-taken }. Products meant: { $scope } ({ $authority }).{ limit-trust }
limit-ph-perhaps = The pH may be outside what is asked: { $name }
limit-ph-perhaps-detail = { limit-ph-span }; { limit-ph-taken }. Measure it. Products meant: { $scope } ({ $authority }).{ limit-trust }
limit-ph-unknown = { $name }: its pH rule was not checked
limit-ph-unknown-detail = { limit-ph-span }, and no pH is set or estimated here. Products meant: { $scope } ({ $authority }).{ limit-trust }

market-not-covered = Few rules for { $market }
market-not-covered-detail = Only some rules of { $market } are on file. Nothing found here is no answer for that market.

remedy-set-percent = Set { $ingredient } to { $percent } %

limit-bound =
    { $bound ->
        [below] less than
       *[up-to] at most
    }
limit-trust =
    { $confidence ->
        [memory] { " " }The figure has not been confirmed in a published text.
       *[read] { "" }
    }
limit-ph-span =
    { $window ->
        [under] A pH below { $ceiling } is asked
        [below] At most pH { $ceiling } is asked
        [above] At least pH { $floor } is asked
       *[between] pH { $floor } to { $ceiling } is asked
    }
limit-ph-taken =
    { $known ->
        [estimate] the estimate is { $low } – { $high }
       *[target] the target is { $low } – { $high }
    }
