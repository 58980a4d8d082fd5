/**
 * Sheets of labels as data: where on the page each label lies. Millimetres from the upper left corner of the page. Any sheet that is
 * sold or cut can be written down like this; a roll with one label is a page of the size of that label.
 */

export interface LabelTemplate {
  page: { widthMm: number; heightMm: number };
  /** From the edges of the page to the first label. */
  marginLeftMm: number;
  marginTopMm: number;
  columns: number;
  rows: number;
  /** From the left edge of a label to that of its neighbour, and from upper edge to upper edge. */
  pitchXMm: number;
  pitchYMm: number;
  label: { widthMm: number; heightMm: number };
  /** Radius of the corners; 0 for square ones. */
  cornerMm: number;
}

export interface LabelFrame {
  /** Counted from 0. */
  page: number;
  xMm: number;
  yMm: number;
  widthMm: number;
  heightMm: number;
}

export interface TemplateFault {
  fault: 'too-wide' | 'too-high' | 'columns-overlap' | 'rows-overlap' | 'corner-too-round';
  /** One sentence with what to change. */
  text: string;
}

/** What rounding to hundredths may add up to over a sheet; our own choice. */
const ROUNDING_MM = 0.05;

/** Labels on one page. */
export function labelsPerPage({ columns, rows }: Pick<LabelTemplate, 'columns' | 'rows'>): number {
  return columns * rows;
}

/** Why a grid cannot be printed; empty when every label lies on the page and none on another. */
export function templateFaults(template: LabelTemplate): TemplateFault[] {
  const { page, label, columns, rows, pitchXMm, pitchYMm } = template;
  const rightMm = template.marginLeftMm + (columns - 1) * pitchXMm + label.widthMm;
  const lowerMm = template.marginTopMm + (rows - 1) * pitchYMm + label.heightMm;
  const faults: TemplateFault[] = [];
  if (rightMm > page.widthMm + ROUNDING_MM) faults.push({ fault: 'too-wide', text: `The columns end ${mm(rightMm)} from the left, but the page is ${mm(page.widthMm)} wide. Check the left margin, the distance from label to label, and the number of columns.` });
  if (lowerMm > page.heightMm + ROUNDING_MM) faults.push({ fault: 'too-high', text: `The rows end ${mm(lowerMm)} from the top, but the page is ${mm(page.heightMm)} high. Check the upper margin, the distance from label to label, and the number of rows.` });
  if (columns > 1 && pitchXMm < label.widthMm) faults.push({ fault: 'columns-overlap', text: `Labels ${mm(label.widthMm)} wide lie on one another when the next begins ${mm(pitchXMm)} further. The distance is measured from left edge to left edge.` });
  if (rows > 1 && pitchYMm < label.heightMm) faults.push({ fault: 'rows-overlap', text: `Labels ${mm(label.heightMm)} high lie on one another when the next begins ${mm(pitchYMm)} further. The distance is measured from upper edge to upper edge.` });
  if (template.cornerMm * 2 > Math.min(label.widthMm, label.heightMm)) faults.push({ fault: 'corner-too-round', text: `Corners of ${mm(template.cornerMm)} are more than half of the label. Give the radius, or 0 for square corners.` });
  return faults;
}

/**
 * Where the label of a position lies. Positions run along the rows, then down, then to the next page.
 * @param position from 0. @throws RangeError when it is no whole number from 0.
 */
export function labelFrame(template: LabelTemplate, position: number): LabelFrame {
  if (!Number.isInteger(position) || position < 0) throw new RangeError('a position is a whole number from 0');
  const perPage = labelsPerPage(template);
  const onPage = position % perPage;
  return {
    page: Math.floor(position / perPage),
    xMm: template.marginLeftMm + (onPage % template.columns) * template.pitchXMm,
    yMm: template.marginTopMm + Math.floor(onPage / template.columns) * template.pitchYMm,
    widthMm: template.label.widthMm,
    heightMm: template.label.heightMm,
  };
}

/**
 * Frames for a number of labels on sheets of which the first may be partly used.
 * @param firstPosition position of the first label on its page, from 0.
 * @throws RangeError when the first position is not on the page.
 */
export function labelFrames(template: LabelTemplate, count: number, firstPosition = 0): LabelFrame[] {
  if (firstPosition >= labelsPerPage(template)) throw new RangeError(`a page has ${labelsPerPage(template)} labels`);
  return Array.from({ length: count }, (_, index) => labelFrame(template, firstPosition + index));
}

function mm(value: number): string {
  return `${Math.round(value * 100) / 100} mm`;
}
