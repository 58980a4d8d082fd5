import type { Stores } from '#application';
import type { Foreign, Read } from './reads.js';

const page = 50;
const of = (foreign: Foreign, name: string) => foreign.incident.the(name);
const namesOf = (objects: readonly { name: string }[]) => objects.map(({ name }) => name);

/** The reading and writing methods of the store of files, asked for things of the other network. */
export const FILE_READS: Record<string, Read<Stores>> = {
  'files.find': (stores, foreign) => stores.files.find(of(foreign, 'words')),
  'files.lock': (stores, foreign) => stores.files.lock(of(foreign, 'words')),
  'files.page': (stores, foreign) => stores.files.page({ itemId: of(foreign, 'item') }, true, page, null),
  'files.ofHousehold': (stores, foreign) => stores.files.ofHousehold(of(foreign, 'household')),
  'files.unfinished': (stores, foreign) => stores.files.unfinished(of(foreign, 'household')),
  'files.eventKnown': (stores, foreign) => stores.files.eventKnown({ event: 'intake', custodySeq: 1, assessmentId: null, stepResultId: null, handBackId: null }, of(foreign, 'item'), of(foreign, 'household')),
  'files.newestEvent': (stores, foreign) => stores.files.newestEvent('assessment', of(foreign, 'worked')),
  'files.objects': (stores, foreign) => stores.files.objects(of(foreign, 'words')),
};

export const FILE_WRITES: Record<string, Read<Stores>> = {
  'files.save': (stores, foreign) => stores.files.save(of(foreign, 'words'), { mediaType: 'ours/now' }),
  'files.advance': (stores, foreign) => stores.files.advance(of(foreign, 'upload'), 0, 5),
  'files.drop': async (stores, foreign) => stores.files.drop(namesOf(await stores.files.objects(of(foreign, 'words')))),
  'files.dropOf': (stores, foreign) => stores.files.dropOf([of(foreign, 'words')], false),
  'files.forget': async (stores, foreign) => stores.files.forget(namesOf(await stores.files.objects(of(foreign, 'words')))),
};
