import { type IncidentOnTest, startTestServer, takeInTestHousehold, takeInTestItem, type HouseholdOnTest, type TestNetwork, type TestServer } from '#testing';

type Item = Awaited<ReturnType<typeof takeInTestItem>>;

/** What is known of a sound cotton quilt from river water, as a person sees it. */
export const SOUND_COTTON = { fibre: 'cotton', wetState: 'wet', mould: 'none', fragility: 'sound', alreadyBled: false, onlyCopy: true, highMarketValue: false };

export const OWNER_SAYS_YES = (['treat', 'freeze', 'refer'] as const).map((scope) => ({ scope, given: true, manner: 'spoken' }));

/** One network with one incident, and the moves that the tests of care and station work make all the time. All through the API. */
export class Workbench {
  private constructor(
    readonly server: TestServer,
    readonly network: TestNetwork,
    readonly incident: IncidentOnTest,
  ) {}

  /** `change` is applied to the document of the small incident before it is registered. */
  static async open(change?: Parameters<TestNetwork['incident']>[0]): Promise<Workbench> {
    const server = await startTestServer();
    const network = await server.network();
    return new Workbench(server, network, await network.incident(change));
  }

  close(): Promise<void> {
    return this.server.close();
  }

  household(consents: object[] = OWNER_SAYS_YES): Promise<HouseholdOnTest> {
    return takeInTestHousehold(this.network, this.incident, consents);
  }

  takeIn(household: HouseholdOnTest, change: object = {}): Promise<Item> {
    return takeInTestItem(this.network, this.incident, household, change);
  }

  /** A quilt that is assessed as sound cotton. */
  async assessedQuilt(household: HouseholdOnTest, change: object = {}): Promise<Item> {
    const item = await this.takeIn(household, change);
    await this.assess(item.id).expect(201);
    return item;
  }

  /** A quilt whose colours are all tested and hold: the rinse comes next. */
  async testedQuilt(household: HouseholdOnTest, change: object = {}): Promise<Item> {
    const item = await this.assessedQuilt(household, change);
    await this.colourTest(item.id, 'no-transfer').expect(201);
    return item;
  }

  assess(itemId: string, seen: object = {}) {
    return this.network.post(`/v1/items/${itemId}/assessments`, { personId: this.incident.person('P1'), ...SOUND_COTTON, ...seen });
  }

  colourTest(itemId: string, reading: string, allColoursTested = true) {
    const tests = [{ colour: 'red border', solution: 'water', method: 'swab', reading }];
    return this.network.post(`/v1/items/${itemId}/colour-tests`, { personId: this.incident.person('P2'), tests, allColoursTested });
  }

  report(itemId: string, step: string, outcome = 'done', change: object = {}) {
    return this.network.post(`/v1/items/${itemId}/step-results`, { step, outcome, personId: this.incident.person('P1'), ...change });
  }

  async read(itemId: string): Promise<Item> {
    return (await this.network.get(`/v1/items/${itemId}`).expect(200)).body as Item;
  }

  /** A custody event from where the item is now. */
  async pass(itemId: string, kind: string, to: { kind: string; id: string }) {
    const { keeper } = await this.read(itemId);
    return this.network.post(`/v1/items/${itemId}/custody-events`, { kind, from: keeper, to, personId: this.incident.person('P2') }).expect(201);
  }

  startAt(itemId: string, station: string) {
    return this.pass(itemId, 'work-started', { kind: 'station', id: this.incident.station(station) });
  }

  hang(itemId: string) {
    return this.pass(itemId, 'drying-started', { kind: 'drying-place', id: this.incident.place('R1') });
  }

  holding(zone: string) {
    return { kind: 'holding', id: this.incident.holding(zone) };
  }

  freezer() {
    return { kind: 'freezer', id: this.incident.freezer('F1') };
  }

  handBack(household: HouseholdOnTest, itemIds: string[], change: object = {}) {
    const items = itemIds.map((itemId) => ({ itemId, conditionNote: 'Dry, colours as before, one seam open at the left edge.' }));
    return this.network.post(`/v1/households/${household.id}/hand-backs`, { items, receiver: 'contact', identityCheck: 'document-seen', signatureRef: 'receipts/0007', ...change });
  }
}

/** Digest of everything that a refused command must not touch. */
export async function recordOf(bench: Workbench, itemId: string): Promise<unknown> {
  const { rows } = await bench.server.admin.query(
    `select (select row_to_json(i) from item i where i.id = $1) as item,
            (select count(*)::int from custody_event e where e.item_id = $1) as events, (select count(*)::int from step_result s where s.item_id = $1) as results,
            (select count(*)::int from assessment a where a.item_id = $1) as assessments, (select count(*)::int from triage_result t where t.item_id = $1) as triages`,
    [itemId],
  );
  return rows[0];
}
