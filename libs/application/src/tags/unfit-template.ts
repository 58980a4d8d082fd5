import { labelLayout, SMALLEST_LABELS_MM, templateFaults, type LabelTemplate, type TypeMeasure } from '#custody';
import { Problem } from '#contracts';

const { lying, upright } = SMALLEST_LABELS_MM;
const TOO_SMALL = `A tag needs a label of ${lying.widthMm} mm by ${lying.heightMm} mm or more, or an upright one of ${upright.widthMm} mm by ${upright.heightMm} mm or more: a symbol that a camera reads in a wet hall, and letters with it.`;

/** Only whether it fits counts here, whatever the type. */
const ANY_TYPE: TypeMeasure = { capHeightEm: 0.7, code: [{ lines: [[0, 11]], widthEm: 8 }] };

/** A grid that does not fit its page, or labels too small for a tag, print nonsense: said before anything is stored or drawn. */
export function refuseUnfit(template: LabelTemplate, pointer: string): void {
  const texts = templateFaults(template).map(({ text }) => text);
  if (labelLayout(template.label, ANY_TYPE) === null) texts.push(TOO_SMALL);
  if (texts.length > 0) throw new Problem('template_unfit', texts.join(' '), { errors: texts.map((detail) => ({ detail, code: 'template_unfit', pointer })) });
}
