import type { PreparedIncident } from '#testing';
import { ofIncident, type Row, type Table } from '../row.js';
import { foundQuilt } from './found-items.js';
import { keepers } from './intake.js';
import { quoteOf } from './papers.js';

const person = { values: (incident: PreparedIncident) => [incident.places.person('P1')] };
const lead = (incident: PreparedIncident) => incident.places.person('P1');

/** A command on a fresh item. */
function onItem(body: (incident: PreparedIncident) => unknown, references: Row['references'] = { '#/personId': person }): Row {
  return { request: async (incident) => ({ params: { itemId: (await incident.newItem()).id }, body: body(incident) }), references };
}

/** A command on an item for which the owner agreed to this. */
function onAgreedItem(scope: string, body: (incident: PreparedIncident) => unknown, references: Row['references']): Row {
  return {
    references,
    request: async (incident) => {
      const item = await incident.newItem();
      await incident.create(`/v1/households/${incident.the('household')}/consents`, { scope, given: true, manner: 'written', itemId: item.id });
      return { params: { itemId: item.id }, body: body(incident) };
    },
  };
}

export const colourTest = (incident: PreparedIncident) => ({ personId: lead(incident), tests: [{ colour: incident.text('red thread'), reading: 'no-transfer' }], allColoursTested: true });
const assessment = (incident: PreparedIncident) => ({ personId: lead(incident), wetState: 'wet', fibre: 'cotton', mould: 'none', fragility: 'sound', alreadyBled: false });

/** An item that was looked at and colour-tested: the work at a station comes next. */
export async function assessedItem(incident: PreparedIncident): Promise<{ id: string; nextStep: string }> {
  const { id } = await incident.newItem();
  await incident.create(`/v1/items/${id}/assessments`, assessment(incident));
  await incident.create(`/v1/items/${id}/colour-tests`, colourTest(incident));
  const { body } = await incident.network.get(`/v1/items/${id}`).expect(200);
  return { id, nextStep: body.nextStep };
}

export const override = (incident: PreparedIncident) => ({ disposition: 'hold-frozen', reason: incident.text('The tables are full'), personId: lead(incident) });
export const stepResult = (incident: PreparedIncident, step: string) => ({
  step, outcome: 'done', personId: lead(incident), withPersonIds: [incident.places.person('P2')], override: { personId: lead(incident), reason: incident.text('Shown how') }, startedAt: '2026-05-09T06:40:00Z', stationId: incident.places.station('RINSE'), note: incident.text('Both sides'), to: { kind: 'holding', id: incident.places.holding('dirty') },
});
export const referral = (incident: PreparedIncident) => ({ specialistId: incident.places.specialist('SP1'), reason: incident.text('The dye moves'), personId: lead(incident) });

/** A found thing that a lead sends to be stabilised. */
const unowned = async (incident: PreparedIncident) => ({ params: { itemId: await foundQuilt(incident) }, body: { ...referral(incident), ownerUnknown: { decidedBy: lead(incident) } } });

/** An item that is with a specialist. */
export async function referredItem(incident: PreparedIncident): Promise<string> {
  const item = await incident.newItem();
  await incident.create(`/v1/items/${item.id}/referrals`, referral(incident));
  return item.id;
}

/** A lead who would answer for a look by the wrong hands. */
const answeredBy = (incident: PreparedIncident) => ({ personId: lead(incident), reason: incident.text('Shown how') });
const looked: Row['references'] = { '#/personId': person, '#/override/personId': person };

export const careRows: Table = {
  assessItem: onItem((incident) => ({ ...assessment(incident), override: answeredBy(incident) }), looked),
  recordColourTest: onItem((incident) => ({ ...colourTest(incident), override: answeredBy(incident) }), looked),
  getTriage: { request: (incident) => ({ params: { itemId: incident.the('item') } }) },
  overrideDisposition: onItem(override),
  recordStepResult: {
    request: async (incident) => {
      const item = await assessedItem(incident);
      return { params: { itemId: item.id }, body: stepResult(incident, item.nextStep) };
    },
    references: {
      '#/personId': person, '#/override/personId': person, '#/withPersonIds': { values: (incident) => [[incident.places.person('P2')]] },
      '#/stationId': { values: (incident) => [incident.places.station('RINSE')] }, '#/to': { values: keepers },
    },
  },
  listUnsuitedSteps: ofIncident(),
  referItem: onItem(referral, { '#/personId': person, '#/specialistId': { values: (incident) => [incident.places.specialist('SP1')] }, '#/quoteId': { values: async (incident) => [await quoteOf(incident)] }, '#/ownerUnknown/decidedBy': { ...person, request: unowned } }),
  returnFromReferral: {
    request: async (incident) => ({ params: { itemId: await referredItem(incident) }, body: { to: { kind: 'holding', id: incident.places.holding('dirty') } } }),
    references: { '#/to': { values: keepers } },
  },
  releaseItem: onAgreedItem('release', (incident) => ({ to: 'disposed', personId: lead(incident) }), { '#/personId': person }),
};
