### The bar at the foot of the window.

notices-name = Notice
notices-undo = Undo
notices-details = Details
notices-hide-details = Hide details
notices-close = Close
