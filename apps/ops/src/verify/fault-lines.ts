import type { Fault, FaultKind } from './verify-network.js';

/** What each kind of fault means, for the operator. */
const MEANS: Record<FaultKind, string> = {
  gap: 'an event is missing, comes twice or stands out of order',
  prev_hash: 'it does not link to the event before it',
  hash: 'its content is not what was hashed',
  keeper_break: 'its giver did not hold the thing',
  head_mismatch: 'the present state is not what the last event gives',
  wrong_item: 'it belongs to another item or network',
  stage: 'its stage is not what the event leads to',
  row: 'what stands beside the hashed content contradicts it, its item or its root',
  no_item: 'there is no item or container of these events',
  no_events: 'it says that it has events, and none is there',
  under_no_root: 'it is under no root and does not wait for one',
  waits_changed: 'it was altered while it waited for a root',
  waits_gone: 'it waits for a root and is not there',
  waits_twice: 'it waits for a root although it is under one',
  root_missing: 'the root is not there',
  wrong_network: 'the root names another network',
  statement: 'the statement is not what was hashed',
  prev_root: 'it does not link to the root before it',
  key_unknown: 'the key that the root names is not known under this name',
  signature: 'the signature does not fit the statement',
  count: 'there are more or fewer events under the root than it states',
  merkle: 'the stored leaves do not give the signed root',
  subtree: 'the stored inner nodes are not those of the leaves',
  leaf_unassigned: 'nobody says which event a leaf stands for',
  event_missing: 'the event was put under the root and is not there any more',
  event_differs: 'the event is not the one that was put under the root',
  outside_period: 'the event says it was recorded outside the hours of the root',
  not_as_exported: 'the database holds another root under this number than the one that was exported',
};

/** `network ... item ... event 3 root 7: hash: its content is not what was hashed`. */
export function faultLine({ networkId, itemId, seq, rootNo, what }: Fault): string {
  const where = [`network ${networkId}`, itemId === undefined ? null : `item ${itemId}`, seq === undefined ? null : `event ${seq}`, rootNo === undefined ? null : `root ${rootNo}`];
  return `${where.filter((part) => part !== null).join(' ')}: ${what}: ${MEANS[what]}`;
}
