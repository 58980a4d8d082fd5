/** Invented hand-backs and records for papers. */
import { protectionOf, writeReceipt, type HandBackPaper, type HouseholdRecord, type ItemDossier, type ItemRecord, type HandedItem, type PaperKitToPrint, type ReferralPackage } from '#application';
import { DEFAULT_BOOK, triageOutcome, type Assessment, type MaterialClass, type StepKind } from '#care';
import { makeTagCode, NO_MATTERS } from '#custody';

export const NOW_MS = Date.parse('2026-05-20T15:10:00Z');
const FLOOD_MS = Date.parse('2026-05-08T18:00:00Z');
const id = (n: number): string => `0198b7a0-0000-7000-8000-${String(n).padStart(12, '0')}`;

/** Words of a family, with a word that is wider than any column. */
export const LONG_WORD = 'Schmetterlingsflügelstickereirahmenabdeckungsbefestigungsbänder';
const THINGS = ['Wedding quilt, red and white', 'Colcha de novia de la abuela, con ñandutí', `Frame, ${LONG_WORD}`, 'Letters from the front, in a biscuit tin', 'Álbum de fotos «Verano en la montaña»', 'Baby shoes'];

export function assessmentOf(materialClass: MaterialClass, change: Partial<Assessment> = {}): Assessment {
  return {
    materialClass, fibre: 'cotton', count: 1, wetState: 'dry', wettedAtMs: FLOOD_MS, water: 'black', mould: 'none', fragility: 'sound', colourTests: [{ colour: 'red border', solution: 'water', method: 'swab', reading: 'no-transfer' }],
    allColoursTested: true, alreadyBled: false, hazards: [], significance: 'irreplaceable', onlyCopy: true, highMarketValue: false, consents: { treat: true, freeze: true, refer: true, release: null }, ...change,
  };
}

function itemOf(index: number, materialClass: MaterialClass): ItemRecord {
  return {
    networkId: id(1), incidentId: id(2), id: id(1_000 + index), householdId: id(3), siteId: id(4), tagCode: makeTagCode(1_000 + index, 'item'), kind: 'item', count: index % 7 === 6 ? 12 : 1, splitFromId: null,
    description: THINGS[index % THINGS.length] as string, familyWords: '', photographRef: 'photo-1', photographedOn: '2026-05-09', materialClass, sizeClass: 'double-quilt', areaDm2: 1, volumeL: 1, dryMassG: 1, significance: 'irreplaceable',
    arrivedAtMs: FLOOD_MS, wettedAtMs: null, seq: 3, headHash: '', keeper: { kind: 'holding', id: id(5) }, stage: 'waiting', matters: NO_MATTERS, lastSeenAtMs: FLOOD_MS, urgency: null, startByMs: null, disposition: 'treat',
    planningWeight: 1, stabilisedAtMs: null, nextStep: 'hand-back', routePosition: 0, waitingForOwner: false, version: 3, createdAtMs: FLOOD_MS, updatedAtMs: NOW_MS,
  };
}

const DONE: readonly StepKind[] = ['photograph', 'assess', 'colour-test', 'rinse', 'blot', 'dry', 'check'];
const SOME: readonly StepKind[] = ['photograph', 'assess'];

function standingOf(item: ItemRecord, steps: readonly StepKind[]): HandedItem['standing'] {
  const observed = assessmentOf(item.materialClass, steps === SOME ? { wetState: 'damp', mould: 'unknown' } : {});
  const results = steps.map((step, index) => ({ id: id(9_000 + index), incidentId: item.incidentId, itemId: item.id, step, outcome: 'done' as const, undoes: [], stationId: null, personId: null, note: '', startedAtMs: null, finishedAtMs: FLOOD_MS + index, recordedAtMs: FLOOD_MS + index }));
  return { assessment: { id: id(6), incidentId: item.incidentId, itemId: item.id, observed, origin: 'person', assessedBy: id(7), assessedAtMs: FLOOD_MS, recordedAtMs: FLOOD_MS }, results, done: new Set(steps), override: null, ownerAsked: false, stop: null };
}

/** A hand-back of so many things, of some materials, written by the program's own receipt. */
export function handBackOf(things: number, change: Partial<HandBackPaper> = {}): HandBackPaper {
  const household: HouseholdRecord = { networkId: id(1), incidentId: id(2), id: id(3), code: 'HH-0042', language: 'es-US', unknownOwner: false, version: 1, createdAtMs: 0, updatedAtMs: 0 };
  const materials: MaterialClass[] = things === 1 ? ['textile-quilt-padded'] : ['textile-quilt-padded', 'book-bound', 'photo-silver-gelatin', 'wood-small-object', 'leather-tanned', 'paper-uncoated', 'ceramic-glazed', 'metal-iron', 'album-or-scrapbook', 'textile-everyday'];
  const handed = Array.from({ length: things }, (_, index) => {
    const item = itemOf(index, materials[index % materials.length] as MaterialClass);
    return { item, standing: standingOf(item, index % 3 === 1 ? SOME : DONE), conditionNote: index % 4 === 3 ? `Dry. One corner torn; ${LONG_WORD}.` : 'Dry, colours as before, one seam open at the left edge.' };
  });
  const receipt = writeReceipt(id(8), household, NOW_MS, handed, { book: DEFAULT_BOOK, context: { nowMs: NOW_MS, floodAtMs: FLOOD_MS, airTempC: 22 } });
  return {
    receipt, householdLanguage: 'es-US', incidentName: 'High water at Elmsford Reach', timeZone: 'America/Denver', receiver: 'contact', identityCheck: 'document-seen', handedBy: 'Lead one', handedAtMs: NOW_MS, recordedAtMs: NOW_MS,
    reservations: null, signature: null, codeUsed: false, ...change,
  };
}

