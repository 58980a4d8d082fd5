export { FlowDocument, MARGIN_MM, PAPERS, type PaperName } from './flow-document.js';
export { flowTable } from './flow-table.js';
export { BODY_MM, SMALL_MM } from './flow-text.js';
export { pictureRows, type CaptionedPicture } from './flow-pictures.js';
export { blankTable, ruledLines, tickBoxes, writtenFields } from './flow-form.js';
