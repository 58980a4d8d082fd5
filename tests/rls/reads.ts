import type { ConfigStores, Stores } from '#application';
import type { PreparedIncident } from '#testing';
import { FAMILY_READS, FAMILY_WRITES } from './reads.families.js';
import { FILE_READS, FILE_WRITES } from './file-reads.js';
import { WHERE_READS } from './reads.where.js';
import { HAND_BACK_READS, HAND_BACK_WRITES } from './reads.hand-back.js';
import { RETENTION_READS, RETENTION_WRITES } from './reads.retention.js';

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
  'aid.findAgreement': (stores, foreign) => stores.aid.findAgreement(of(foreign, 'aidAgreement')),
  'aid.lockAgreement': (stores, foreign) => stores.aid.lockAgreement(of(foreign, 'aidAgreement')),
  'aid.agreements': (stores, foreign) => stores.aid.agreements(foreign.incident.id, page, null),
  'aid.findOffer': (stores, foreign) => stores.aid.findOffer(of(foreign, 'aidOffer')),
  'aid.lastAccepted': (stores, foreign) => stores.aid.lastAccepted(of(foreign, 'lentItem')),
  'aid.offers': (stores, foreign) => stores.aid.offers(foreign.incident.id, {}, page, null),
  'items.withMatters': (stores, foreign) => stores.items.withMatters(foreign.incident.id, null, page, null),
  'reports.matters': (stores, foreign) => stores.reports.matters(foreign.incident.id),
  'stockTakes.placesOf': (stores, foreign) => stores.stockTakes.placesOf(foreign.incident.places.site()),
  'stockTakes.find': (stores, foreign) => stores.stockTakes.find(of(foreign, 'stockTake')),
  'stockTakes.lock': (stores, foreign) => stores.stockTakes.lock(of(foreign, 'stockTake'), 'update'),
  'stockTakes.lines': (stores, foreign) => stores.stockTakes.lines(of(foreign, 'stockTake')),
  'stockTakes.scans': (stores, foreign) => stores.stockTakes.scans(of(foreign, 'stockTake')),
  'stockTakes.resolutions': (stores, foreign) => stores.stockTakes.resolutions(of(foreign, 'stockTake')),
  'stockTakes.standing': (stores, foreign) => stores.stockTakes.standing([of(foreign, 'countedItem')]),
  'custody.chain': (stores, foreign) => stores.custody.chain(of(foreign, 'item'), 0, page),
  'custodyRoots.findMany': (stores) => stores.custodyRoots.findMany([1, 2]),
  'custodyRoots.page': (stores) => stores.custodyRoots.page(page, 0),
  'custodyRoots.keys': (stores) => stores.custodyRoots.keys(),
  'custodyRoots.rootsOf': (stores, foreign) => stores.custodyRoots.rootsOf(of(foreign, 'item'), 0, page),
  'custodyRoots.subtrees': (stores) => stores.custodyRoots.subtrees(1),
  'custodyAudit.events': (stores) => stores.custodyAudit.events('item', null, 10_000),
  'custodyAudit.assigned': (stores) => stores.custodyAudit.assigned(1),
  'custodyAudit.leaves': (stores) => stores.custodyAudit.leaves(1),
  'custodyAudit.waiting': (stores) => stores.custodyAudit.waiting(),
  'households.find': (stores, foreign) => stores.households.find(of(foreign, 'household')),
  'households.findByCode': (stores, foreign) => stores.households.findByCode(foreign.incident.id, foreign.householdCode),
  'households.contact': (stores, foreign) => stores.households.contact(of(foreign, 'household')),
  'erasures.lockHousehold': (stores, foreign) => stores.erasures.lockHousehold(of(foreign, 'household')),
  'erasures.stillHeld': (stores, foreign) => stores.erasures.stillHeld(of(foreign, 'household'), page),
  'erasures.everything': (stores, foreign) => stores.erasures.everything(of(foreign, 'household')),
  ...RETENTION_READS,
  'households.page': (stores, foreign) => stores.households.page(foreign.incident.id, page, null),
  'consents.ofHousehold': (stores, foreign) => stores.consents.ofHousehold(of(foreign, 'household')),
  ...FAMILY_READS,
  'consents.inForce': (stores, foreign) => stores.consents.inForce(of(foreign, 'household'), of(foreign, 'item')),
  'containers.find': (stores, foreign) => stores.containers.find(of(foreign, 'container')),
  'containers.lockMany': (stores, foreign) => stores.containers.lockMany([of(foreign, 'container')], 'update'),
  'containers.path': (stores, foreign) => stores.containers.path(of(foreign, 'container')),
  'containers.inside': (stores, foreign) => stores.containers.inside(of(foreign, 'packedContainer')),
  'containers.contents': (stores, foreign) => stores.containers.contents(of(foreign, 'packedContainer'), true, page, null),
  'containers.chain': (stores, foreign) => stores.containers.chain(of(foreign, 'container'), 0, page),
  'containers.heads': (stores, foreign) => stores.containers.heads(foreign.incident.id, page, null),
  'containers.chains': (stores, foreign) => stores.containers.chains([of(foreign, 'container')]),
  ...WHERE_READS, ...HAND_BACK_READS,
  'handOvers.find': (stores, foreign) => stores.handOvers.find(of(foreign, 'handOver')),
  'handOvers.lock': (stores, foreign) => stores.handOvers.lock(of(foreign, 'handOver')),
  'handOvers.page': (stores, foreign) => stores.handOvers.page(foreign.incident.id, null, page, null),
  'manifests.find': (stores, foreign) => stores.manifests.find(of(foreign, 'manifest')),
  'manifests.lock': (stores, foreign) => stores.manifests.lock(of(foreign, 'manifest')),
  'manifests.loadingOf': (stores, foreign) => stores.manifests.loadingOf({ kind: 'container', id: of(foreign, 'loadingContainer') }),
  'manifests.thingsOn': (stores, foreign) => stores.manifests.thingsOn({ kind: 'container', id: of(foreign, 'packedContainer') }),
  'manifests.exceptionsOf': async (stores, foreign) => stores.manifests.exceptionsOf((await stores.manifests.lockException(of(foreign, 'exception')))?.manifestId ?? of(foreign, 'manifest')),
  'manifests.lockException': (stores, foreign) => stores.manifests.lockException(of(foreign, 'exception')),
  'manifests.exceptionsPage': (stores, foreign) => stores.manifests.exceptionsPage(foreign.incident.id, false, page, null),
  'tags.find': (stores, foreign) => stores.tags.find(of(foreign, 'farTag').replaceAll('-', '')),
  'tags.lock': (stores, foreign) => stores.tags.lock(of(foreign, 'farTag').replaceAll('-', '')),
  'tags.known': (stores, foreign) => stores.tags.known([tagOf(foreign), of(foreign, 'farTag').replaceAll('-', '')], null),
  'tags.block': async (stores, foreign) => stores.tags.block(of(foreign, 'tagBlock')),
  'tags.blocks': (stores, foreign) => stores.tags.blocks(foreign.incident.id, page, null),
  'tags.printable': async (stores, foreign) => stores.tags.printable({ id: of(foreign, 'tagBlock'), incidentId: foreign.incident.id, kind: 'place', firstSerial: Number(of(foreign, 'tagBlockFirst')), lastSerial: Number(of(foreign, 'tagBlockFirst')) + 1, reservedFor: '', createdAtMs: 0 }, 0, page),
  'tags.predecessor': (stores, foreign) => stores.tags.predecessor(of(foreign, 'newTag').replaceAll('-', '')),
  'tags.liveOf': (stores, foreign) => stores.tags.liveOf({ place: { kind: 'freezer', id: of(foreign, 'taggedFreezer') } }),
  'labelTemplates.find': (stores, foreign) => stores.labelTemplates.find(of(foreign, 'labelTemplate')),
  'labelTemplates.page': (stores) => stores.labelTemplates.page(page, null),
  'labelTemplates.incidentName': (stores, foreign) => stores.labelTemplates.incidentName(foreign.incident.id),
  'places.incident': (stores, foreign) => stores.places.incident(foreign.incident.id),
  'places.holdIncident': (stores, foreign) => stores.places.holdIncident(foreign.incident.id),
  'places.find': (stores, foreign) => stores.places.find(foreign.incident.id, holding(foreign)),
  'places.othersLike': (stores, foreign) => stores.places.othersLike(foreign.incident.id, { keeper: { kind: 'freezer', id: foreign.incident.id }, siteId: foreign.incident.places.site(), zone: null, code: '', name: '', steps: [], capacity: null, arrangement: null }, page),
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
  'plans.newestRevision': (stores, foreign) => stores.plans.newestRevision(foreign.incident.id),
  'plans.revision': (stores, foreign) => stores.plans.revision(foreign.revision),
  'plans.revisionByNumber': (stores, foreign) => stores.plans.revisionByNumber(foreign.incident.id, 1),
  'plans.revisionPage': (stores, foreign) => stores.plans.revisionPage(foreign.incident.id, page, null),
  'plans.revisionView': (stores, foreign) => stores.plans.revisionView(foreign.revision),
  'plans.changes': async (stores, foreign) => (await stores.plans.changes({ beforeId: null, nowId: foreign.revision }, null, page, null)).rows,
  'planWishes.find': (stores, foreign) => stores.planWishes.find(of(foreign, 'planWish')),
  'planWishes.page': (stores, foreign) => stores.planWishes.page(foreign.incident.id, { state: 'all' }, page, null),
  'planGrounds.findPacked': (stores, foreign) => stores.planGrounds.findPacked(foreign.revision),
  'planProgress.kept': (stores, foreign) => stores.planProgress.kept(foreign.incident.id),
  'planProgress.plannedBy': (stores, foreign) => stores.planProgress.plannedBy(foreign.revision),
  'planProgress.dueWhileInForce': (stores, foreign) => stores.planProgress.dueWhileInForce(foreign.incident.id, 0, FAR_AHEAD_MS),
  'planProgress.promised': (stores, foreign) => stores.planProgress.promised(foreign.revision),
  'planProgress.itemsNow': (stores, foreign) => stores.planProgress.itemsNow([of(foreign, 'item'), of(foreign, 'worked')]),
  'planProgress.inWorkAt': (stores, foreign) => stores.planProgress.inWorkAt(foreign.incident.places.station('TEST')),
  'planProgress.reported': (stores, foreign) => stores.planProgress.reported([of(foreign, 'item'), of(foreign, 'worked')], 0),
  'planProgress.begun': (stores, foreign) => stores.planProgress.begun([of(foreign, 'item'), of(foreign, 'hanging')], 0),
  'planWhatIfs.openOnes': (stores, foreign) => stores.planWhatIfs.openOnes(foreign.incident.id),
  'planWhatIfs.find': (stores, foreign) => stores.planWhatIfs.find(of(foreign, 'planWhatIf')),
  'planWhatIfs.lock': (stores, foreign) => stores.planWhatIfs.lock(of(foreign, 'planWhatIf')),
  'planWhatIfs.newestAbout': (stores, foreign) => stores.planWhatIfs.newestAbout(of(foreign, 'item'), foreign.revision),
  'planWhatIfs.layout': (stores, foreign) => stores.planWhatIfs.layout(foreign.incident.id),
  'planWhatIfs.labels': (stores, foreign) => stores.planWhatIfs.labels([of(foreign, 'item')]),
  'plans.assignments': (stores, foreign) => stores.plans.assignments(foreign.revision, {}, page, null),
  'plans.unplanned': (stores, foreign) => stores.plans.unplanned(foreign.revision, page, null),
  'plans.station': (stores, foreign) => stores.plans.station(foreign.incident.places.station('TEST')),
  'plans.workNext': (stores, foreign) => stores.plans.workNext(foreign.incident.places.station('TEST'), foreign.revision, page),
  'plans.workNow': (stores, foreign) => stores.plans.workNow(foreign.incident.places.station('TEST'), page),
  'plans.isUnplannedReferral': (stores, foreign) => stores.plans.isUnplannedReferral(foreign.incident.the('item'), foreign.incident.places.specialist('SP1')),
  'plans.toRefer': (stores, foreign) => stores.plans.toRefer(foreign.revision, null, page),
  'plans.toCarry': (stores, foreign) => stores.plans.toCarry(foreign.revision, page),
  'plans.toHang': (stores, foreign) => stores.plans.toHang(foreign.incident.places.site(), foreign.revision, page),
  'plans.hanging': (stores, foreign) => stores.plans.hanging(foreign.incident.places.site()),
  ...FILE_READS,
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
  'roomClimate.reporting': async (stores, foreign) => (await stores.roomClimate.reporting('drying-room', room(foreign).id)).everyMinutes,
  'roomClimate.lockFreezer': (stores, foreign) => stores.roomClimate.lockFreezer(freezer(foreign).id, page),
  'alarms.open': (stores, foreign) => stores.alarms.open([of(foreign, 'alarmed-0')]),
  'alarms.find': (stores, foreign) => stores.alarms.find(of(foreign, 'alarm-0')),
  'alarms.page': (stores, foreign) => stores.alarms.page(foreign.incident.id, { state: 'all' }, page, null),
  'alarms.countOpen': (stores, foreign) => stores.alarms.countOpen([of(foreign, 'alarmed-0')]),
  'calibration.inForce': (stores) => stores.calibration.inForce(),
  'calibration.page': (stores) => stores.calibration.page(page, null),
  'reports.stages': (stores, foreign) => stores.reports.stages(foreign.incident.id),
  'scans.sightingsOf': (stores, foreign) => stores.scans.sightingsOf({ itemId: of(foreign, 'seen') }, page, null),
  'scans.earlier': (stores, foreign) => stores.scans.earlier(foreign.incident.id, [of(foreign, 'scan')]),
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
  'layout.zoneOf': (stores, foreign) => stores.layout.zoneOf(foreign.incident.places.site(), 'clean'),
  'layout.zoneKind': (stores, foreign) => stores.layout.zoneKind(of(foreign, 'zone')).catch(() => null),
  'calibration.inForce': (stores) => stores.calibration.inForce(),
  'keys.page': (stores) => stores.keys.page(page, null),
  'keys.lock': (stores, foreign) => stores.keys.lock(foreign.key),
  'keys.lockManagers': (stores) => stores.keys.lockManagers(),
  'keys.incidentExists': (stores, foreign) => stores.keys.incidentExists(foreign.incident.id),
};

