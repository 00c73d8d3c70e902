### The pH guide at the bench: meter check, readings, additions, advice.

## Meter check

meter-passed = The meter passed its check: slope { $slope } %, offset { $offset } mV.
meter-caution = The meter can be used, with care.
meter-refused = Do not trust this meter yet.
meter-slope-low = The slope is { $value } % of a perfect electrode; { $limit } % is the least. Clean the electrode, leave it in storage solution for an hour and set the meter again.
meter-slope-poor = The slope is { $value } %. Above { $limit } % is usual: clean the electrode soon.
meter-slope-high = The slope is { $value } %; more than { $limit } % is not possible with sound buffers. Take fresh ones.
meter-offset = In buffer 7 the electrode is { $value } mV off; { $limit } mV either way is the most. Clean the electrode or replace it.
meter-third-buffer = The third buffer reads { $value } off; { $limit } is the most. Take fresh buffers and set the meter again.
meter-no-third-buffer = No third buffer was read. It shows what two buffers hide.
meter-buffer-temperature = The buffers were at { $value } °C. Their values are known from 20 to 30 °C.
meter-check-aged = The last check was { $value } hours ago. Check at the start of every session.
meter-check-stale = The last check was { $value } hours ago. Check the meter before you rely on it.
meter-unchecked = The meter was not checked in buffers.
meter-buffers-too-close = The two buffers stand too close together for a slope.

## What to do next

ph-read-first = { $wait ->
    [0] Read the pH first.
   *[other] Stir, wait { $wait } minutes and read the pH.
  }
ph-add = Add { $mass } g of { $adjuster }{ $fold ->
    [1] {""}
   *[other] {" "}thinned 1 to { $fold }
  }, stir, wait { $wait } minutes and read again.
ph-lands = It will land between { $low } and { $high }, most likely at { $estimate }.
ph-read-again = Read the pH once more before you add anything.
ph-done = The pH is in the window.
ph-stuck = None of the adjusters at hand leads to the window.
ph-alternative = Or { $mass } g of { $adjuster }.

## Why

ph-reading-contradicts = The reading { $read } does not fit what is known of this product. Everything is taken { $times } times less surely from here on: check strength, stirring and meter.
ph-no-design = Nothing is known of this product but its readings, so the first steps are small.
ph-part-of-dose = This is a part of about { $total } g: more at once might pass the far edge.
ph-out-of-reach = { $adjuster } may not reach the window at all.
ph-passed-window = The pH went past the window. The way back is small: go slowly.
ph-other-direction = { $adjuster } moves the pH the wrong way from here.
ph-no-adjuster-back = Nothing at hand moves the pH { $direction ->
    [up] up
   *[down] down
  }.
ph-weaker-solution = Less than { $least } g cannot be weighed well. Mix { $stock } g of the solution with { $water } g of water and use that.
ph-unbuffered = This product is hardly buffered: { $least } g as it stands would move it by about { $moves }.
ph-over-reserve = With this { $used } g are used of { $reserve } g held back. The batch grows beyond its size and every percent is rescaled.
ph-near-edge = The reading is so near an edge that it may stand on either side. Read it once more.
ph-strip-too-coarse = A strip is too coarse for a window of { $width }. Use a meter.
ph-off-temperature = The product was at { $temperature } °C. Let it come to room temperature: the pH moves with it.

## Later

ph-reread-next-day = Read the pH again after a day.
ph-reread-three-days = Read it again after three days: some preservatives drift.
ph-reread-slow-acid = Read it again after two weeks: what was added sets acid free slowly.
ph-top-up = Add { $mass } g of { $ingredient } to finish: what the adjuster did not use.
