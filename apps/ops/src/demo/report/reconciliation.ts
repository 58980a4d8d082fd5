import type { z } from 'zod';
import type { ReconciliationBody } from '#contracts';
import type { Book, Item } from '../driver/book.js';
import { NETWORKS } from '../world/region.js';

type Reconciliation = z.output<typeof ReconciliationBody>;
type Stage = Item['stage'];

/** The stages in the order of the sum, with the words for them. */
const SUM: readonly [Stage, string][] = [
  ['handed-back', 'handed back'], ['released', 'released'], ['referred-out', 'referred out'], ['held-frozen', 'held frozen'], ['held-wet', 'held wet'], ['drying', 'drying'], ['in-work', 'in work'], ['waiting', 'waiting'],
  ['merged', 'joined to another record of the same thing'],
];

/** The account of one network, by the program and by the crews' own count. */
export interface Account {
  lines: string[];
  /** Sentences about everything that does not add up; empty when all does. */
  faults: string[];
}

/** Asks the program for its account and holds it against what the crews know they handed in, moved and gave away. */
export async function accountOf(book: Book): Promise<Account> {
  const { api, incidentId } = book;
  const found = await api.get<Reconciliation>(`/v1/incidents/${incidentId}/reconciliation`);
  const items = await api.list<Item>(`/v1/incidents/${incidentId}/items`);
  const count = (stage: Stage) => found.byStage[stage] ?? 0;
  const sum = SUM.reduce((total, [stage]) => total + count(stage), 0);
  const differs = differences(book, items);
  const faults = [
    ...(found.difference === 0 && found.received === sum ? [] : [`received ${found.received}, but the stages add up to ${sum}`]),
    ...(found.received === book.items.size ? [] : [`the crews handed in ${book.items.size} things, the program received ${found.received}`]),
    ...(found.keepersOtherThanOne.length === 0 ? [] : [`items without exactly one keeper: ${found.keepersOtherThanOne.slice(0, 5).join(', ')}`]),
    ...(found.chainFaults.length === 0 ? [] : [`broken custody chains: ${found.chainFaults.slice(0, 5).map((fault) => `${fault.itemId} (${fault.fault} at ${fault.seq})`).join(', ')}`]),
    ...differs,
  ];
  return {
    faults,
    lines: [
      `${NETWORKS[book.network].name}:`,
      `received ${found.received} = ${SUM.filter(([stage]) => stage !== 'merged' || count(stage) > 0).map(([stage, words]) => `${words} ${count(stage)}`).join(' + ')}`,
      `items with a number of keepers other than one: ${found.keepersOtherThanOne.length}`,
      `custody chains that fail to verify: ${found.chainFaults.length}`,
      `custody events verified: ${found.eventsVerified}; things where the program and the crews' own count differ: ${differs.length}`,
    ],
  };
}

/** Every thing once, where its crew left it: a lost command or a doubled one shows here. */
function differences(book: Book, items: readonly Item[]): string[] {
  const onRecord = new Map(items.map((item) => [item.id, item]));
  const missing = [...book.items.values()].filter(({ item }) => !onRecord.has(item.id)).map(({ thing }) => `${thing.object} is not on record any more`);
  const other = items.flatMap((item) => {
    const known = book.items.get(item.id)?.item;
    if (!known) return [`${item.tag} is on record, and no crew took it in`];
    if (known.stage === item.stage && known.keeper.kind === item.keeper.kind && known.keeper.id === item.keeper.id && known.custodySeq === item.custodySeq) return [];
    return [`${item.tag} is ${item.stage} at ${item.keeper.kind} after event ${item.custodySeq}; its crew left it ${known.stage} at ${known.keeper.kind} after event ${known.custodySeq}`];
  });
  return [...missing, ...other];
}
