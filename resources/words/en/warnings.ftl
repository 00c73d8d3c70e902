### Warnings for the label and the bench; microbial risk.

warning-kind-prescribed = Prescribed words, not to be changed ({ $markets })
warning-kind-recommended = Recommended words of an authority ({ $markets })
warning-kind-usual = Usual words, yours to choose ({ $markets })
warning-kind-bench = At the bench
warning-condition = The source adds: { $condition }.
warning-because = For { $lines }
warning-none = No warning was found to be called for. That is no judgement of safety.
warnings-title = Warnings

warning-sun-acid = May make skin more sensitive to the sun. Use sun protection while using it and for a week after.
warning-sun-acid-why = Alpha hydroxy acids thin the outermost skin.
warning-sun-salicylic = May make skin more sensitive to the sun. Use sun protection while using it.
warning-sun-salicylic-why = Salicylic acid peels the outermost skin.
warning-sun-retinoid = Use in the evening. Use sun protection by day.
warning-sun-retinoid-why = Retinoids can make skin sensitive to the sun, and light spoils them.
warning-retinoid-pregnancy = In pregnancy or while breast-feeding ask a doctor before use.
warning-retinoid-pregnancy-why = Vitamin A and its kin add to what is eaten.
warning-phototoxic-oil = Keep treated skin out of the sun and off sunbeds for 12 hours after use.
warning-phototoxic-oil-why = Citrus oils that react with light are over their leave-on maximum, alone or together. Better lower them, or choose a grade without furanocoumarins.
warning-phototoxic-oil-within = Avoid strong sun right after use.
warning-phototoxic-oil-within-why = It holds citrus oil that reacts with light, within its leave-on maximum.
warning-formaldehyde-donor = May release formaldehyde.
warning-formaldehyde-donor-why = The preservative works by setting formaldehyde free. How much only a measurement or the supplier can say.
warning-salicylic-children = Not to be used for children under 3 years of age.
warning-salicylic-children-why = Salicylates are not for small children.
warning-strong-scent-children = Keep away from the nose and face of small children. Not for children under 3.
warning-strong-scent-children-why = Menthol, camphor and 1,8-cineole can stop a small child's breath.
warning-food-allergen = Made with an ingredient from a food that people can be allergic to. Do not use if you are.
warning-food-allergen-why = Name the food in the warning.
warning-bee-product = Made with a bee product. Do not use if you are allergic to bees or pollen.
warning-bee-product-why = Bee products can set off an allergy.
warning-exfoliant-skin = Do not use on broken or irritated skin. Stop if it stings.
warning-exfoliant-skin-why = It holds a chemical exfoliant.
warning-scrub-skin = Do not use on broken or irritated skin. Rinse well.
warning-scrub-skin-why = Grains scratch.
warning-eyes-surfactant = Avoid contact with eyes. If it gets in, rinse with plenty of water.
warning-eyes-surfactant-why = Cleansing agents sting in the eye.
warning-slippery = Makes the bath or shower floor slippery.
warning-slippery-why = Oil stays behind on the floor.
warning-spray-breath = Do not breathe in the spray. Do not spray on the face.
warning-spray-breath-why = Fine drops reach the lungs.
warning-flammable-product = Flammable. Keep away from heat and flames.
warning-flammable-product-why = It is rich in alcohol.
warning-wet-hands = Take with dry hands. Let no water get in.
warning-wet-hands-why = Without water it keeps; with water in it microbes can grow.
warning-sunscreen-none = Not a sunscreen. Do not promise sun protection.
warning-sunscreen-none-why = Sun protection must be tested, and in the US it is a drug.
warning-bench-caustic = Goggles and gloves. Always the alkali into the water, slowly.
warning-bench-caustic-why = It burns skin and eyes, and heats up as it dissolves.
warning-bench-acid = Goggles and gloves. Always the acid into the water.
warning-bench-acid-why = Concentrated acid burns skin and eyes.
warning-bench-dust = Wear a dust mask and work without draught.
warning-bench-dust-why = The powder is fine enough to breathe in.
warning-bench-flammable = No open flame and no glowing hot plate near it.
warning-bench-flammable-why = It catches fire easily.
warning-bench-isothiazolinone = Gloves and goggles.
warning-bench-isothiazolinone-why = As supplied it can make skin allergic for life.

micro-title = Microbial risk, first look
micro-verdict = { $verdict ->
        [challenge-test-needed] A challenge test is needed before others use it.
        [low-risk-criterion-met] It meets a criterion for low risk. A qualified assessor decides whether that is enough to do without a challenge test.
       *[not-judged] Not judged.
    }
micro-not-seen = Not seen from a formula: heat at filling (above 65 °C), solvent-based and strongly oxidising products.
micro-point = { $direction ->
        [meets] Low-risk criterion
        [unsettled] Not settled
        [raises] Raises it
       *[lowers] Lowers it
    }: { $what }
micro-span = { $low } to { $high }
micro-estimate = { $figure } (estimate)
micro-ph-low = pH { $figure }, below { $limit }
micro-ph-high = pH { $figure }, above { $limit }
micro-alcohol-high = alcohol { $figure } %, above { $limit } %
micro-water-activity-low = water activity { $figure }, against { $limit }
micro-aluminium-chlorohydrate = aluminium chlorohydrate { $figure } %, above { $limit } %
micro-no-water = no water put in ({ $figure } % free water)
micro-water = { $figure } % free water
micro-natural-water = { $figure } % natural water ({ $lines }), which may bring microbes
micro-nutrients = { $figure } % of what microbes feed on ({ $lines })
micro-ph-open = at pH { $figure } most microbes can grow
micro-pack-open = the pack is opened to the fingers
micro-users-tender = children under 3 need a cleaner product
micro-area-tender = eyes and lips need a cleaner product
micro-wet-use = water gets in during use
micro-wet-hands = wet hands bring water in
micro-alcohol-some = alcohol { $figure } %
micro-glycols = glycols { $figure } %
micro-water-activity-some = water activity { $figure }
micro-chelator = a chelator ({ $lines })
micro-preservative = a preservative is there ({ $lines }); whether it is enough is what the test shows
micro-pack-closed = the pack keeps fingers and air out
