/** A chunk of rows in one transaction: decide each, take in what goes in, and note what became of every one. */
import { LANGUAGES, render, say, type Consents, type WaterKind } from '#care';
import { Problem } from '#contracts';
import type { Keeper } from '#custody';
import type { UseCaseCall } from '../../call.js';
import { takeInHousehold, toRecord, type ConsentInput } from '../../commands/take-in-household.js';
import type { HouseholdContact, HouseholdRecord } from '../../ports/household-store.js';
import type { ImportRecord, ImportRowRecord, RowOutcome } from '../../ports/import-store.js';
import type { IncidentFacts } from '../../ports/place-store.js';
import type { Stores } from '../../ports/work.js';
import { takeInOne } from '../take-in.js';
import { decideRow, refuseBy, type Verdict } from './decide-row.js';
import { differsFrom, householdKey, type FileHousehold } from './households-of-file.js';
import { CONTACT_COLUMNS, IMPORT_COLUMNS } from './import-columns.js';
import type { RowRemarks } from './row-remarks.js';
import type { RowConsents, RowReading } from './row-values.js';
import { refuseUntrue } from './untrue-row.js';

/** What the rows of one import share. */
export interface ImportJob {
  record: ImportRecord;
  readings: readonly RowReading[];
  households: ReadonlyMap<string, FileHousehold>;
  /** Rows that the intake refused in a transaction that was undone for it; they are not tried again. */
  undone: Map<number, Problem>;
}

/** The intake refused a row that had been decided for: the transaction is undone and the chunk starts again without it. */
export class RowUndone extends Error {
  constructor(
    readonly rowNumber: number,
    readonly problem: Problem,
  ) {
    super(`row ${rowNumber}: ${problem.code}`);
  }
}

/** Carries out some rows. @throws RowUndone */
export async function applyRows(stores: Stores, call: UseCaseCall, job: ImportJob, readings: readonly RowReading[]): Promise<ImportRowRecord[]> {
  // Held open, so that nothing of this chunk goes into an incident that somebody closes meanwhile.
  const incident = await stores.places.holdIncident(job.record.incidentId);
  if (incident === null) throw new Error('an import without its incident');
  const chunk = new Chunk(stores, call, job, incident, await holdingKeeper(stores, job.record.siteId));
  const outcomes: ImportRowRecord[] = [];
  for (const reading of readings) outcomes.push(await chunk.apply(reading));
  return outcomes;
}

/** The waiting area where things of a file are put down, as at the doorway; null when the site has none. */
export async function holdingKeeper(stores: Stores, siteId: string): Promise<Keeper | null> {
  return ((await stores.places.holdingArea(siteId, 'dirty')) ?? (await stores.places.holdingArea(siteId, 'clean')))?.keeper ?? null;
}

interface KnownHousehold {
  record: HouseholdRecord;
  contact: HouseholdContact;
  /** What the household as a whole agreed to. */
  inForce: Consents;
}

const SCOPES = ['treat', 'freeze', 'refer'] as const;

class Chunk {
  private readonly known = new Map<string, KnownHousehold | null>();

  constructor(
    private readonly stores: Stores,
    private readonly call: UseCaseCall,
    private readonly job: ImportJob,
    private readonly incident: IncidentFacts,
    private readonly to: Keeper | null,
  ) {}

  async apply(reading: RowReading): Promise<ImportRowRecord> {
    const remarks = reading.remarks.copy();
    if (this.incident.state === 'closed') remarks.refuse('', 'incident_closed', say('The incident takes in nothing more. Open it again, or use the incident that runs.'));
    if (this.to === null) remarks.refuse('', 'site_without_waiting_area', say('The site has no waiting area to put the thing down in. Add one, and send the row again.'));
    refuseUntrue(reading, remarks, this.incident, this.call.env.nowMs);
    const household = reading.values.householdCode === '' ? null : await this.household(reading, remarks);
    const verdict = await this.decide(reading, remarks, household);
    const itemId = verdict.verdict === 'take-in' ? await this.takeIn(reading, remarks, household) : verdict.verdict === 'already-there' ? verdict.itemId : null;
    return this.outcome(reading, remarks, verdict, itemId);
  }

  private async decide(reading: RowReading, remarks: RowRemarks, household: KnownHousehold | null): Promise<Verdict> {
    const verdict = await decideRow(this.stores, reading, remarks, { incidentId: this.incident.id, household: household?.record ?? null });
    const undone = this.job.undone.get(reading.rowNumber);
    // Whatever stood in the way may be visible now, and then the decision says it better.
    return verdict.verdict === 'take-in' && undone !== undefined ? refuseBy(undone, remarks, reading.values.tag) : verdict;
  }

