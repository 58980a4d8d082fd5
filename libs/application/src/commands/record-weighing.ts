import { render } from '#care';
import { notFound, Problem, type RecordWeighing } from '#contracts';
import type { UseCaseCall } from '../call.js';
import { climateCalibrationInForce } from '../calibration/in-force.js';
import { keepWeighing } from '../climate/records/keep-weighing.js';
import type { Remark } from '../climate/records/measurement-words.js';
import { refuseClosed } from '../custody/open-incident.js';
import type { WeighingRecord } from '../ports/weighing-store.js';
import type { Stores } from '../ports/work.js';

export type RecordWeighingInput = RecordWeighing & { itemId: string };

/** Keeps what a scale showed; how it is judged stands with `keepWeighing`. */
export async function recordWeighing(stores: Stores, call: UseCaseCall, input: RecordWeighingInput): Promise<{ weighing: WeighingRecord; created: boolean }> {
  const item = await stores.items.lock(input.itemId);
  if (!item) throw notFound('item');
  await refuseClosed(stores, item);
  const became = await keepWeighing(stores, call, item, input, await climateCalibrationInForce(stores));
  switch (became.outcome) {
    case 'created':
    case 'duplicate':
      return { weighing: became.weighing, created: became.outcome === 'created' };
    case 'conflicting':
      throw conflicting(became.weighing, became.sent);
    case 'unknown':
      throw unknownReference(became.what, became.member);
    case 'refused':
      throw refused(became.remarks);
  }
}

function unknownReference(what: string, member: string): Problem {
  return new Problem('reference_unknown', `No ${what} with this id belongs to the incident. Take the id from the layout.`, { errors: [{ detail: `names no ${what} of this incident`, code: 'reference_unknown', pointer: `#/${member}` }] });
}

function conflicting(kept: WeighingRecord, sent: WeighingRecord): Problem {
  const words = ({ scaleKg, tareKg }: WeighingRecord) => `${scaleKg} kg on the scale with ${tareKg} kg of tare`;
  return new Problem('measurement_conflicts', `The thing was weighed at this very moment already: kept are ${words(kept)}, sent were ${words(sent)}. The kept weighing stays; send another moment if it was weighed twice. Nothing was changed.`, {
    errors: [{ detail: `kept are ${words(kept)}`, code: 'conflicting', pointer: '#/scaleKg' }],
  });
}

function refused(remarks: readonly Remark[]): Problem {
  return new Problem('measurement_refused', `${remarks.map(({ text }) => render(text, 'en')).join(' ')} Nothing was changed.`, {
    errors: remarks.map(({ code, member, text }) => ({ detail: render(text, 'en'), code, pointer: `#/${member}` })), members: { remarks },
  });
}
