### The page of label and checks beside the sheet.

label-page-title = Label and checks
label-page-back = Back to the sheet
label-page-open = Label and checks
label-page-limits = Limit rows that name a substance of this formula
