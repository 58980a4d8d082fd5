import type { ConfigStores, Stores } from '#application';
import type { PreparedIncident } from '#testing';

/** Ids and codes of the other network's first incident. */
export interface Foreign {
  incident: PreparedIncident;
  householdCode: string;
  revision: string;
  outbox: string;
  /** A row of the outbox that was given up. */
  dead: string;
  /** Subject of a row that is not due yet. */
  delayed: string;
  key: string;
}

export type Read<S> = (stores: S, foreign: Foreign) => Promise<unknown>;

const FAR_AHEAD_MS = Date.parse('2030-01-01T00:00:00Z');
const of = (foreign: Foreign, name: string) => foreign.incident.the(name);
const tagOf = (foreign: Foreign) => foreign.incident.the('itemTag').replaceAll('-', '');
const holding = (foreign: Foreign) => ({ kind: 'holding', id: foreign.incident.places.holding('dirty') }) as const;
const freezer = (foreign: Foreign) => ({ kind: 'freezer', id: foreign.incident.places.freezer('F1') }) as const;
const room = (foreign: Foreign) => ({ kind: 'drying-room', id: foreign.incident.places.room('ROOM') }) as const;
/** The reading of the prepared world, as it would come again. */
const bySensor = (foreign: Foreign) => ({ id: of(foreign, 'reading'), incidentId: foreign.incident.id, place: room(foreign), sensorId: of(foreign, 'sensor'), measuredAtMs: Date.parse('2026-05-09T06:50:00Z'), airTempC: 1, relativeHumidityPct: 50, recordedAtMs: 0, source: 'sensor' as const });
const WEATHER = { id: '', kind: 'observed', validAtMs: Date.parse('2026-05-09T06:00:00Z'), issuedAtMs: null, airTempC: 1, relativeHumidityPct: 50, windMPerS: null, recordedAtMs: 0 } as const;
const page = 50;

