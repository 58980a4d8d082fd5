import type { PreparedIncident } from '#testing';
import type { Table } from '../row.js';

const ofItem = (incident: PreparedIncident) => ({ params: { itemId: incident.the('worked') } });

const quoteBody = (incident: PreparedIncident) => ({ specialistId: incident.places.specialist('SP1'), amount: { minor: 18_000, currency: 'USD' }, validUntil: '2026-07-01T00:00:00Z', work: incident.text('Wet cleaning') });

export async function quoteOf(incident: PreparedIncident): Promise<string> {
  return (await incident.create(`/v1/items/${(await incident.newItem()).id}/referral-quotes`, quoteBody(incident))).id;
}

export async function kitOf(incident: PreparedIncident): Promise<string> {
  return (await incident.create(`/v1/sites/${incident.places.site()}/paper-kits`, { slips: 2 })).id;
}

/** The first sheet of a kit is the log of a station: a line of each kind. */
export async function lineOf(incident: PreparedIncident) {
  const item = await incident.newItem();
  return { sheetNo: 1, lineNo: 1, writtenAt: '2026-05-09T07:00:00Z', tag: item['tag'], to: { kind: 'holding', id: incident.places.holding('clean') }, personId: incident.places.person('P1') };
}

const slip = (incident: PreparedIncident, code: unknown) => ({
  slipNo: 1, writtenAt: '2026-05-09T06:00:00Z', household: { code }, description: incident.text('Tablecloth'), sizeClass: 'throw', to: { kind: 'holding', id: incident.places.holding('dirty') },
});

export const paperRows: Table = {
  printConditionNote: { request: ofItem },
  getReferralPackage: { request: ofItem },
  printReferralPackage: { request: ofItem },
  recordReferralQuote: {
    request: async (incident) => ({ params: { itemId: (await incident.newItem()).id }, body: quoteBody(incident) }),
    references: { '#/specialistId': { values: (incident) => [incident.places.specialist('SP1')] } },
  },
  listReferralQuotes: { request: ofItem },
  decideReferralQuote: { request: async (incident) => ({ params: { quoteId: await quoteOf(incident) }, body: { decision: 'decline' } }) },
  makePaperKit: { request: (incident) => ({ params: { siteId: incident.places.site() }, body: { slips: 2 } }) },
  getPaperKit: { request: async (incident) => ({ params: { kitId: await kitOf(incident) } }) },
  printPaperKit: { request: async (incident) => ({ params: { kitId: await kitOf(incident) } }) },
  keyPaperSlips: {
    request: async (incident) => ({ params: { kitId: await kitOf(incident) }, body: { personId: incident.places.person('P1'), slips: [slip(incident, (await incident.newHousehold())['code'])] } }),
    references: { '#/personId': { values: (incident) => [incident.places.person('P1')] } },
    notReferences: { '#/slips/0/to': 'refused in the verdict of its own slip: tests/api/keyPaperSlips', '#/slips/0/to/id': 'refused in the verdict of its own slip: tests/api/keyPaperSlips' },
  },
  keyPaperLogLines: {
    request: async (incident) => ({
      params: { kitId: await kitOf(incident) },
      body: {
        personId: incident.places.person('P1'),
        lines: [await lineOf(incident), { sheetNo: 1, lineNo: 2, writtenAt: '2026-05-09T07:00:00Z', tag: (await incident.newItem())['tag'], step: 'assess', outcome: 'done', personId: incident.places.person('P1'), note: incident.text('Looked at') }],
      },
    }),
    references: { '#/personId': { values: (incident) => [incident.places.person('P1')] } },
    notReferences: Object.fromEntries(['to', 'to/id', 'personId', 'withPersonIds', 'override/personId'].map((member) => [`#/lines/0/${member}`, 'refused in the verdict of its own line: tests/api/keyPaperLogLines'])),
  },
};
