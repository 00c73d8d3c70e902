### pH on the Desk: ladder, estimate, doses, titration.

ph-ladder = pH ladder
ph-estimate = { $when ->
    [before] Before adjusting, estimated
   *[as-is] Estimated
  } { $low } – { $high } at 25 °C, { $confidence ->
    [good] well known
    [fair] roughly known
   *[rough] poorly known
  }. An estimate; measure before you add.
ph-estimate-label = estimate
ph-window-target = target
ph-window-product = product
ph-window = { $kind ->
    [target] Target
    [preservative] Preservative { $name }
    [active] Active { $name }
    [thickener] Thickener { $name }
    [product] Usual for this product
    [limit] Law on { $name }
   *[other] { $name }
  }: { $span ->
    [up-to] up to pH { $high }
    [from] from pH { $low }
    [both] pH { $low } – { $high }
   *[open] any pH
  }.{ $confidence ->
    [none] {""}
    [memory] {" "}Source: { $source } (from memory).
   *[read] {" "}Source: { $source }.
  }
ph-meet = All windows meet from pH { $low } to { $high }.
ph-meet-only = All windows meet only at pH { $low }.
ph-meet-from = All windows meet from pH { $low } up.
ph-meet-up-to = All windows meet up to pH { $high }.
ph-meet-nowhere = No pH suits both { $one } and { $other }.
ph-why = Why
ph-why-hide = Hide why
ph-doses = { $batch ->
    [yes] To reach pH { $ph } in { $mass } g
   *[no] To reach pH { $ph } in 100 g
  }
dose = { $estimate } g
dose-range = { $low } – { $high }
dose-range-open = { $low } or more
ph-doses-all = All adjusters
ph-doses-fewer = Fewer
dose-does-not-fit = does not fit
dose-none-needed = The estimate lies in the target: no adjuster is called for.
dose-no-target = For doses of adjusters set a target pH.
dose-held-back-none = { $held } g of { $name } is held back; the estimate calls for none.
dose-held-back = { $held } g of { $name } is held back; the estimate calls for about { $estimate } g.
ph-titration = Titration
ph-titration-axis = g of { $name } to { $mass } g
ph-titration-read = { $mass } g: pH { $middle } ({ $low } – { $high })
ph-titration-hint = Left and Right read the curve, with Shift in larger steps.
ph-titration-close = Close the curve
ph-titration-y = pH
ph-dose-curve = Curve
ph-dose-curve-hide = Hide curve
ph-dose-curve-of = Titration curve of { $name }
ph-dose-curve-close = Hide the titration curve of { $name }