  private async takeIn(reading: RowReading, remarks: RowRemarks, onRecord: KnownHousehold | null): Promise<string> {
    const { values } = reading;
    const household = onRecord ?? (await this.newHousehold(reading, remarks));
    if (onRecord !== null && differsFrom(values.contact, onRecord.contact)) remarks.note('', 'contact_kept', say('The household is known and its contact was left as it is. Change it at the household if the file is right.'));
    try {
      const item = await takeInOne(this.stores, this.call, {
        incident: this.incident, siteId: this.job.record.siteId, household: household.record, tag: values.tag, count: values.count, lot: values.count > 1,
        description: values.object, familyWords: values.familyWords, photographRef: values.photographRef, materialClass: values.materialClass, sizeClass: values.sizeClass,
        significance: values.significance, arrivedAtMs: values.arrivedAtMs, wettedAtMs: values.wettedAtMs, water: values.water ?? (this.incident.defaultWater as WaterKind), to: this.to,
        consents: overlay(household.inForce, values.consents),
      });
      const own = SCOPES.filter((scope) => values.consents[scope] !== null && values.consents[scope] !== household.inForce[scope]);
      await this.stores.consents.insert(own.map((scope) => toRecord(this.call, household.record, item.id, this.consent(scope, values.consents[scope] === true, reading.rowNumber, household.record.language))));
      return item.id;
    } catch (error) {
      throw error instanceof Problem ? new RowUndone(reading.rowNumber, error) : error;
    }
  }

  /** The household of a row as it is on record; null when its code is new. */
  private async household(reading: RowReading, remarks: RowRemarks): Promise<KnownHousehold | null> {
    const code = reading.values.householdCode;
    const key = householdKey(code);
    let known = this.known.get(key);
    if (known === undefined) {
      known = await this.load(code);
      this.known.set(key, known);
    }
    if (known !== null && known.record.code !== code) remarks.repair('household', 'household_case', say('The code is on record with other capital letters; it is the same household.'), code, known.record.code);
    return known;
  }

  private async load(code: string): Promise<KnownHousehold | null> {
    for (const spelling of new Set([code, code.toUpperCase(), code.toLowerCase()])) {
      const record = await this.stores.households.findByCode(this.incident.id, spelling);
      if (record === null) continue;
      const { consents } = await this.stores.consents.inForce(record.id, record.id);
      const contact = (await this.stores.households.contact(record.id)) ?? { name: '', phone: '', email: '', address: '' };
      return { record, contact, inForce: consents };
    }
    return null;
  }

  /** Registers a household whose code is new, with all that the file says about it. */
  private async newHousehold(reading: RowReading, remarks: RowRemarks): Promise<KnownHousehold> {
    const key = householdKey(reading.values.householdCode);
    const inFile = this.job.households.get(key);
    if (inFile === undefined) throw new Error('a row without its household');
    const given = SCOPES.filter((scope) => inFile.consents[scope] !== null);
    const { household } = await takeInHousehold(this.stores, this.call, {
      incidentId: this.incident.id, code: reading.values.householdCode, language: inFile.language, contact: inFile.contact,
      consents: given.map((scope) => this.consent(scope, inFile.consents[scope] === true, reading.rowNumber, inFile.language)),
    });
    if (inFile.contact.name === '') remarks.note('contactName', 'contact_not_given', say('The household was registered without a name. Find out whom to call before anything must be decided.'));
    const known = { record: household, contact: inFile.contact, inForce: { ...inFile.consents, release: null } };
    this.known.set(key, known);
    return known;
  }

  /** A cell is no signature: it counts as spoken, with where it stands. The note is kept as text like any that a person writes, in the language of the household. */
  private consent(scope: ConsentInput['scope'], given: boolean, rowNumber: number, language: string): ConsentInput {
    const note = render(say('Intake file, row {row}, as its sender wrote it down.', { row: rowNumber }), LANGUAGES.find((known) => known === language) ?? 'en');
    return { scope, given, manner: 'spoken', note };
  }

  private outcome(reading: RowReading, remarks: RowRemarks, { verdict }: Verdict, itemId: string | null): ImportRowRecord {
    const outcome: RowOutcome = verdict === 'take-in' ? (remarks.repairs.length > 0 ? 'repaired' : 'accepted') : verdict;
    const cells = outcome === 'refused' ? reading.cells : Object.fromEntries(IMPORT_COLUMNS.filter((column) => !CONTACT_COLUMNS.has(column) && column in reading.cells).map((column) => [column, reading.cells[column] ?? '']));
    return { importId: this.job.record.id, incidentId: this.incident.id, rowNumber: reading.rowNumber, outcome, itemId, remarks: remarks.all(), cells };
  }
}

/** A row's own answer goes before that of the household. */
function overlay(household: Consents, row: RowConsents): Consents {
  return { ...household, treat: row.treat ?? household.treat, freeze: row.freeze ?? household.freeze, refer: row.refer ?? household.refer };
}
