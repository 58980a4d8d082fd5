import type { z } from 'zod';
import type { NamedTemplate } from '#application';
import { render, say, type Language, type Message } from '#care';
import { GOOD_CAP_HEIGHT_MM, labelLayout, labelsPerPage, type LabelLayout } from '#custody';
import type { NamedLabelTemplateBody } from '#contracts';
import { LABEL_TYPE } from '../../documents/label-type.js';
import { isoOrNull } from '../../presenters/time.js';

export function presentLabelTemplate({ id, name, template, own }: NamedTemplate, language: Language): z.output<typeof NamedLabelTemplateBody> {
  const layout = labelLayout(template.label, LABEL_TYPE);
  if (layout === null) throw new Error('a template was kept although its labels are too small');
  return {
    id, name, builtIn: own === null, template, labelsPerPage: labelsPerPage(template),
    moduleMm: layout.qr.moduleMm, codeHeightMm: hundredths(layout.code.capHeightMm), writingHeightMm: layout.writing === null ? null : hundredths(layout.writing.heightMm),
    notes: notesOn(layout).map((note) => render(note, language)), createdAt: isoOrNull(own?.createdAtMs ?? null),
  };
}

/** What is smaller than a wet hall wants, so that nobody finds out with wet hands. */
function notesOn({ code, writing }: LabelLayout): Message[] {
  return [
    ...(code.capHeightMm < GOOD_CAP_HEIGHT_MM ? [say('The letters of the code are {height} mm high on this label; 5 mm or more read better at arm’s length. Take a larger label where you can.', { height: String(hundredths(code.capHeightMm)) })] : []),
    ...(writing === null ? [say('This label has no room to write by hand.')] : []),
  ];
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
