import type { z } from 'zod';
import type { AlarmBody } from '#contracts';
import { ApiRefusal } from '../api-client.js';
import type { Book, Site } from './book.js';
import type { Crew } from './crew.js';

export type Alarm = z.output<typeof AlarmBody>;

/** What a lead writes beside the name. */
const NOTES: Partial<Record<Alarm['kind'], string>> = { 'dehumidifier-stopped': 'The electrician is asked for.', 'freezer-warm': 'It has just come and cools down.' };
const NOTE = 'Seen; somebody goes and looks.';

/** Alarms of one network as its leads meet them: whoever leads on a site, or is there when no lead is, reads the list and says by name that it was seen. */
export class AlarmRounds {
  /** Seen and acknowledged by us, by id. */
  private readonly seen = new Set<string>();
  /** Ids that were open at the last look, to notice what has gone. */
  private open = new Map<string, Alarm>();

  constructor(
    private readonly book: Book,
    private readonly crews: ReadonlyMap<string, Crew>,
    private readonly say: (line: string) => void,
  ) {}

  /** One look at the list. Answers the alarms that somebody took in hand now. */
  async look(atMs: number): Promise<Alarm[]> {
    const now = await this.book.api.list<Alarm>(`/v1/incidents/${this.book.incidentId}/alarms`);
    for (const gone of [...this.open.values()].filter(({ id }) => !now.some((alarm) => alarm.id === id))) this.tell(atMs, `cleared by what is measured: ${this.place(gone)}, ${KIND_WORDS[gone.kind]}.`);
    this.open = new Map(now.map((alarm) => [alarm.id, alarm]));
    const taken: Alarm[] = [];
    for (const alarm of now.filter(({ id, acknowledged }) => acknowledged === null && !this.seen.has(id))) {
      const lead = this.leadFor(alarm, atMs);
      if (lead === null) continue;
      await this.acknowledge(alarm, lead);
      taken.push(alarm);
      this.tell(atMs, `alarm of ${alarm.raisedAt.slice(11, 16)}: ${alarm.what} ${this.nameOf(lead)} has seen it.`);
    }
    return taken;
  }

  /** All alarms of the incident, the oldest first. */
  async all(): Promise<Alarm[]> {
    return (await this.book.api.list<Alarm>(`/v1/incidents/${this.book.incidentId}/alarms?state=all`)).reverse();
  }

  siteOf({ subject }: Alarm): Site | undefined {
    return this.book.layout.sites.find((site) => site.dryingRooms.some((room) => room.id === subject.id || room.dehumidifiers.some((machine) => machine.id === subject.id)) || site.freezers.some((freezer) => freezer.id === subject.id));
  }

  private async acknowledge(alarm: Alarm, personId: string): Promise<void> {
    this.seen.add(alarm.id);
    try {
      await this.book.api.post(`/v1/alarms/${alarm.id}/acknowledgements`, { personId, note: NOTES[alarm.kind] ?? NOTE });
    } catch (error) {
      if (!(error instanceof ApiRefusal) || error.code !== 'already_exists') throw error;
    }
  }

  /** Who leads there, else whoever is there; nobody at night where there is no watch. */
  private leadFor(alarm: Alarm, atMs: number): string | null {
    const site = this.siteOf(alarm);
    return site === undefined ? null : (this.crews.get(site.id)?.anybody('lead', atMs) ?? null);
  }

  private place(alarm: Alarm): string {
    return `${this.siteOf(alarm)?.name ?? ''}, ${alarm.subject.name.toLowerCase()}`;
  }

  private nameOf(personId: string): string {
    return this.book.layout.people.find(({ id }) => id === personId)?.displayName ?? 'A lead';
  }

  private tell(atMs: number, words: string): void {
    this.say(`${new Date(atMs).toISOString().slice(11, 16)}  ${words.charAt(0).toUpperCase()}${words.slice(1)}`);
  }
}

/** The kinds of alarms in the words of the hall. */
export const KIND_WORDS: Readonly<Record<Alarm['kind'], string>> = {
  'room-over-cap': 'air above its cap', 'room-mould-possible': 'air in which mould can grow', 'clock-amber': 'clocks at amber', 'clock-red': 'clocks used up', 'dehumidifier-stopped': 'dehumidifier tripped',
  'dehumidifier-short': 'dehumidifiers take less than their labels say', 'freezer-warm': 'freezer too warm', 'freezer-thawing': 'freezer thawing', 'sensor-silent': 'no readings', 'things-unseen': 'things that nobody has met',
};
