/** Alarms of rooms, machines and freezers: raised once, acknowledged by a person, cleared by what is measured and by nothing else. */

/** What can be wrong. */
export const ALARM_KINDS = [
  'room-over-cap', 'room-mould-possible', 'clock-amber', 'clock-red', 'dehumidifier-stopped', 'dehumidifier-short', 'freezer-warm', 'freezer-thawing', 'sensor-silent', 'things-unseen',
] as const;
export type AlarmKind = (typeof ALARM_KINDS)[number];

/** What an alarm is about. The clocks of things are told by the room they hang in: one alarm for four hundred things, not four hundred. */
export const ALARM_SUBJECTS = ['drying-room', 'dehumidifier', 'freezer', 'incident'] as const;
export type AlarmSubjectKind = (typeof ALARM_SUBJECTS)[number];
export interface AlarmSubject {
  kind: AlarmSubjectKind;
  id: string;
}

/** `danger`: harm is being done or has been; `warning`: it comes if nobody acts. */
export const ALARM_SEVERITIES = ['warning', 'danger'] as const;
export type AlarmSeverity = (typeof ALARM_SEVERITIES)[number];

/** A thing that an alarm names. */
export interface NamedItem {
  itemId: string;
  tagCode: string;
}

interface Air {
  airTempC: number;
  relativeHumidityPct: number;
  measuredAtMs: number;
}
interface Clocks {
  items: number;
  households: number;
  /** The first ones by their clocks. */
  first: NamedItem[];
}
interface FreezerAir {
  tempC: number;
  limitC: number;
  measuredAtMs: number;
  /** The first of the readings in a row that were above the limit; null when the last one was not. */
  aboveSinceMs: number | null;
}

/** The numbers behind an alarm; the sentences are made from them when it is read (`alarm-words`). */
export interface AlarmEvidenceOf {
  'room-over-cap': Air & { capPct: number };
  'room-mould-possible': Air & { criticalPct: number };
  /** `soonestRedH`: least hours to red among them in the air of now; null when all stand still. */
  'clock-amber': Clocks & { soonestRedH: number | null };
  'clock-red': Clocks;
  'dehumidifier-stopped': { code: string; name: string; roomId: string; state: 'running' | 'tripped' | 'off'; sinceMs: number | null };
  /** Over the stretch of time: what the running machines should have taken by their labels in this air, and the most they can have taken. */
  'dehumidifier-short': { fromMs: number; toMs: number; running: number; expectedKg: number; atMostKg: number; relativeHumidityPct: number };
  'freezer-warm': FreezerAir;
  'freezer-thawing': FreezerAir;
  /** `expectedEveryMinutes`: what its sensors say of themselves; null when they say nothing, and left out in what was stored before they could. */
  'sensor-silent': { lastAtMs: number; silentH: number; limitH: number; expectedEveryMinutes?: number | null };
  /** Things that nobody has met for longer than their stage allows, the longest unseen first. */
  'things-unseen': { items: number; households: number; oldestSeenMs: number | null; first: NamedItem[] };
}
export type AlarmEvidence = AlarmEvidenceOf[AlarmKind];

/** What the data say: `between` neither raises nor clears, so that a value at the edge does not ring all night; `unknown` changes nothing. */
export type AlarmVerdict = 'on' | 'between' | 'off' | 'unknown';

/** The standing of one alarm by the data of now. */
export interface Sign<K extends AlarmKind = AlarmKind> {
  kind: K;
  subject: AlarmSubject;
  verdict: AlarmVerdict;
  severity: AlarmSeverity;
  evidence: AlarmEvidenceOf[K];
}

/** A sign of any kind, with the evidence of its kind. */
export type AnySign = { [K in AlarmKind]: Sign<K> }[AlarmKind];

/** An alarm that has not been cleared. */
export interface OpenAlarm {
  id: string;
  kind: AlarmKind;
  subject: AlarmSubject;
  severity: AlarmSeverity;
}

/** What there is to write. */
export interface AlarmChanges {
  raise: AnySign[];
  /** Open ones with what is known of them now. */
  renew: { id: string; sign: AnySign }[];
  clear: { id: string; sign: AnySign }[];
}
