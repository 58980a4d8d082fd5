import type { z } from 'zod';
import { alarmWords, type AlarmEvidence, type AlarmKind, type AlarmView } from '#application';
import { render, say, type Language, type Message } from '#care';
import type { AlarmBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso } from '../../presenters/time.js';

const STANDING = say('Advice to a trained lead. Local codes and licensed people come first. An alarm is reckoned from readings and may be wrong: go and look.');

/** Members of the evidence that have a place of their own in the answer. */
const APART = new Set(['first', 'roomId']);

export function presentAlarm(alarm: AlarmView, language: Language): z.output<typeof AlarmBody> {
  const words = wordsOf(alarm);
  const said = (messages: readonly Message[]): string[] => messages.map((message) => render(message, language));
  const { acknowledged, cleared, subject } = alarm;
  return {
    id: alarm.id, incidentId: alarm.incidentId, version: alarm.version, kind: alarm.kind, severity: alarm.severity, subject: { kind: subject.kind, id: subject.id, code: alarm.subjectCode, name: alarm.subjectName },
    raisedAt: iso(alarm.raisedAtMs), seenAt: iso(alarm.presentAtMs), what: render(words.what, language), doNow: said(words.doNow), cautions: said(words.cautions),
    numbers: numbersOf(alarm.present), numbersAtRaising: numbersOf(alarm.evidence), items: namedIn(alarm.present),
    acknowledged: acknowledged && { at: iso(acknowledged.atMs), by: acknowledged.by, byName: alarm.acknowledgedByName, note: acknowledged.note, grownSince: cleared === null && itemsIn(alarm.present) > itemsIn(acknowledged.present) },
    clearedAt: cleared && iso(cleared.atMs), clearedBy: cleared && numbersOf(cleared.evidence), standing: render(STANDING, language),
  };
}

function wordsOf<K extends AlarmKind>({ kind, present, subject, subjectName }: AlarmView & { kind: K }) {
  return alarmWords(kind, present as Parameters<typeof alarmWords<K>>[1], subjectName, subject.kind);
}

/** Moments are told as such: `measuredAtMs` becomes `measuredAt`. */
function numbersOf(evidence: AlarmEvidence): Record<string, number | string | null> {
  const told = Object.entries(evidence as unknown as Record<string, unknown>).filter(([name]) => !APART.has(name));
  return Object.fromEntries(told.map(([name, value]): [string, number | string | null] => {
    if (name.endsWith('Ms')) return [name.slice(0, -2), typeof value === 'number' ? iso(value) : null];
    return [name, typeof value === 'number' || typeof value === 'string' ? value : null];
  }));
}

function namedIn(evidence: AlarmEvidence): { itemId: string; tag: string }[] {
  return 'first' in evidence ? evidence.first.map(({ itemId, tagCode }) => ({ itemId, tag: formatTagCode(tagCode) })) : [];
}

function itemsIn(evidence: AlarmEvidence): number {
  return 'items' in evidence ? evidence.items : 0;
}
