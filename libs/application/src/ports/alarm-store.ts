import type { AlarmEvidence, AlarmKind, AlarmSeverity, AlarmSubject, OpenAlarm } from '../climate/alarms/types.js';

/** An alarm from raising to clearing. */
export interface AlarmRecord {
  id: string;
  incidentId: string;
  kind: AlarmKind;
  subject: AlarmSubject;
  severity: AlarmSeverity;
  raisedAtMs: number;
  /** The numbers at raising. */
  evidence: AlarmEvidence;
  /** The numbers as last seen while it was open. */
  present: AlarmEvidence;
  presentAtMs: number;
  acknowledged: { atMs: number; by: string; note: string; present: AlarmEvidence } | null;
  cleared: { atMs: number; evidence: AlarmEvidence } | null;
  version: number;
}

/** With the names that its sentences need. */
export interface AlarmView extends AlarmRecord {
  subjectCode: string;
  subjectName: string;
  acknowledgedByName: string | null;
}

export interface AlarmFilter {
  state: 'open' | 'cleared' | 'all';
  kind?: AlarmKind;
  subjectId?: string;
}

export interface AlarmStore {
  /** Open alarms about any of these. */
  open(subjectIds: readonly string[]): Promise<OpenAlarm[]>;
  /** Raises it unless one of its kind about the same thing is open; answers whether it was raised. */
  raise(alarm: Pick<AlarmRecord, 'id' | 'incidentId' | 'kind' | 'subject' | 'severity' | 'raisedAtMs' | 'evidence'>): Promise<boolean>;
  renew(id: string, severity: AlarmSeverity, present: AlarmEvidence, atMs: number): Promise<void>;
  clear(id: string, evidence: AlarmEvidence, atMs: number): Promise<void>;
  find(id: string): Promise<AlarmView | null>;
  /** Answers false when somebody has acknowledged it already. */
  acknowledge(id: string, acknowledged: { atMs: number; by: string; note: string }): Promise<boolean>;
  /** Keyset page, newest first; `beforeId` is exclusive. */
  page(incidentId: string, filter: AlarmFilter, limit: number, beforeId: string | null): Promise<AlarmView[]>;
  /** Open alarms of an incident about these things. */
  countOpen(subjectIds: readonly string[]): Promise<number>;
}
