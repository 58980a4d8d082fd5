/** Reads of where things are, for `reads.ts`. */
import type { Stores } from '#application';
import type { Foreign, Read } from './reads.js';

const of = (foreign: Foreign, name: string) => foreign.incident.the(name);
const holding = (foreign: Foreign) => ({ kind: 'holding', id: foreign.incident.places.holding('dirty') }) as const;
const page = 50;
const FAR_AHEAD_MS = Date.parse('2200-01-01T00:00:00Z');

export const WHERE_READS: Record<string, Read<Stores>> = {
  'where.byWords': (stores, foreign) => stores.where.byWords(foreign.incident.id, [['quilt']], page),
  'where.byHousehold': (stores, foreign) => stores.where.byHousehold(foreign.incident.id, [foreign.householdCode], page),
  'where.whereabouts': (stores, foreign) => stores.where.whereabouts(foreign.incident.id, [of(foreign, 'item')]),
  'where.contents': (stores, foreign) => stores.where.contents(holding(foreign), page, null),
  'where.companions': (stores, foreign) => stores.where.companions(holding(foreign), page),
  'where.companion': (stores, foreign) => stores.where.companion(of(foreign, 'item')),
  'where.unseen': (stores, foreign) => stores.where.unseen(foreign.incident.id, { waiting: FAR_AHEAD_MS }, page, null),
  'where.countUnseen': (stores, foreign) => stores.where.countUnseen(foreign.incident.id, { waiting: FAR_AHEAD_MS }),
};
