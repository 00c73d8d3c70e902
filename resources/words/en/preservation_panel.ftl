### Preservation on the Desk: each preservative by product and by water phase.

preservation-heading = Preservation
preservation-as-acid = counted as acid, of the product
preservation-undissociated = undissociated acid ({ $share } % of it{ $basis ->
    [target] , at the target pH
   *[estimate] {""}
  }), of the product
preservation-water = { $capped ->
    [yes] free in the water, held at what water dissolves
   *[no] free in the water phase
  }
preservation-wanted = { $basis ->
    [undissociated] usually wanted undissociated
    [as-acid] usually wanted as acid
   *[neat] usually wanted
  }
preservation-wanted-source = { $confidence ->
    [memory] Level: { $source } (from memory)
   *[read] Level: { $source }
  }
preservation-challenge = A challenge test decides.
preservation-met-to = undissociated level met up to
preservation-no-ph = Share of acid not computed: neither an estimate nor a target of pH.
preservation-no-acid-data = Share of acid not modelled: no constant on file.
preservation-no-oil-data = What the oils take is not modelled: no constant on file.
preservation-no-binding-data = What emulsifiers and micelles bind is not modelled: no constant on file.
preservation-no-water = The draft has no water phase.
preservation-unknown-lines = Not computed: the make-up of a line is unknown.
