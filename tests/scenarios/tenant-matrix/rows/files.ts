import type { PreparedIncident } from '#testing';
import type { Reference, Row, Table } from '../row.js';

const TUS = { 'tus-resumable': '1.0.0' };
const WHOLE = 'GIF89a that is refused when it is looked into';
const TEXT = (incident: PreparedIncident) => ({ text: incident.text('Sewn from curtains') });
const household = (incident: PreparedIncident) => ({ householdId: incident.the('household') });

/** Families' words are kept at once, so they are the files of the prepared world. */
export async function wordsOf(incident: PreparedIncident): Promise<string> {
  return (await incident.create(`/v1/households/${incident.the('household')}/words`, { ...TEXT(incident), itemId: incident.the('item'), sensitive: false })).id as string;
}

export async function uploadOf(incident: PreparedIncident): Promise<string> {
  return (await incident.create(`/v1/households/${incident.the('household')}/uploads?kind=photograph&itemId=${incident.the('item')}`, {}, { ...TUS, 'upload-length': String(WHOLE.length) })).id as string;
}

const item: Reference = { values: (incident) => [incident.the('item')] };
const person: Reference = { values: (incident) => [incident.places.person('P1')] };
const handBack = (parts: Row['request']): Reference => ({ values: (incident) => [incident.the('handBack')], request: async (incident) => {
  const own = await parts(incident);
  return own.query === undefined ? { ...own, body: { ...(own.body as object), event: 'hand-back' } } : { ...own, query: { ...own.query, event: 'hand-back' } };
} });
const whatItBelongsTo = (place: '?' | '#/', request: Row['request']): NonNullable<Row['references']> => ({ [`${place}itemId`]: item, [`${place}personId`]: person, [`${place}eventId`]: handBack(request) });

const begin: Row['request'] = (incident) => ({ params: household(incident), query: { kind: 'photograph', itemId: incident.the('item') }, headers: { ...TUS, 'upload-length': '10' } });
const send: Row['request'] = (incident) => ({ params: household(incident), query: { itemId: incident.the('item') }, body: WHOLE, contentType: 'image/jpeg' });
const write: Row['request'] = (incident) => ({ params: household(incident), body: { ...TEXT(incident), itemId: incident.the('item') } });

export const fileRows: Table = {
  beginUpload: { request: begin, references: whatItBelongsTo('?', begin) },
  sendFile: { request: send, references: whatItBelongsTo('?', send) },
  writeWords: { request: write, references: whatItBelongsTo('#/', write) },
  getUpload: { request: async (incident) => ({ params: { uploadId: await uploadOf(incident) } }) },
  continueUpload: { request: async (incident) => ({ params: { uploadId: await uploadOf(incident) }, body: WHOLE, contentType: 'application/offset+octet-stream', headers: { ...TUS, 'upload-offset': '0' } }) },
  endUpload: { request: async (incident) => ({ params: { uploadId: await uploadOf(incident) }, headers: TUS }) },
  getFile: { request: (incident) => ({ params: { fileId: incident.the('words') } }) },
  listItemFiles: { request: (incident) => ({ params: { itemId: incident.the('item') } }) },
  listHouseholdFiles: { request: (incident) => ({ params: household(incident) }) },
  makeFileLink: { request: (incident) => ({ params: { fileId: incident.the('words') }, body: {} }) },
  deleteFile: { request: async (incident) => ({ params: { fileId: await wordsOf(incident) }, body: { personId: incident.places.person('P1'), reason: incident.text('Asked for') } }), references: { '#/personId': person } },
};
