/** One fault of the document, with its place. */
export interface DocumentFault {
  path: (string | number)[];
  message: string;
}

/**
 * What a document of an incident gets wrong about itself: codes that come twice, codes and zones that nothing stands
 * for, openings and shifts that end before they begin. Reads defensively, because it also runs on documents that have
 * other faults; what is not of the right form is passed over here (its form is reported elsewhere).
 */
export function incidentDocumentFaults(document: unknown): DocumentFault[] {
  const faults: DocumentFault[] = [];
  const sites = list(document, 'sites');
  const people = list(document, 'people');
  const siteCodes = new Set(sites.map((site) => word(site, 'code')));
  faults.push(...outdoorAirFaults(document));
  faults.push(...repeatedCodes(sites, ['sites'], 'site of this incident'));
  faults.push(...repeatedCodes(people, ['people'], 'person of this incident'));
  faults.push(...repeatedCodes(list(document, 'specialists'), ['specialists'], 'specialist of this incident'));
  list(document, 'specialists').forEach((specialist, index) => faults.push(...specialistFaults(specialist, ['specialists', index])));
  sites.forEach((site, index) => faults.push(...siteFaults(site, ['sites', index])));
  people.forEach((person, index) => {
    const siteCode = word(person, 'site');
    if (siteCode !== null && !siteCodes.has(siteCode)) faults.push({ path: ['people', index, 'site'], message: `no site of this document has the code ${quoted(siteCode)}` });
    faults.push(...repeatedWords(person, 'skills', ['people', index]), ...repeatedWords(person, 'restrictions', ['people', index]));
    faults.push(...reversed(list(person, 'shifts'), ['people', index, 'shifts'], 'startsAt', 'endsAt', 'the shift ends before it starts'));
  });
  return faults;
}

/** How many things are on the bench says nothing without how long each is there; hours are those of somebody who is there. */
export function specialistFaults(specialist: unknown, path: DocumentFault['path'] = []): DocumentFault[] {
  const missing = ['piecesAtOnce', 'hoursPerPiece'].filter((name) => (member(specialist, name) ?? null) === null);
  return [
    ...(missing.length === 1 ? missing.map((name) => ({ path: [...path, name], message: 'give piecesAtOnce and hoursPerPiece together, or neither' })) : []),
    ...repeatedWords(specialist, 'materialClasses', path),
    ...reversed(list(specialist, 'openings'), [...path, 'openings'], 'opensAt', 'closesAt', 'the opening ends before or when it begins', true),
  ];
}

/** Outdoor air is a pair: relative humidity says nothing without the temperature, and the drying forecast needs both. */
export function outdoorAirFaults(incident: unknown): DocumentFault[] {
  const names = ['outdoorAirTempC', 'outdoorRelativeHumidityPct'];
  const missing = names.filter((name) => (member(incident, name) ?? null) === null);
  return missing.length === 1 ? missing.map((name) => ({ path: [name], message: 'give outdoor temperature and relative humidity together, or neither' })) : [];
}

function siteFaults(site: unknown, path: DocumentFault['path']): DocumentFault[] {
  const faults: DocumentFault[] = [...repeatedWords(site, 'zones', path)];
  const zones = words(site, 'zones');
  const stations = list(site, 'stations');
  const areas = list(site, 'holdingAreas');
  const rooms = list(site, 'dryingRooms');
  faults.push(...repeatedCodes(stations, [...path, 'stations'], 'station of this site'), ...repeatedCodes(areas, [...path, 'holdingAreas'], 'holding area of this site'));
  faults.push(...repeatedCodes(rooms, [...path, 'dryingRooms'], 'drying room of this site'), ...repeatedCodes(list(site, 'freezers'), [...path, 'freezers'], 'freezer of this site'));
  stations.forEach((station, index) => {
    const at = [...path, 'stations', index];
    faults.push(...zoneFault(station, zones, at), ...repeatedWords(station, 'steps', at));
    faults.push(...reversed(list(station, 'openings'), [...at, 'openings'], 'opensAt', 'closesAt', 'the opening ends before or when it begins', true));
  });
  areas.forEach((area, index) => faults.push(...zoneFault(area, zones, [...path, 'holdingAreas', index]), ...reservedCode(area, zones, [...path, 'holdingAreas', index])));
  rooms.forEach((room, index) => {
    faults.push(...repeatedCodes(list(room, 'dehumidifiers'), [...path, 'dryingRooms', index, 'dehumidifiers'], 'dehumidifier of this room'));
    faults.push(...repeatedCodes(list(room, 'dryingPlaces'), [...path, 'dryingRooms', index, 'dryingPlaces'], 'drying place of this room'));
  });
  return faults;
}

/** Code of the holding area that a zone gets when the document names none. */
export function automaticHoldingCode(zone: string): string {
  return `HOLD-${zone}`;
}

function reservedCode(area: unknown, zones: readonly string[], path: DocumentFault['path']): DocumentFault[] {
  const zone = word(area, 'zone');
  const other = zones.find((candidate) => candidate !== zone && automaticHoldingCode(candidate) === word(area, 'code'));
  return other === undefined ? [] : [{ path: [...path, 'code'], message: `this code is kept for the holding area of the zone ${other}` }];
}

function zoneFault(thing: unknown, zones: readonly string[], path: DocumentFault['path']): DocumentFault[] {
  const zone = word(thing, 'zone');
  return zone === null || zones.includes(zone) ? [] : [{ path: [...path, 'zone'], message: `the site names no zone ${quoted(zone)}; add it to its zones` }];
}

function repeatedCodes(things: readonly unknown[], path: DocumentFault['path'], what: string): DocumentFault[] {
  const seen = new Set<string>();
  return things.flatMap((thing, index) => {
    const code = word(thing, 'code');
    if (code === null) return [];
    if (seen.has(code)) return [{ path: [...path, index, 'code'], message: `another ${what} has the code ${quoted(code)}` }];
    seen.add(code);
    return [];
  });
}

function repeatedWords(thing: unknown, member: string, path: DocumentFault['path']): DocumentFault[] {
  const all = words(thing, member);
  return all.flatMap((value, index) => (all.indexOf(value) < index ? [{ path: [...path, member, index], message: `${quoted(value)} is there already` }] : []));
}

function reversed(spans: readonly unknown[], path: DocumentFault['path'], from: string, to: string, message: string, strictly = false): DocumentFault[] {
  return spans.flatMap((span, index) => {
    const [start, end] = [Date.parse(word(span, from) ?? ''), Date.parse(word(span, to) ?? '')];
    return end < start || (strictly && end === start) ? [{ path: [...path, index, to], message }] : [];
  });
}

function member(thing: unknown, name: string): unknown {
  return typeof thing === 'object' && thing !== null ? (thing as Record<string, unknown>)[name] : undefined;
}

function list(thing: unknown, name: string): unknown[] {
  const value = member(thing, name);
  return Array.isArray(value) ? (value as unknown[]) : [];
}

function words(thing: unknown, name: string): string[] {
  return list(thing, name).map((value) => (typeof value === 'string' ? value : ''));
}

function word(thing: unknown, name: string): string | null {
  const value = member(thing, name);
  return typeof value === 'string' ? value : null;
}

function quoted(value: string): string {
  return `"${value.slice(0, 60)}"`;
}
