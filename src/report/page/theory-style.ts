// What the chapter on theory adds to the style sheet: room above its own headings.
export const THEORY_STYLE = `
.against>h3{margin:1.5rem 0 .3rem}
.against>p{max-width:60rem}.against>.pair{margin-top:.8rem}
@media print{section.against{break-before:page}}`;