/** Every reading method of the stores of commands, asked for things of the other network. */
export const READS: Record<string, Read<Stores>> = {
  'items.lock': (stores, foreign) => stores.items.lock(of(foreign, 'item')),
  'items.lockMany': (stores, foreign) => stores.items.lockMany([of(foreign, 'item'), of(foreign, 'worked')]),
  'items.find': (stores, foreign) => stores.items.find(of(foreign, 'item')),
  'items.findByTag': (stores, foreign) => stores.items.findByTag(of(foreign, 'farTag').replaceAll('-', '')),
  'items.page': (stores, foreign) => stores.items.page(foreign.incident.id, {}, page, null),
  'custody.chain': (stores, foreign) => stores.custody.chain(of(foreign, 'item'), 0, page),
  'households.find': (stores, foreign) => stores.households.find(of(foreign, 'household')),
  'households.findByCode': (stores, foreign) => stores.households.findByCode(foreign.incident.id, foreign.householdCode),
  'households.contact': (stores, foreign) => stores.households.contact(of(foreign, 'household')),
  'households.page': (stores, foreign) => stores.households.page(foreign.incident.id, page, null),
  'consents.ofHousehold': (stores, foreign) => stores.consents.ofHousehold(of(foreign, 'household')),
  'consents.inForce': (stores, foreign) => stores.consents.inForce(of(foreign, 'household'), of(foreign, 'item')),
  'containers.find': (stores, foreign) => stores.containers.find(of(foreign, 'container')),
  'tags.find': (stores, foreign) => stores.tags.find(of(foreign, 'farTag').replaceAll('-', '')),
  'tags.lock': (stores, foreign) => stores.tags.lock(of(foreign, 'farTag').replaceAll('-', '')),
  'tags.known': (stores, foreign) => stores.tags.known([tagOf(foreign), of(foreign, 'farTag').replaceAll('-', '')], null),
  'places.incident': (stores, foreign) => stores.places.incident(foreign.incident.id),
  'places.holdIncident': (stores, foreign) => stores.places.holdIncident(foreign.incident.id),
  'places.find': (stores, foreign) => stores.places.find(foreign.incident.id, holding(foreign)),
  'places.lock': (stores, foreign) => stores.places.lock(foreign.incident.id, freezer(foreign)),
  'places.takenBy': (stores, foreign) => stores.places.takenBy(holding(foreign)),
  'places.holdingArea': (stores, foreign) => stores.places.holdingArea(foreign.incident.places.site(), 'dirty'),
  'places.siteByCode': (stores, foreign) => stores.places.siteByCode(foreign.incident.id, 'HALL'),
  'places.site': (stores, foreign) => stores.places.site(foreign.incident.places.site()),
  'places.crew': (stores, foreign) => stores.places.crew(foreign.incident.id, [foreign.incident.places.person('P1')]),
  'places.siteMembers': (stores, foreign) => stores.places.siteMembers(foreign.incident.places.site()),
  'places.person': (stores, foreign) => stores.places.person(foreign.incident.places.person('P1')),
  'assessments.colourTests': (stores, foreign) => stores.assessments.colourTests(of(foreign, 'worked')),
  'assessments.latest': (stores, foreign) => stores.assessments.latest(of(foreign, 'worked')),
  'assessments.latestTriage': (stores, foreign) => stores.assessments.latestTriage(of(foreign, 'worked')),
  'assessments.latestOverride': (stores, foreign) => stores.assessments.latestOverride(of(foreign, 'worked')),
  'assessments.history': (stores, foreign) => stores.assessments.history(of(foreign, 'worked'), page, null),
  'assessments.overridePage': (stores, foreign) => stores.assessments.overridePage(foreign.incident.id, page, null),
  'assessments.lastSeen': (stores, foreign) => stores.assessments.lastSeen(foreign.incident.id, page),
  'assessments.lastSeenOf': (stores, foreign) => stores.assessments.lastSeenOf([of(foreign, 'worked'), of(foreign, 'item')]),
  'steps.ofItem': (stores, foreign) => stores.steps.ofItem(of(foreign, 'worked')),
  'steps.workedSpans': (stores, foreign) => stores.steps.workedSpans(foreign.incident.id, [foreign.incident.places.person('P1')], 0, FAR_AHEAD_MS),
  'steps.unsuitedPage': (stores, foreign) => stores.steps.unsuitedPage(foreign.incident.id, page, null),
  'steps.openReferral': (stores, foreign) => stores.steps.openReferral(of(foreign, 'referred')),
  'plans.findRun': (stores, foreign) => stores.plans.findRun(of(foreign, 'planRun')),
  'plans.lockRun': (stores, foreign) => stores.plans.lockRun(of(foreign, 'planRun')),
  'plans.openRun': (stores, foreign) => stores.plans.openRun(foreign.incident.id),
  'plans.storedEpoch': (stores, foreign) => stores.plans.storedEpoch(foreign.incident.id),
  'plans.loadInput': (stores, foreign) => stores.plans.loadInput(foreign.incident.id),
  'plans.airInForce': (stores, foreign) => stores.plans.airInForce(foreign.incident.id),
  'plans.currentRevision': (stores, foreign) => stores.plans.currentRevision(foreign.incident.id),
  'plans.assignments': (stores, foreign) => stores.plans.assignments(foreign.revision, {}, page, null),
  'plans.unplanned': (stores, foreign) => stores.plans.unplanned(foreign.revision, page, null),
  'plans.station': (stores, foreign) => stores.plans.station(foreign.incident.places.station('TEST')),
  'plans.workNext': (stores, foreign) => stores.plans.workNext(foreign.incident.places.station('TEST'), foreign.revision, page),
  'plans.workNow': (stores, foreign) => stores.plans.workNow(foreign.incident.places.station('TEST'), page),
  'plans.toHang': (stores, foreign) => stores.plans.toHang(foreign.incident.places.site(), foreign.revision, page),
  'plans.hanging': (stores, foreign) => stores.plans.hanging(foreign.incident.places.site()),
  'handBacks.find': (stores, foreign) => stores.handBacks.find(of(foreign, 'handBack')),
  'handBacks.ofHousehold': (stores, foreign) => stores.handBacks.ofHousehold(of(foreign, 'household')),
  'imports.find': (stores, foreign) => stores.imports.find(of(foreign, 'import')),
  'imports.lock': (stores, foreign) => stores.imports.lock(of(foreign, 'import')),
  'imports.content': (stores, foreign) => stores.imports.content(of(foreign, 'waitingImport')),
  'imports.rows': (stores, foreign) => stores.imports.rows(of(foreign, 'import'), null, page, 0),
  'outbox.find': (stores, foreign) => stores.outbox.find(foreign.outbox),
  'audit.page': (stores) => stores.audit.page(page, null),
  'ruleBook.page': (stores) => stores.ruleBook.page(page, null),
  'ruleBook.openIncidents': (stores) => stores.ruleBook.openIncidents(),
  'ruleBook.itemsBehind': (stores, foreign) => stores.ruleBook.itemsBehind(foreign.incident.id, 'another', page, null),
  'climateRecords.sensor': (stores, foreign) => stores.climateRecords.sensor(foreign.incident.id, of(foreign, 'sensor')),
  'climateRecords.sensorPage': (stores, foreign) => stores.climateRecords.sensorPage(foreign.incident.id, {}, page, null),
  'climateRecords.sensorsNamed': (stores, foreign) => stores.climateRecords.sensorsNamed(foreign.incident.id, [of(foreign, 'sensor')]),
  'climateRecords.places': (stores, foreign) => stores.climateRecords.places(foreign.incident.id),
  'climateRecords.known': (stores, foreign) => stores.climateRecords.known([bySensor(foreign), { ...bySensor(foreign), sensorId: null, place: freezer(foreign) }]),
  'climateRecords.around': (stores, foreign) => stores.climateRecords.around([{ sensorId: of(foreign, 'sensor'), fromMs: 0, toMs: FAR_AHEAD_MS }]),
  'climateRecords.roomsWithRunningMachines': async (stores, foreign) => [...(await stores.climateRecords.roomsWithRunningMachines([room(foreign).id]))],
  'climateRecords.roomAir': (stores, foreign) => stores.climateRecords.roomAir(foreign.incident.id, [room(foreign).id]),
  'climateRecords.newestAt': (stores, foreign) => stores.climateRecords.newestAt([room(foreign)]),
  'climateRecords.page': (stores, foreign) => stores.climateRecords.page(foreign.incident.id, {}, page, null),
  'weighings.ofItem': (stores, foreign) => stores.weighings.ofItem(of(foreign, 'worked')),
  'weighings.page': (stores, foreign) => stores.weighings.page(of(foreign, 'worked'), page, null),
  'weather.known': (stores, foreign) => stores.weather.known([{ ...WEATHER, incidentId: foreign.incident.id, siteId: foreign.incident.places.site(), source: foreign.incident.text('Weather office') }]),
  'weather.page': (stores, foreign) => stores.weather.page(foreign.incident.places.site(), {}, page, null),
  'weather.forecast': (stores, foreign) => stores.weather.forecast(foreign.incident.places.site(), 0, FAR_AHEAD_MS),
  'roomClimate.subject': (stores, foreign) => stores.roomClimate.subject(room(foreign).id),
  'roomClimate.roomOfPlace': (stores, foreign) => stores.roomClimate.roomOfPlace(foreign.incident.places.place('R1')),
  'roomClimate.facts': (stores, foreign) => stores.roomClimate.facts(room(foreign).id),
  'roomClimate.observed': (stores, foreign) => stores.roomClimate.observed(foreign.incident.id, foreign.incident.places.site()),
  'roomClimate.readings': async (stores, foreign) => (await stores.roomClimate.readings(room(foreign).id, null)).map(({ digest }) => String(digest)),
  'roomClimate.digest': async (stores, foreign) => (await stores.roomClimate.digest(room(foreign).id, FAR_AHEAD_MS)).count,
  'roomClimate.elsewhere': (stores, foreign) => stores.roomClimate.elsewhere([room(foreign).id], 0, FAR_AHEAD_MS),
  'roomClimate.digestElsewhere': async (stores, foreign) => (await stores.roomClimate.digestElsewhere([room(foreign).id], FAR_AHEAD_MS)).count,
  'roomClimate.checkpoints': (stores, foreign) => stores.roomClimate.checkpoints(room(foreign).id),
  'roomClimate.checkpoint': async (stores, foreign) => Promise.all((await stores.roomClimate.checkpoints(room(foreign).id)).map(({ atMs }) => stores.roomClimate.checkpoint(room(foreign).id, atMs))),
  'roomClimate.room': (stores, foreign) => stores.roomClimate.room(room(foreign).id),
  'roomClimate.forecast': (stores, foreign) => stores.roomClimate.forecast(room(foreign).id),
  'roomClimate.newestState': (stores, foreign) => stores.roomClimate.newestState(room(foreign).id),
  'roomClimate.item': (stores, foreign) => stores.roomClimate.item(of(foreign, 'hanging')),
  'roomClimate.itemPage': (stores, foreign) => stores.roomClimate.itemPage(room(foreign).id, page, null),
  'roomClimate.freeArea': (stores, foreign) => stores.roomClimate.freeArea(room(foreign).id),
  'roomClimate.lockFreezer': (stores, foreign) => stores.roomClimate.lockFreezer(freezer(foreign).id, page),
  'alarms.open': (stores, foreign) => stores.alarms.open([of(foreign, 'alarmed-0')]),
  'alarms.find': (stores, foreign) => stores.alarms.find(of(foreign, 'alarm-0')),
  'alarms.page': (stores, foreign) => stores.alarms.page(foreign.incident.id, { state: 'all' }, page, null),
  'alarms.countOpen': (stores, foreign) => stores.alarms.countOpen([of(foreign, 'alarmed-0')]),
  'calibration.inForce': (stores) => stores.calibration.inForce(),
  'calibration.page': (stores) => stores.calibration.page(page, null),
  'reports.stages': (stores, foreign) => stores.reports.stages(foreign.incident.id),
  'reports.urgencies': (stores, foreign) => stores.reports.urgencies(foreign.incident.id, FAR_AHEAD_MS),
  'reports.atRisk': (stores, foreign) => stores.reports.atRisk(foreign.incident.id, FAR_AHEAD_MS),
  'reports.stabilised': (stores, foreign) => stores.reports.stabilised(foreign.incident.id),
  'reports.waitingForOwner': (stores, foreign) => stores.reports.waitingForOwner(foreign.incident.id),
  'reports.fills': (stores, foreign) => stores.reports.fills(foreign.incident.id),
  'reports.rooms': (stores, foreign) => stores.reports.rooms(foreign.incident.id),
  'reports.entered': (stores, foreign) => stores.reports.entered(foreign.incident.id),
  'reports.heads': (stores, foreign) => stores.reports.heads(foreign.incident.id, page, null),
  'reports.chains': (stores, foreign) => stores.reports.chains([of(foreign, 'item')]),
  'reports.householdItems': (stores, foreign) => stores.reports.householdItems(of(foreign, 'household')),
};

