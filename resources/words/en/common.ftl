### Words used everywhere.

list-and = { $head } and { $tail }
severity-stop = stop
severity-caution = caution
severity-note = note
