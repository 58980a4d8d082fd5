import { setTimeout as pause } from 'node:timers/promises';
import type { Keeper, Stage } from '#custody';
import type { ClientRecord } from '#testing/salvage';
import { Dice } from '../demo/dice.js';

/** Of the commands, how many are sent twice at the same moment, as by an impatient hand. */
const TWICE = 0.15;
/** Of the commands, how many are about the few things that everybody wants at the same moment. */
const SOUGHT = 0.4;
const SOUGHT_ITEMS = 2;
const ANSWER_WITHIN_MS = 5_000;
const RETRY_MS = [20, 120] as const;
const THINKS_MS = [0, 15] as const;

/** A network with its key and things, as its tablets know them at the start. */
export interface SoakNetwork {
  networkId: string;
  key: string;
  items: { id: string; keeper: Keeper; stage: Stage; seq: number }[];
  holding: readonly Keeper[];
  freezers: readonly Keeper[];
}

interface Known {
  keeper: Keeper;
  stage: Stage;
}

interface Command {
  kind: 'moved' | 'frozen' | 'thawed' | 'correction';
  from: Keeper;
  to: Keeper;
}

/** What all tablets of a run share. */
export interface TabletRound {
  urls: readonly string[];
  /** False when no new command is begun any more. */
  goesOn: () => boolean;
  /** After this moment (of `performance.now()`) nothing is tried again. */
  giveUpAtMs: () => number;
  history: ClientRecord[];
}

/** One client: it sends commands about its network's things, one after the other, by what it last heard of them, and tries each until the answer is definite. */
export async function runTablet(network: SoakNetwork, name: string, seed: number, round: TabletRound): Promise<void> {
  const dice = Dice.of(seed, 'tablet', name);
  const known = new Map<string, Known>(network.items.map(({ id, keeper, stage }) => [id, { keeper, stage }]));
  while (round.goesOn()) {
    const { id } = dice.pick(dice.chance(SOUGHT) ? network.items.slice(0, SOUGHT_ITEMS) : network.items);
    const before = known.get(id);
    if (before === undefined) throw new Error('the tablet knows nothing of the item');
    const command = choose(dice, network, before);
    const records = await send(dice, network, id, command, round);
    round.history.push(...records);
    const after = records.some((record) => record.outcome === 'ok') ? { keeper: command.to, stage: stageAfter(command, before.stage) } : await look(dice, network, id, round);
    if (after !== null) known.set(id, after);
    await pause(dice.int(...THINKS_MS));
  }
}

/** Corrections that keep everything as it is can happen any number of times: a second one is seen, not refused. */
function choose(dice: Dice, network: SoakNetwork, { keeper, stage }: Known): Command {
  const other = (list: readonly Keeper[]) => dice.pick(list.filter((place) => place.id !== keeper.id));
  if (dice.chance(0.15)) return { kind: 'correction', from: keeper, to: keeper };
  if (stage === 'held-frozen') return dice.chance(0.7) ? { kind: 'thawed', from: keeper, to: dice.pick(network.holding) } : { kind: 'frozen', from: keeper, to: other(network.freezers) };
  return dice.chance(0.15) ? { kind: 'frozen', from: keeper, to: dice.pick(network.freezers) } : { kind: 'moved', from: keeper, to: other(network.holding) };
}

function stageAfter({ kind }: Command, before: Stage): Stage {
  return kind === 'frozen' ? 'held-frozen' : kind === 'thawed' ? 'waiting' : before;
}

async function send(dice: Dice, network: SoakNetwork, itemId: string, command: Command, round: TabletRound): Promise<ClientRecord[]> {
  const cmd = crypto.randomUUID();
  const request = {
    path: `/v1/items/${itemId}/custody-events`,
    key: crypto.randomUUID(),
    body: JSON.stringify({ ...command, reason: cmd, ...(command.kind === 'correction' && { corrects: { seq: 1, reason: 'said once more' } }) }),
  };
  const attempt = async (): Promise<ClientRecord> => {
    const invokedAtMs = performance.now();
    const answer = await untilDefinite(dice, network, request, round);
    return { cmd, itemId, from: command.from, to: command.to, invokedAtMs, returnedAtMs: answer === null ? null : performance.now(), outcome: answer === null ? 'unknown' : answer.ok ? 'ok' : 'refused', seq: answer?.seq ?? null };
  };
  return Promise.all(dice.chance(TWICE) ? [attempt(), attempt()] : [attempt()]);
}

/** Tries again under the same key, at any API process, until it was done or refused. */
async function untilDefinite(dice: Dice, network: SoakNetwork, request: { path: string; key: string; body: string }, round: TabletRound): Promise<{ ok: boolean; seq: number | null } | null> {
  do {
    const answer = await fetch(`${dice.pick(round.urls)}${request.path}`, {
      method: 'POST',
      headers: { authorization: `Bearer ${network.key}`, 'content-type': 'application/json', 'idempotency-key': request.key },
      body: request.body,
      signal: AbortSignal.timeout(ANSWER_WITHIN_MS),
    }).then(async (response) => ({ status: response.status, body: (await response.json()) as { seq?: number; code?: string } }), () => null).catch(() => null);
    if (answer !== null && answer.status === 201) return { ok: true, seq: answer.body.seq ?? null };
    if (answer !== null && isRefusal(answer.status, answer.body.code)) return { ok: false, seq: null };
    await pause(dice.int(...RETRY_MS));
  } while (performance.now() < round.giveUpAtMs());
  return null;
}

/** What is about this command itself and will be said again; a command still running, a rate and a fault of the server pass. */
function isRefusal(status: number, code: string | undefined): boolean {
  return [400, 404, 409, 412, 422].includes(status) && code !== 'command_running';
}

/** Where the thing is, if somebody answers. */
async function look(dice: Dice, network: SoakNetwork, itemId: string, round: TabletRound): Promise<Known | null> {
  const response = await fetch(`${dice.pick(round.urls)}/v1/items/${itemId}`, { headers: { authorization: `Bearer ${network.key}` }, signal: AbortSignal.timeout(ANSWER_WITHIN_MS) }).catch(() => null);
  if (response === null || !response.ok) return null;
  const body = await response.json().catch(() => null);
  return body === null ? null : { keeper: (body as Known).keeper, stage: (body as Known).stage };
}