/** Every reading method of the stores of the configuration; those that take no id are asked for all they show. */
export const CONFIG_READS: Record<string, Read<ConfigStores>> = {
  'layout.incident': (stores, foreign) => stores.layout.incident(foreign.incident.id),
  'layout.incidentPage': (stores) => stores.layout.incidentPage(page, null),
  'layout.heldItems': (stores, foreign) => stores.layout.heldItems(foreign.incident.id),
  'layout.layout': (stores, foreign) => stores.layout.layout(foreign.incident.id),
  'layout.site': (stores, foreign) => stores.layout.site(foreign.incident.id, foreign.incident.places.site()),
  'layout.dryingRoom': (stores, foreign) => stores.layout.dryingRoom(foreign.incident.id, foreign.incident.places.room('ROOM')),
  'layout.find': (stores, foreign) => stores.layout.find('freezer', foreign.incident.id, foreign.incident.places.freezer('F1')),
  'layout.shifts': (stores, foreign) => stores.layout.shifts(foreign.incident.places.person('P1')),
  'layout.openings': (stores, foreign) => stores.layout.openings(foreign.incident.places.station('TEST')),
  'layout.zoneKind': (stores, foreign) => stores.layout.zoneKind(of(foreign, 'zone')).catch(() => null),
  'calibration.inForce': (stores) => stores.calibration.inForce(),
  'keys.page': (stores) => stores.keys.page(page, null),
  'keys.lock': (stores, foreign) => stores.keys.lock(foreign.key),
  'keys.lockManagers': (stores) => stores.keys.lockManagers(),
  'keys.incidentExists': (stores, foreign) => stores.keys.incidentExists(foreign.incident.id),
};

