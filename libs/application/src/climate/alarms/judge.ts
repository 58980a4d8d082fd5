import type { AlarmChanges, AnySign, OpenAlarm, AlarmVerdict } from './types.js';

/**
 * What the signs change about the open alarms. Raised once: a sign that is on while its alarm is open only brings it up to date.
 * Cleared by data only: by a sign that is off. Whether somebody has acknowledged it plays no part here.
 */
export function judgeAlarms(open: readonly OpenAlarm[], signs: readonly AnySign[]): AlarmChanges {
  const changes: AlarmChanges = { raise: [], renew: [], clear: [] };
  const known = new Map(open.map((alarm) => [keyOf(alarm), alarm]));
  for (const sign of signs) {
    const alarm = known.get(keyOf(sign));
    if (alarm === undefined) {
      if (sign.verdict === 'on') changes.raise.push(sign);
    } else if (sign.verdict === 'off') changes.clear.push({ id: alarm.id, sign });
    else if (sign.verdict !== 'unknown') changes.renew.push({ id: alarm.id, sign });
  }
  return changes;
}

function keyOf({ kind, subject }: Pick<OpenAlarm, 'kind' | 'subject'>): string {
  return `${kind}/${subject.kind}/${subject.id}`;
}

/** Above `raiseAt` is on, at or below `clearAt` is off. */
export function overLimit(value: number, raiseAbove: number, clearAt: number): AlarmVerdict {
  if (value > raiseAbove) return 'on';
  return value <= clearAt ? 'off' : 'between';
}
