### A paper shown in the window.

preview-no-pages = Pages
preview-pages = Pages of { $title }
preview-page = Page { $page } of { $pages }
preview-percent = { $percent } %
preview-zoom-in = Zoom in
preview-zoom-out = Zoom out
preview-fit-width = Fit width
preview-fit-page = Fit page
preview-export = Export…
preview-print = Print…
preview-close = Close

preview-export-title = Export { $title } as PDF
preview-pdf-files = PDF files (*.pdf)
preview-exported = Exported to '{ $file }'.
preview-printed = { $title } went to the printer.

preview-not-written = '{ $file }' could not be written.
preview-not-written-remedy = Choose another folder, or free some space, and export again.
preview-not-printed = { $title } could not be printed.
preview-not-printed-remedy = Check the printer, or export the paper as PDF and print that.