const AT = { nowMs: Date.parse('2026-05-09T10:00:00Z') };
const NO_NUMBERS = { lastAtMs: 0, silentH: 0, limitH: 0 };
/** A reckoning that would forget everything that is stored of a room. */
const NOTHING_RECKONED = { asOfMs: 0, basis: 'ours now', standing: null as never, forecast: null as never, items: [], everHung: [], checkpoints: [], keep: [] };

/** Every changing method that finds its row by a condition, pointed at the other network. */
export const WRITES: Record<string, Read<Stores>> = {
  'items.saveWork': (stores, foreign) => stores.items.saveWork(of(foreign, 'item'), { waitingForOwner: true }, AT.nowMs),
  'items.saveExtent': (stores, foreign) => stores.items.saveExtent(of(foreign, 'item'), { count: 1, areaDm2: 1, volumeL: 1, dryMassG: 1 }, AT.nowMs),
  'items.saveWords': async (stores, foreign) => {
    for (let version = 1; version < 10; version += 1) await stores.items.saveWords(of(foreign, 'item'), version, { description: 'ours now' }, AT.nowMs);
  },
  'tags.tie': (stores, foreign) => stores.tags.tie(of(foreign, 'freeTag').replaceAll('-', ''), {}, AT.nowMs),
  'steps.closeReferral': async (stores, foreign) => {
    await stores.steps.closeReferral(of(foreign, 'referral'), AT.nowMs);
  },
  'plans.reopenRun': async (stores, foreign) => {
    await stores.plans.saveRun(of(foreign, 'planRun'), { state: 'failed' });
    await stores.plans.reopenRun(of(foreign, 'planRun'));
  },
  'plans.saveRun': (stores, foreign) => stores.plans.saveRun(of(foreign, 'planRun'), { failure: { text: 'ours now', values: {} } }),
  'plans.claimStoring': (stores, foreign) => stores.plans.claimStoring(foreign.incident.id, 1_000),
  'imports.finish': (stores, foreign) => stores.imports.finish(of(foreign, 'waitingImport'), { state: 'failed', failure: { text: 'ours now', values: {} }, atMs: AT.nowMs }),
  'climateRecords.saveSensor': (stores, foreign) => stores.climateRecords.saveSensor(foreign.incident.id, of(foreign, 'sensor'), 1, { name: 'ours now' }),
  'climateRecords.saveDoubts': (stores, foreign) => stores.climateRecords.saveDoubts([{ id: of(foreign, 'reading'), doubt: 'jump' }]),
  'climateRecords.refreshRoomAir': async (stores, foreign) => {
    await stores.climateRecords.saveDoubts([{ id: of(foreign, 'reading'), doubt: 'jump' }]);
    await stores.climateRecords.refreshRoomAir([room(foreign).id]);
  },
  'weighings.saveDoubts': (stores, foreign) => stores.weighings.saveDoubts([{ id: of(foreign, 'weighing'), doubt: 'heavier-than-before' }]),
  'roomClimate.claimStoring': (stores, foreign) => stores.roomClimate.claimStoring(room(foreign).id, 1_000),
  'roomClimate.save': (stores, foreign) => stores.roomClimate.save(foreign.incident.id, room(foreign).id, { ...NOTHING_RECKONED }),
  'alarms.renew': (stores, foreign) => stores.alarms.renew(of(foreign, 'alarm-0'), 'danger', NO_NUMBERS, AT.nowMs),
  'alarms.clear': (stores, foreign) => stores.alarms.clear(of(foreign, 'alarm-0'), NO_NUMBERS, AT.nowMs),
  'alarms.acknowledge': (stores, foreign) => stores.alarms.acknowledge(of(foreign, 'alarm-0'), { atMs: AT.nowMs, by: foreign.incident.places.person('P1'), note: 'ours now' }),
  'outbox.hasten': (stores, foreign) => stores.outbox.hasten(foreign.delayed, 0),
  'outbox.markDone': (stores, foreign) => stores.outbox.markDone(foreign.outbox),
  'outbox.revive': (stores, foreign) => stores.outbox.revive(foreign.dead),
};