const AT = { nowMs: Date.parse('2026-05-09T10:00:00Z') };
const NO_ONE = { kind: 'courier', id: '' } as const;
const NO_HAND_OVER = { incidentId: '', from: NO_ONE, to: NO_ONE, giverId: '', reason: '', state: 'withdrawn', offeredAtMs: 0, expiresAtMs: 0, endedAtMs: AT.nowMs, endedNote: 'ours now', version: 1, things: 0 } as const;
const NO_MANIFEST = { incidentId: '', carrier: NO_ONE, fromSiteId: '', toSiteId: '', personId: '', state: 'departed', createdAtMs: 0, departedAtMs: AT.nowMs, arrivedAtMs: null, arrivedBy: null, version: 1 } as const;
const NO_EXCEPTION = { incidentId: '', manifestId: '', thing: 'item', thingId: '', tagCode: '', kind: 'missing', reason: '', ownerId: '', openedAtMs: 0, settledAtMs: AT.nowMs, settlement: 'ours now' } as const;
const NO_NUMBERS = { lastAtMs: 0, silentH: 0, limitH: 0 };
/** A reckoning that would forget everything that is stored of a room. */
const NOTHING_RECKONED = { asOfMs: 0, basis: 'ours now', standing: null as never, forecast: null as never, items: [], everHung: [], checkpoints: [], keep: [] };

