/** How one thing came, what was tested and done, and how it stands. */
import { render, say } from '#care';
import type { ItemDossier } from '#application';
import { howItStands, photographsOf, whatItIs, whatWasDone, whatWasSeen, whatWasTested } from './dossier-sections.js';
import { FlowDocument } from './flow/index.js';
import type { PaperStyle } from './receipt-paper.js';

const STANDING = say('This note says what people saw and did on those days. It is no appraisal, no promise, and no proof of what was not looked at.');

/** Draws the note as PDF; the same record in the same language has the same bytes. */
export function conditionNotePdf(dossier: ItemDossier, { language, paper }: PaperStyle): Promise<Buffer> {
  const title = render(say('Condition note'), language);
  const flow = new FlowDocument({ title: `${title} ${dossier.item.tag}`, foot: `${title} ${dossier.item.tag}, ${dossier.incidentName}`, language, createdAtMs: dossier.asOfMs, paper });
  flow.title(title);
  whatItIs(flow, dossier, language);
  whatWasSeen(flow, say('As it came'), dossier.first, dossier, language);
  whatWasTested(flow, dossier, language);
  whatWasDone(flow, dossier, language);
  howItStands(flow, dossier, language);
  photographsOf(flow, dossier.photographs);
  flow.notice(flow.spoken(STANDING));
  return flow.finish();
}