export const CONFIG_WRITES: Record<string, Read<ConfigStores>> = {
  'layout.saveIncident': (stores, foreign) => stores.layout.saveIncident(foreign.incident.id, 1, { name: 'ours now' }, AT.nowMs),
  'layout.save': (stores, foreign) => stores.layout.save('freezer', foreign.incident.id, foreign.incident.places.freezer('F1'), 1, { volumeL: 1 }),
  'keys.saveEnd': (stores, foreign) => stores.keys.saveEnd(foreign.key, { revokedAtMs: AT.nowMs }),
};

/** Methods that need no drill, each with the reason. */
export const NOT_DRILLED: Record<string, string> = {
  ...Object.fromEntries(
    ['items.insert', 'custody.appendFirst', 'households.insert', 'consents.insert', 'containers.insert', 'tags.insertBlock', 'tags.reserveSerials', 'assessments.insert', 'assessments.insertColourTest', 'assessments.insertTriage', 'assessments.insertOverride', 'steps.insert', 'steps.insertReferral', 'steps.insertUnsuited', 'plans.requestRun', 'plans.takeEpoch', 'plans.saveRevision', 'handBacks.insert', 'imports.insert', 'outbox.append', 'outbox.appendAhead', 'roomClimate.takeEpoch', 'alarms.raise', 'layout.recordMachineState', 'ruleBook.append', 'calibration.append', 'climateRecords.insertSensor', 'climateRecords.insertReadings', 'weighings.insert', 'weather.insert', 'layout.insertIncident', 'layout.insertLayout', 'layout.insertFreezer', 'layout.insertDryingPlace', 'layout.insertPerson', 'keys.insert'].map((name) => [name, 'inserts with network_id as a value; isolation.spec.ts shows that another network is refused there']),
  ),
  'custody.append': 'needs the hash of the row it changes and the incident; its update and insert are covered table by table in isolation.spec.ts',
  'imports.saveRows': 'its insert names the import by network and id together and fails before its update; the update is that of imports.finish',
  'climateRecords.lockPlaces': 'takes a lock of its own network and answers nothing',
  'climateRecords.refreshOutdoorAir': 'an update by network and incident as in layout.saveIncident, from rows that climateRecords.page and weather.page read',
  'climateRecords.readings': 'private; behind the reads of readings',
  'roomClimate.digestOf': 'private; behind the digests',
  'weather.lockSite': 'takes a lock of its own network and answers nothing',
  'outbox.appendUnlessWaiting': 'asks whether a row waits, as outbox.hasten finds it, and inserts as outbox.append',
  'imports.timeZone': 'reads the one row of the network table, covered there',
  'ruleBook.inForce': 'the row of the network and the first row of ruleBook.page, which is drilled; the table network is covered in isolation.spec.ts',
  'ruleBook.startedWith': 'reads the row of the network, covered in isolation.spec.ts',
  'ruleBook.followed': 'private; behind ruleBook.inForce and ruleBook.startedWith',
  'ruleBook.load': 'private; behind ruleBook.followed',
  'ruleBook.awaitIntakes': 'waits for a lock and answers nothing',
  'calibration.load': 'private; behind calibration.inForce',
  'calibration.decisions': 'private; behind calibration.inForce and calibration.page',
  'places.load': 'private; behind places.find and places.lock',
  'places.facts': 'private; behind places.incident and places.holdIncident',
  'reports.risk': 'private; behind reports.atRisk, stabilised and waitingForOwner',
  'plans.work': 'private; behind the work lists',
  'layout.insertFirstReadings': 'private; inserts for the incident that layout.insertLayout has just inserted',
  'layout.key': 'private; builds a condition',
  'layout.table': 'private',
  'layout.tables': 'private',
};