export const SIGNED = [[60, 300, 120, 80, 180, 320, 240, 100, 300, 310], [340, 200, 420, 190, 500, 240, 620, 120, 760, 260, 900, 180], [930, 330]];

/** The record of one thing with so many steps. */
export function dossierOf(steps = 9, change: Partial<ItemDossier> = {}): ItemDossier {
  const item = itemOf(1, 'textile-quilt-padded');
  const observed = assessmentOf(item.materialClass, { wetState: 'dripping', mould: 'unknown' });
  const kinds: StepKind[] = ['photograph', 'assess', 'colour-test', 'rinse', 'blot', 'dry', 'check', 'surface-clean', 'pack'];
  return {
    item: { ...item, tag: 'BBBC-BBB-47' }, householdCode: 'HH-0042', householdLanguage: 'en', incidentName: 'High water at Elmsford Reach', timeZone: 'America/Denver', floodAtMs: FLOOD_MS,
    where: [{ text: 'On the shelf {name}, {site}.', values: { name: 'A-1', site: 'Weir Lane hall' } }],
    first: { atMs: FLOOD_MS + 46_800_000, observed }, latest: { atMs: NOW_MS - 86_400_000, observed: assessmentOf(item.materialClass) },
    tests: [{ atMs: FLOOD_MS + 50_000_000, test: { colour: 'red border', solution: 'water', method: 'swab', reading: 'no-transfer' } }, { atMs: FLOOD_MS + 50_400_000, test: { colour: `white ${LONG_WORD}`, solution: 'detergent', method: 'swab', reading: 'any-transfer' } }],
    weighings: [{ atMs: FLOOD_MS + 60_000_000, massKg: 6.25, doubtful: false }, { atMs: FLOOD_MS + 160_000_000, massKg: 2.2, doubtful: true }],
    steps: Array.from({ length: steps }, (_, index) => ({
      step: kinds[index % kinds.length] as StepKind, outcome: index === 4 ? ('failed' as const) : ('done' as const), startedAtMs: null, finishedAtMs: FLOOD_MS + 50_000_000 + index * 3_600_000,
      hands: { text: '{count, plural, one {# person} other {# people}}, {skill}', values: { count: 2, skill: { text: 'rinsing' } } }, station: 'Station RINSE', note: index === 4 ? 'Towels ran out.' : '',
    })),
    outcome: triageOutcome(observed, { nowMs: NOW_MS, floodAtMs: FLOOD_MS, airTempC: 22 }), words: [{ scope: 'treat', given: true, manner: 'spoken', recordedAtMs: FLOOD_MS }, { scope: 'refer', given: true, manner: 'link', recordedAtMs: FLOOD_MS }],
    photographs: [{ reference: 'photo-1', takenOn: '2026-05-09' }], referLimit: { minor: 25_000, currency: 'USD' }, asOfMs: NOW_MS, ...change,
  };
}

/** A kit of so many slips for a site with two stations and two places. */
export function kitOf(slips: number): PaperKitToPrint {
  const station = (sheetNo: number, code: string, zone: 'dirty' | 'clean') => ({ sheetNo, kind: 'station' as const, code, name: `Station ${code}, ${LONG_WORD}`, zone });
  return {
    kit: { id: id(77), incidentId: id(2), siteId: id(4), tagBlockId: id(78), slips, createdAtMs: NOW_MS, createdBy: id(7) }, incidentName: 'High water at Elmsford Reach',
    codes: Array.from({ length: slips }, (_, index) => makeTagCode(5_000 + index, 'item')), stations: [station(1, 'RINSE', 'dirty'), station(2, 'BLOT', 'clean')],
    places: [{ sheetNo: 3, kind: 'freezer', code: 'F1', name: 'Chest freezer 1', zone: null }, { sheetNo: 4, kind: 'drying-place', code: 'R1', name: 'Rack 1', zone: 'clean' }],
  };
}

/** The package for a specialist about the thing of `dossierOf`. */
export function packageOf(steps = 9): ReferralPackage {
  const dossier = dossierOf(steps);
  const { outcome } = dossier;
  return {
    dossier, hoursWet: Math.floor((NOW_MS - FLOOD_MS) / 3_600_000), sinceFlood: true, ...protectionOf(outcome), never: [...outcome.never], referral: [...outcome.referral], atMs: NOW_MS,
    ownerUnknown: [],
    quotes: [{
      id: id(91), incidentId: id(2), itemId: dossier.item.id, specialistId: id(92), amount: { minor: 18_000, currency: 'USD' }, validUntilMs: NOW_MS + 864_000_000, work: `Wet cleaning on a suction table, ${LONG_WORD}.`, state: 'approved', basis: 'consent-limit', consentId: id(93),
      recordedAtMs: NOW_MS, recordedBy: id(7), decidedAtMs: NOW_MS, decidedBy: id(7), version: 2,
    }],
  };
}
