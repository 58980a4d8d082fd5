/** What is asked for Spanish of photographs, recordings and words; for `languages.spec.ts`. */
import type { Workbench } from '../api/support/workbench.js';
import type { Spoken } from './languages.custody.js';

const ES = { 'accept-language': 'es-MX, es;q=0.9' };
const TUS = { 'tus-resumable': '1.0.0', 'upload-length': '10' };

/** Each speaking operation of files, asked for Spanish. */
export function fileOperations(open: () => Workbench): Record<string, () => Promise<Spoken>> {
  const families = async () => {
    const household = await open().household();
    return { household: household.id, item: (await open().takeIn(household)).id };
  };
  const words = async (headers: Record<string, string> = {}) => {
    const { household, item } = await families();
    return { household, item, answer: await open().network.post(`/v1/households/${household}/words`, { itemId: item, text: 'Cosida-por-ella' }, headers) };
  };
  /** One that was refused, and so has something to say. */
  const refused = async () => {
    const { household, item, answer } = await words();
    await open().server.admin.query("update file set state = 'refused', refusal = 'svg', removed = '{location,tags}' where id = $1", [answer.body.id]);
    return { household, item, id: answer.body.id as string };
  };
  const begun = async (headers: Record<string, string> = {}) => open().network.post(`/v1/households/${(await families()).household}/uploads?kind=photograph`, undefined, { ...TUS, ...headers });
  return {
    beginUpload: () => begun(ES),
    getUpload: async () => open().network.get(`/v1/uploads/${(await begun()).body.id}`, ES),
    sendFile: async () => open().network.post(`/v1/households/${(await families()).household}/files`, Buffer.from('GIF89a'), { 'content-type': 'image/png', ...ES }),
    writeWords: async () => (await words(ES)).answer,
    getFile: async () => open().network.get(`/v1/files/${(await refused()).id}`, ES),
    listItemFiles: async () => open().network.get(`/v1/items/${(await refused()).item}/files?everyState=true`, ES),
    listHouseholdFiles: async () => open().network.get(`/v1/households/${(await refused()).household}/files?everyState=true`, ES),
    deleteFile: async () => open().network.post(`/v1/files/${(await refused()).id}/deletions`, { personId: open().incident.person('P1'), reason: 'Lo-pidió' }, ES),
  };
}