/** Every changing method that finds its row by a condition, pointed at the other network. */
export const WRITES: Record<string, Read<Stores>> = {
  'personal.destroyKey': (stores, foreign) => stores.personal.destroyKey(of(foreign, 'household'), FAR_AHEAD_MS),
  ...HAND_BACK_WRITES,
  ...FILE_WRITES,
  'tags.swap': (stores, foreign) => stores.tags.swap(of(foreign, 'farTag').replaceAll('-', ''), of(foreign, 'newTag').replaceAll('-', ''), { actorId: foreign.incident.id, nowMs: 0 }),
  'stockTakes.close': (stores, foreign) => stores.stockTakes.close(of(foreign, 'stockTake'), foreign.incident.places.person('P1'), 0),
  'aid.saveAgreement': (stores, foreign) => stores.aid.saveAgreement(of(foreign, 'aidAgreement'), { state: 'revoked' }),
  'aid.saveOffer': (stores, foreign) => stores.aid.saveOffer(of(foreign, 'aidOffer'), { state: 'declined', answeredAtMs: 0 }),
  'items.saveWork': (stores, foreign) => stores.items.saveWork(of(foreign, 'item'), { waitingForOwner: true }, AT.nowMs),
  'items.saveExtent': (stores, foreign) => stores.items.saveExtent(of(foreign, 'item'), { count: 1, areaDm2: 1, volumeL: 1, dryMassG: 1 }, AT.nowMs),
  'items.saveWords': async (stores, foreign) => {
    for (let version = 1; version < 10; version += 1) await stores.items.saveWords(of(foreign, 'item'), version, { description: 'ours now' }, AT.nowMs);
  },
  ...FAMILY_WRITES,
  ...RETENTION_WRITES,
  'handOvers.end': (stores, foreign) => stores.handOvers.end({ ...NO_HAND_OVER, lines: [], id: of(foreign, 'handOver'), endedBy: foreign.incident.places.person('P1') }),
  'manifests.save': (stores, foreign) => stores.manifests.save({ ...NO_MANIFEST, lines: [], id: of(foreign, 'manifest'), departedBy: foreign.incident.places.person('P1') }),
  'manifests.settle': async (stores, foreign) => stores.manifests.settle({ ...NO_EXCEPTION, id: of(foreign, 'exception'), settledBy: foreign.incident.places.person('P1') }),
  'tags.tie': (stores, foreign) => stores.tags.tie(of(foreign, 'freeTag').replaceAll('-', ''), {}, { ...AT, actorId: foreign.key }),
  'tags.replace': (stores, foreign) => stores.tags.replace(of(foreign, 'farTag').replaceAll('-', ''), of(foreign, 'freeTag').replaceAll('-', ''), 'lost', { ...AT, actorId: foreign.key }),
  'steps.closeReferral': async (stores, foreign) => {
    await stores.steps.closeReferral(of(foreign, 'referral'), AT.nowMs);
  },
  'plans.reopenRun': async (stores, foreign) => {
    await stores.plans.saveRun(of(foreign, 'planRun'), { state: 'failed' });
    await stores.plans.reopenRun(of(foreign, 'planRun'));
  },
  'plans.saveRun': (stores, foreign) => stores.plans.saveRun(of(foreign, 'planRun'), { failure: { text: 'ours now', values: {} } }),
  'plans.saveRounds': async (stores, foreign) => {
    await stores.plans.saveRun(of(foreign, 'planRun'), { state: 'running', epoch: 1 });
    await stores.plans.saveRounds(of(foreign, 'planRun'), 1, 7);
  },
  'plans.claimStoring': (stores, foreign) => stores.plans.claimStoring(foreign.incident.id, 1_000),
  'plans.publish': (stores, foreign) => stores.plans.publish({ id: of(foreign, 'planProposal'), incidentId: foreign.incident.id }, foreign.incident.places.person('P1'), AT.nowMs),
  'planWishes.withdraw': (stores, foreign) => stores.planWishes.withdraw(of(foreign, 'planWish'), { atMs: AT.nowMs, by: foreign.incident.places.person('P1'), reason: 'ours now' }),
  'planWishes.lapse': (stores, foreign) => stores.planWishes.lapse([{ wishId: of(foreign, 'planWish'), why: { text: 'ours now' } }], AT.nowMs),
  'planWhatIfs.save': (stores, foreign) => stores.planWhatIfs.save(of(foreign, 'planWhatIf'), { plansDone: 1 }),
  'planWhatIfs.reopen': async (stores, foreign) => {
    await stores.planWhatIfs.save(of(foreign, 'brokenWhatIf'), { plansDone: 1 });
    await stores.planWhatIfs.reopen(of(foreign, 'brokenWhatIf'));
  },
  'planWhatIfs.dropOld': (stores, foreign) => stores.planWhatIfs.dropOld(foreign.incident.id, 0),
  'custodyRoots.takeWaiting': (stores) => stores.custodyRoots.takeWaiting(FAR_AHEAD_MS, 10_000),
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
