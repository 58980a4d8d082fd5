/** Reads and writes of hand-backs by appointment, what nobody fetches, offers and slips, for `reads.ts`. */
import type { Stores } from '#application';
import type { Foreign, Read } from './reads.js';

const of = (foreign: Foreign, name: string) => foreign.incident.the(name);
const page = 50;
const AT = { nowMs: Date.parse('2026-05-09T07:00:00Z') };

export const HAND_BACK_READS: Record<string, Read<Stores>> = {
  'bookings.slot': (stores, foreign) => stores.bookings.slot(of(foreign, 'slot')),
  'bookings.slots': (stores, foreign) => stores.bookings.slots(foreign.incident.places.site(), 0, page, null),
  'bookings.lock': (stores, foreign) => stores.bookings.lock(of(foreign, 'appointment')),
  'bookings.ahead': (stores, foreign) => stores.bookings.ahead(of(foreign, 'bookedHousehold')),
  'uncollected.lock': (stores, foreign) => stores.uncollected.lock(of(foreign, 'uncollected')),
  'uncollected.find': (stores, foreign) => stores.uncollected.find(of(foreign, 'uncollected')),
  'uncollected.ofFound': (stores, foreign) => stores.uncollected.ofFound(of(foreign, 'unclaimedItem')),
  'uncollected.votes': (stores, foreign) => stores.uncollected.votes(of(foreign, 'unclaimed')),
  'uncollected.page': (stores, foreign) => stores.uncollected.page(foreign.incident.id, page, null),
  'uncollected.held': (stores, foreign) => stores.uncollected.held(of(foreign, 'bookedHousehold')),
  'quotes.lock': (stores, foreign) => stores.quotes.lock(of(foreign, 'quote')),
  'quotes.ofItem': async (stores, foreign) => stores.quotes.ofItem((await stores.quotes.lock(of(foreign, 'quote')))?.itemId ?? of(foreign, 'item')),
  'paperKits.find': (stores, foreign) => stores.paperKits.find(of(foreign, 'paperKit')),
  'paperKits.lock': (stores, foreign) => stores.paperKits.lock(of(foreign, 'paperKit')),
  'paperKits.slips': (stores, foreign) => stores.paperKits.slips(of(foreign, 'paperKit')),
  'paperKits.sheets': (stores, foreign) => stores.paperKits.sheets(of(foreign, 'paperKit')),
  'paperKits.lines': (stores, foreign) => stores.paperKits.lines(of(foreign, 'paperKit')),
};

export const HAND_BACK_WRITES: Record<string, Read<Stores>> = {
  'bookings.takePlace': (stores, foreign) => stores.bookings.takePlace(of(foreign, 'slot')),
  'bookings.givePlace': async (stores, foreign) => {
    await stores.bookings.takePlace(of(foreign, 'slot'));
    await stores.bookings.takePlace(of(foreign, 'slot'));
    await stores.bookings.givePlace(of(foreign, 'slot'));
  },
  'bookings.save': (stores, foreign) => stores.bookings.save({ id: of(foreign, 'appointment'), incidentId: '', slotId: '', householdId: '', state: 'cancelled', code: null, check: null, bookedAtMs: 0, bookedBy: '', endedAtMs: AT.nowMs, endedBy: foreign.key, version: 1 }),
  'uncollected.save': (stores, foreign) => stores.uncollected.save({ id: of(foreign, 'uncollected'), incidentId: '', householdId: '', itemId: null, openedAtMs: 0, openedBy: '', firstReminderAtMs: 0, secondReminderAtMs: 0, decideAtMs: 0, deciderId: '', reminders: 1, remindedAtMs: AT.nowMs, state: 'open', decision: null, reasonSealed: null, endedAtMs: null, endedBy: null, version: 1 }),
  'quotes.save': (stores, foreign) => stores.quotes.save({ id: of(foreign, 'quote'), incidentId: '', itemId: '', specialistId: '', amount: { minor: 1, currency: 'USD' }, validUntilMs: 0, work: '', state: 'declined', basis: null, consentId: null, recordedAtMs: 0, recordedBy: '', decidedAtMs: AT.nowMs, decidedBy: foreign.key, version: 1 }),
  'paperKits.key': (stores, foreign) => stores.paperKits.key(of(foreign, 'paperKit'), { slipNo: 1, state: 'void', fingerprint: 'ours now', itemId: null, voidReason: 'lost', writtenAtMs: null, keyedAtMs: AT.nowMs, keyedBy: foreign.incident.places.person('P1'), keyedWith: foreign.key }),
};
