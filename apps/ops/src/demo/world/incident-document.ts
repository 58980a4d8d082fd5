import type { StepKind, Zone } from '#care';
import type { RegisterIncidentInput } from '#contracts';
import { DAY, FLOOD_AT_MS, momentMs } from '../calibration.js';
import { crewOf } from './crews.js';
import { CODES, NETWORKS, NETWORK_OF_SITE, REGION } from './region.js';
import type { NetworkKey, SiteCode } from './types.js';

type SiteInput = RegisterIncidentInput['sites'][number];
type StationInput = NonNullable<SiteInput['stations']>[number];
type RoomInput = NonNullable<SiteInput['dryingRooms']>[number];
type FreezerInput = NonNullable<SiteInput['freezers']>[number];

const SITES: readonly SiteCode[] = ['DYEWORKS', 'SCHOOL', 'FISHHALL'];
const SITE_NAMES: Readonly<Record<SiteCode, [string, string]>> = {
  DYEWORKS: ['Old dye works', 'Tenter Lane 4'],
  SCHOOL: ['Quarry Road school', 'Quarry Road 1'],
  FISHHALL: ['Fish hall', 'Quayside 9'],
};

/** The whole night too: a watch is there, and a lot may come at any hour. */
const OPENINGS = [{ opensAt: iso(momentMs(1, 7)), closesAt: iso(momentMs(2, 20)) }];

/** The document that registers the incident of one network. `scale` shrinks crews and places with the number of things. */
export function incidentDocument(network: NetworkKey, seed: number, scale: number): RegisterIncidentInput {
  const sites = SITES.filter((site) => NETWORK_OF_SITE[site] === network);
  return {
    name: `${REGION.flood}, ${NETWORKS[network].name}`,
    place: NETWORKS[network].place,
    floodAt: iso(FLOOD_AT_MS),
    defaultWater: 'black',
    outdoorAirTempC: 24,
    outdoorRelativeHumidityPct: 90,
    sites: sites.map((site) => siteDocument(site, scale)),
    people: sites.flatMap((site) => crewOf(site, seed, scale)),
    specialists: [
      { code: 'TEXTILE', name: 'Textile conservation studio', field: 'textiles with dyes that move, silk, painted cloth' },
      { code: 'PAPER', name: 'Paper and parchment studio', field: 'parchment, albums, works on paper' },
    ],
  };
}

function siteDocument(site: SiteCode, scale: number): SiteInput {
  const [name, place] = SITE_NAMES[site];
  return { code: site, name, place, zones: ['dirty', 'clean', 'quarantine', 'cold'], stations: stations(site, scale), dryingRooms: [dryingRoom(site, scale)], freezers: freezers(site, scale) };
}

function stations(site: SiteCode, scale: number): StationInput[] {
  const share = (site === 'DYEWORKS' ? 1 : 0.6) * Math.min(1, scale);
  const station = (code: string, name: string, zone: Zone, capacity: number, steps: StepKind[]): StationInput => ({ code, name, zone, steps, capacity: Math.max(2, Math.round(capacity * share)), openings: OPENINGS });
  return [
    station('LOOK', 'Assessment tables', 'dirty', 8, ['photograph', 'assess']),
    station('TEST', 'Colour tests', 'dirty', 5, ['colour-test']),
    station('BATH', 'Rinse baths', 'dirty', 6, ['rinse']),
    station('LAYER', 'Interleaving and brushing', 'dirty', 6, ['stabilise', 'surface-clean', 'check']),
    station('DOCK', 'Wrapping and loading, dirty side', 'dirty', 6, ['wrap', 'pack', 'refer', 'release', 'hand-back']),
    station('BLOT', 'Blotting tables', 'clean', 8, ['blot', 'stabilise']),
    station('CHECK', 'Dry check', 'clean', 4, ['check', 'surface-clean', 'photograph', 'assess', 'colour-test']),
    station('HOME', 'Packing and hand-back', 'clean', 5, ['wrap', 'pack', 'refer', 'release', 'hand-back']),
    station('QUARANTINE', 'Mould room', 'quarantine', 2, ['photograph', 'assess', 'stabilise', 'rinse', 'blot', 'check', 'surface-clean', 'wrap', 'pack', 'refer', 'release', 'hand-back']),
    station('COLD', 'Freezer bay', 'cold', 4, ['freeze', 'thaw']),
  ];
}

/** A smaller day has smaller halls and machines too, or the air of a few things in a great hall would stay as it is. */
function dryingRoom(site: SiteCode, scale: number): RoomInput {
  const share = Math.max(0.2, Math.min(1, scale));
  const airShare = Math.min(1, scale);
  const room = { airChangesPerH: 0.5, humidityCapPct: 75, measuredAt: iso(DAY.preparedAtMs) };
  if (site === 'DYEWORKS') {
    // One hired machine does most of the work, so that the room is lost with it.
    return { ...room, code: CODES.hall, name: 'Upper hall', volumeM3: 1_400 * airShare, airTempC: 22, relativeHumidityPct: 62, dehumidifiers: dehumidifiers(airShare, 20, 180, 20), dryingPlaces: [...places('R', 'rack', 6, 16 * share), ...places('S', 'screen', 6, 8 * share), ...places('L', 'line', 4, 10 * share)] };
  }
  if (site === 'SCHOOL') {
    // No rack, and tables that take 80 prints each: the night's lot of 240 finds a place only when it is split.
    return { ...room, code: 'GYM', name: 'Gymnasium', volumeM3: 900 * airShare, airTempC: 21, relativeHumidityPct: 60, dehumidifiers: dehumidifiers(airShare, 70, 70), dryingPlaces: places('T', 'table', Math.max(6, Math.round(30 * share)), 1.6) };
  }
  return { ...room, code: 'FLOOR', name: 'Auction floor', volumeM3: 700 * airShare, airTempC: 20, relativeHumidityPct: 63, dehumidifiers: dehumidifiers(airShare, 55, 55), dryingPlaces: [...places('R', 'rack', 4, 12 * share), ...places('S', 'screen', 3, 6 * share)] };
}

/** Labels give litres a day at 26.7 C and 60 % (the air of the AHAM rating, ANSI/AHAM DH-1; from memory). */
function dehumidifiers(share: number, ...ratedLPerDay: number[]): NonNullable<RoomInput['dehumidifiers']> {
  return ratedLPerDay.map((litres, index) => ({ code: `D${index + 1}`, name: `Dehumidifier ${index + 1}`, ratedLPerDay: Math.round(litres * share), ratedTempC: 26.7, ratedRelativeHumidityPct: 60 }));
}

function places(letter: string, arrangement: 'rack' | 'screen' | 'line' | 'table', count: number, areaM2: number): NonNullable<RoomInput['dryingPlaces']> {
  return Array.from({ length: count }, (_, index) => ({ code: `${letter}${index + 1}`, name: `${arrangement[0]!.toUpperCase()}${arrangement.slice(1)} ${index + 1}`, arrangement, areaM2: Math.round(areaM2 * 100) / 100 }));
}

/** A few borrowed chests: far less than what waits for them. */
function freezers(site: SiteCode, scale: number): FreezerInput[] {
  const share = Math.max(0.3, Math.min(1, scale));
  return Array.from({ length: site === 'DYEWORKS' ? 2 : 1 }, (_, index) => ({ code: `F${index + 1}`, name: `Chest freezer ${index + 1}`, volumeL: Math.round(300 * share), setPointC: -20, availableFrom: iso(DAY.preparedAtMs) }));
}

function iso(ms: number): string {
  return new Date(ms).toISOString();
}
