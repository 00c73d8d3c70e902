### Figures of emulsions, surfactants, salts and density.

figure-required-hlb = Required HLB of the oils, a guide only ({ $low } to { $high }){ $is-whole ->
        [yes] { "" }
       *[no] ; { $counted } % of them counted, not { $left-out }
    }
figure-blend-hlb = HLB of the emulsifiers, the oils want { $wanted }{ $meeting ->
        [two] ; { $share } % { $first } with { $second } would meet it
        [none] ; no blend of the two reaches it
       *[open] { "" }
    }{ $is-whole ->
        [yes] { "" }
       *[no] ; not counted: { $left-out }
    }
figure-surfactant-active = Active surfactant{ $has-anionic ->
        [yes] , anionic { $anionic } %
       *[no] { "" }
    }{ $has-amphoteric ->
        [yes] , amphoteric { $amphoteric } %
       *[no] { "" }
    }{ $has-nonionic ->
        [yes] , nonionic { $nonionic } %
       *[no] { "" }
    }{ $has-cationic ->
        [yes] , cationic { $cationic } %
       *[no] { "" }
    }{ $band ->
        [yes] { " " }(usual here: { $low } to { $high } %)
       *[no] { "" }
    }
figure-electrolytes = Salts as put in{ $touchy ->
        [yes] , which may disturb { $names }
       *[no] { "" }
    }
figure-density = Density without air, estimated{ $known ->
        [yes] { " " }({ $low } to { $high } g/ml)
       *[no] { "" }
    }
figure-fill-mass = One pack of { $fill } ml, estimated ({ $low } to { $high } g)
unit-hlb = { $value }
unit-gram-per-ml = { $value } g/ml
absent-density-total = Not estimated while the total is not 100 %.
absent-density-unknown = Not estimated: the density of too much of it is unknown. Weigh a filled bottle.
preservative-weak = { $substance }: { $active } % is undissociated, { $wanted } % usually wanted
preservative-weak-detail =
    { $ph-basis ->
        [target] Over the target pH it runs from { $low } to { $high } % of the product.
       *[estimate] Over the estimated pH it runs from { $low } to { $high } % of the product.
    } { $can ->
        [yes] The wanted level is met up to pH { $ph }.
       *[no] There is too little of it at any pH.
    } Judged on its own: beside other preservatives less may do. Only a challenge test decides.
preservative-working-acid = { $salts }: { $percent } % counts as { $acid } % acid.
preservative-working-share = Undissociated share { $share } % ({ $low } to { $high } %).
preservative-working-window = { $ingredient } is said to work { $window ->
        [below] up to pH { $ceiling }
        [above] from pH { $floor }
       *[between] from pH { $floor } to { $ceiling }
    }.
